import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { type DeviceSetting, voltsPerKelvin2014 } from '#core/physics'
import { expectRelative } from '#core/testing'
import { baseCurrentAt, leakageBias } from './gain-bridge.ts'
import reference from './gain-dial.ref.json' with { type: 'json' }
import {
  checkGainDial,
  dialAtGain,
  dialExampleCsv,
  type GainBridge,
  type GainDialWish,
  gainAtDial,
  readDialTable,
  type Transistor,
} from './index.ts'
import { needlePerTurn, nullCircuit } from './null-circuit.ts'

const setting: DeviceSetting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

type Case = (typeof reference.ratio.cases)[number]

const ratio = (c: Case): GainBridge => ({
  kind: 'ratio',
  dial: 'collector',
  emfV: reference.ratio.emfV,
  fixedOhm: reference.ratio.baseOhm,
  baseEmitterV: c.baseV,
})

const divider = (c: Case): GainBridge => ({
  kind: 'divider',
  dial: 'base',
  emfV: reference.divider.emfV,
  fixedOhm: reference.divider.collectorOhm,
  tapFraction: reference.divider.tapFraction,
  dividerOhm: reference.divider.dividerOhm,
  baseEmitterV: c.baseV,
})

describe.each([
  ['ratio', reference.ratio, ratio],
  ['divider', reference.divider, divider],
] as const)('the %s bridge, as ngspice has it', (_, set, bridgeOf) => {
  const cases = set.cases as readonly Case[]
  const devices = set.devices as unknown as Readonly<Record<string, Transistor>>

  test('shows the gain it says, and base current and bias of leakage are those of the bridge', () => {
    for (const c of cases) {
      const b = bridgeOf(c)
      expectRelative(gainAtDial(b, c.dialOhm), c.shown, 1e-7)
      expectRelative(baseCurrentAt(b, c.dialOhm), c.baseA, 1e-7)
      expectRelative(c.shown - leakageBias(b, c.dialOhm, c.leakageA), c.gain, 1e-6)
      expectRelative(dialAtGain(b, c.shown), c.dialOhm, 1e-7)
    }
  })

  test('moves the needle as it does there, for the dial turned by 1 % and 5 %, leaking or not, 0 to 50 degC', () => {
    for (const c of cases) {
      const n = nullCircuit({
        bridge: bridgeOf(c),
        detectorOhm: set.detectorOhm,
        transistor: devices[c.device]!,
        ambientC: c.temperatureC,
        leakageA: c.leakageA,
        setting,
      })
      const largest = Math.max(...c.needle.map(([, a]) => Math.abs(a!)))
      for (const [turned, ampere] of c.needle) {
        const got = n.needleA(c.dialOhm * (1 + turned!))
        expect(Math.abs(got - ampere!), `${c.device} at ${c.temperatureC}`).toBeLessThan(1e-6 * largest)
      }
    }
  })

  test('is as steep at its null as the 1 % on either side says', () => {
    for (const c of cases.filter((k) => k.leakageA === 0)) {
      const n = nullCircuit({
        bridge: bridgeOf(c),
        detectorOhm: set.detectorOhm,
        transistor: devices[c.device]!,
        ambientC: c.temperatureC,
        setting,
      })
      const at = (turned: number): number => c.needle.find(([t]) => t === turned)![1]!
      expectRelative(needlePerTurn(n, c.dialOhm), Math.abs(at(0.01) - at(-0.01)) / 0.02, 2e-3)
    }
  })
})

const transistor = (reference.divider.devices as unknown as Readonly<Record<string, Transistor>>)['s-si-npn-ss1']!

const wish: GainDialWish = {
  bridge: { kind: 'ratio', dial: 'base', emfV: 4.5, fixedOhm: 1000, baseEmitterV: 0.65 },
  tolerance: 0.01,
  law: { kind: 'linear', nominalOhm: 200e3, ohm: 200e3, endOhm: 0, linearity: 0 },
  marks: [10, 50, 100, 200],
  detectorOhm: 1500,
  divisionA: 2e-6,
  readable: 0.5,
  leakageA: 10e-6,
  transistor,
  ambientC: 25,
}

test('a perfect dial has no error, and errors of pot, end and fixed resistor are what Ohm says', () => {
  for (const m of checkGainDial(wish).marks) expect(Math.abs(m.error)).toBeLessThan(1e-12)
  const law = { ...wish.law, kind: 'linear', ohm: 210e3, endOhm: 500, linearity: 0.01 } as const
  const c = checkGainDial({ ...wish, law: { ...law, nominalOhm: 200e3 } })
  // 10 was drawn at a twentieth of the pot: 500 + 10500 ohm null at 11
  expectRelative(c.marks[0]!.gain, 11, 1e-12)
  expectRelative(c.marks[0]!.error, 10 / 11 - 1, 1e-12)
  expectRelative(c.marks[0]!.limit, 0.01 + 2100 / 11_000, 1e-12)
  expectRelative(c.atStop!, 0.5, 1e-12)
  const low = checkGainDial({ ...wish, bridge: { ...wish.bridge, fixedOhm: 980 }, drawnForOhm: 1000 })
  for (const m of low.marks) expectRelative(m.error, -0.02, 1e-9)
})

/** By hand: 3.85 V over 100 kohm are 38.5 uA; 10 uA of leakage count for 0.26 of gain. */
test('base current and bias at mark 100', () => {
  const m = checkGainDial(wish).marks.find((k) => k.mark === 100)!
  expectRelative(m.baseA, 38.5e-6, 1e-12)
  expectRelative(m.leakageBias, 10 / 38.5, 1e-12)
  expectRelative(m.nullWithin, m.perDivision / 2, 1e-12)
  // without a transistor's own slopes the needle would get 3.85 V x 1 % of detuning over R_B + R_C + R_D
  expectRelative(m.perDivision, (2e-6 * 102_500) / 3.85, 0.02)
})

test('resistors that check the dial null it like a part of that gain', () =>
  fc.assert(
    fc.property(fc.constantFrom('base', 'collector'), fc.double({ min: 12, max: 190, noNaN: true }), (dial, mark) => {
      const bridge = { ...wish.bridge, dial, fixedOhm: dial === 'base' ? 1000 : 200e3 } as GainBridge
      const nominalOhm = dial === 'base' ? 200e3 : 20e3
      const law = { kind: 'linear', nominalOhm, ohm: nominalOhm, endOhm: 0, linearity: 0 } as const
      const m = checkGainDial({ ...wish, bridge, law, marks: [mark] }).marks[0]!
      expectRelative(m.check!.gain, mark, 0.01)
      expectRelative(m.check!.gain, m.check!.base.ohm / m.check!.collectorOhm, 1e-12)
    }),
    { numRuns: 20 },
  ))

test('a measured dial is taken at its points, and one in a divider has no check by resistors', () => {
  const points = readDialTable(dialExampleCsv, 'example')
  const c = checkGainDial({ ...wish, law: { kind: 'points', points } })
  expect(c.marks.map((m) => m.mark)).toEqual([10, 20, 50, 100, 150, 200])
  expectRelative(c.marks[0]!.error, 10 / 10.4 - 1, 1e-12)
  expect(c.atStop).toBeUndefined()
  const bridge = divider(reference.divider.cases[0] as Case)
  const law = { kind: 'linear', nominalOhm: 1e6, ohm: 1e6, endOhm: 0, linearity: 0 } as const
  expect(checkGainDial({ ...wish, bridge, law }).marks[0]!.check).toBeUndefined()
})

test('a mark beyond the pot and a bad table are refused', () => {
  expect(() => checkGainDial({ ...wish, marks: [300] })).toThrow(FaultError)
  expect(() => checkGainDial({ ...wish, marks: [0.001] })).toThrow(/some transistor/)
  expect(() => readDialTable('mark,ohm\n10,-5\nx,10k\n', 'f.csv')).toThrow(/row 2[\s\S]*row 3/)
})
