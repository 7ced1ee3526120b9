import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { type DeviceSetting, type DiodeCard, diodeAt, diodeVoltage, kelvin, voltsPerKelvin2014 } from '#core/physics'
import type { Circuit, Movement, Range } from '#core/tester'
import { expectRelative } from '#core/testing'
import { protection, protectionDefaults, protectionDiodes } from './index.ts'
import reference from './protection.ref.json' with { type: 'json' }
import { protectedRange } from './protection-circuit.ts'

/** The simulator's constants, and a coil that stays as it is. */
const setting: DeviceSetting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }
const movement = (m: { fullScaleA: number; coilOhm: number }, copperPerK = 0): Movement => ({
  ...m,
  copperPerK,
  atC: 20,
  classPercent: 2,
  zero: 'left',
  readable: 0.2,
})

type Network = (typeof reference.networks)[number]

function rangeOf(n: Network, fullScale: number): Range {
  const ohm = n.ranges.find(([f]) => f === fullScale)![1]!
  const measures = n.measures as 'current' | 'voltage'
  const tolerance = 0.01
  const circuit: Circuit =
    n.ringOhm !== undefined
      ? { kind: 'universal', ringOhm: n.ringOhm, tapOhm: ohm, tolerance }
      : measures === 'voltage'
        ? { kind: 'multiplier', seriesOhm: ohm, tolerance }
        : { kind: 'shunt', shuntOhm: ohm, tolerance, contactOhm: n.contactOhm }
  return { id: String(fullScale), measures, fullScale, circuit }
}

/**
 * Resistances are rounded to 9 digits in the reference, and errors are differences of two currents printed to 9 digits:
 * 1e-8 of the current, and as much of the error.
 */
describe.each(reference.networks)('$id with diodes, as ngspice has it', (n) => {
  test('currents, errors and voltages at half scale, full scale and tenfold overload, 0 to 50 degC', () => {
    expect(n.rows.length).toBeGreaterThan(50)
    for (const [range, t, name, times, bareA, guardedA, error, volts] of n.rows as unknown as readonly (readonly [
      number,
      number,
      keyof typeof reference.cards,
      number,
      number,
      number,
      number,
      number,
    ])[]) {
      const m = movement(n.movement)
      const r = rangeOf(n, range)
      const diode = { name, card: reference.cards[name] as DiodeCard, inSeries: 1 as const, mostA: 1 }
      const drive = { kind: 'full-scale' as const, times }
      const bare = protectedRange(m, r, undefined, setting).at(drive, t)
      const got = protectedRange(m, r, diode, setting).at(drive, t)
      expectRelative(bare.movementA, bareA, 1e-7, 'bare')
      expectRelative(got.movementA, guardedA, 1e-7, `${name} at ${t}`)
      expectRelative(got.movementV, volts, 1e-7)
      expect(Math.abs(got.movementA / bare.movementA - 1 - error)).toBeLessThan(3e-8)
    }
  })
})

/** Largest forward voltages of common types of each kind at 25 degC, from their data sheets: 1N4148, BAT85, OA90 class, 1N4001. */
test.each([
  ['silicon', 0.01, 1],
  ['schottky', 1e-4, 0.24],
  ['schottky', 0.001, 0.32],
  ['schottky', 0.01, 0.4],
  ['germanium', 0.005, 1],
  ['rectifier', 1, 1.1],
] as const)('the %s diode at %d A keeps below %d V', (id, ampere, volts) =>
  expect(diodeVoltage(diodeAt(protectionDiodes[id].card, kelvin(25)), ampere)).toBeLessThan(volts),
)

const m = movement({ fullScaleA: 1e-4, coilOhm: 1000 }, 0.00393)
const range: Range = {
  id: '1 mA',
  measures: 'current',
  fullScale: 1e-3,
  circuit: { kind: 'shunt', shuntOhm: 1000 / 9, tolerance: 0.01, contactOhm: 0 },
}
const wish = {
  movement: m,
  range,
  overload: { kind: 'source', emfV: 4.5, ohm: 1 } as const,
  temperaturesC: protectionDefaults.temperaturesC,
  mostError: 0.02 / 3,
  bears: protectionDefaults.bears,
}

test('of diodes that cost little and hold, the one that holds lowest is taken, and each is told why', () => {
  const p = protection({ ...wish, overload: { kind: 'source', emfV: 4.5, ohm: 50 } })
  // most where the coil is coldest: 4.5 V by 50 ohm and what shunt and coil have in parallel
  const coil = 1000 * (1 + 0.00393 * (Math.min(...wish.temperaturesC) - m.atC))
  const pair = 1 / (1 / coil + 9 / 1000)
  expectRelative(p.bareTimes, (4.5 * pair) / (50 + pair) / coil / 1e-4, 1e-9)
  const best = p.results.find((r) => r.id === p.recommended)!
  expect(best).toMatchObject({ isAccurate: true, holds: true, survives: true })
  for (const r of p.results)
    if (r.isAccurate && r.holds && r.survives) expect(r.heldTo).toBeGreaterThanOrEqual(best.heldTo)
  expect(p.why).toHaveLength(1 + p.results.length)
  const germanium = p.results.find((r) => r.id === 'germanium')!
  const silicon = p.results.find((r) => r.id === 'silicon')!
  expect(germanium.worstError).toBeLessThan(silicon.worstError)
  expect(p.results.find((r) => r.id === 'two-silicon')!.heldTo).toBeGreaterThan(silicon.heldTo * 1.5)
})

test("a diode of one's own stands beside the kinds, and is taken where it holds lowest", () => {
  const leaky = { name: 'leaky', card: { is: 1e-4 }, inSeries: 1 as const, mostA: 1 }
  const found = protection({ ...wish, own: leaky }).results.find((r) => r.id === 'own')!
  expect(found.isAccurate).toBe(false)
  const strong = { ...protectionDiodes.rectifier, name: 'strong', mostA: 100 }
  expect(protection({ ...wish, own: strong }).recommended).toBe('own')
})

test('where no diode lives or none is needed, that is said', () => {
  const dead = protection({ ...wish, overload: { kind: 'source', emfV: 60, ohm: 0.1 } })
  expect(dead.recommended).toBeUndefined()
  expect(dead.why.join(' ')).toMatch(/does not live/)
  expect(dead.why.at(-1)).toMatch(/fuse/)
  const calm = protection({ ...wish, overload: { kind: 'full-scale', times: 1.5 } })
  expect(calm.why[0]).toMatch(/bears for a moment/)
})

test('a range whose insides are not known is refused', () =>
  expect(() =>
    protection({ ...wish, range: { ...range, circuit: { kind: 'unknown', assumed: 0.1, step: 1e-6 } } }),
  ).toThrow(FaultError))

test('diodes never add to what the movement gets, and what they take goes through them', () =>
  fc.assert(
    fc.property(
      fc.constantFrom(...Object.values(protectionDiodes)),
      fc.double({ min: 0.01, max: 50, noNaN: true }),
      fc.double({ min: -10, max: 50, noNaN: true }),
      (diode, times, t) => {
        const drive = { kind: 'full-scale' as const, times }
        const bare = protectedRange(m, range, undefined).at(drive, t)
        const got = protectedRange(m, range, diode).at(drive, t)
        expect(got.movementA).toBeLessThanOrEqual(bare.movementA * (1 + 1e-9))
        const rest = times * 1e-3 - got.movementA - got.movementV / (1000 / 9) - got.diodeA
        // the string that blocks lets its saturation current through, which grows about tenfold from 25 to 50 degC
        expect(rest).toBeGreaterThan(-1e-9 * (1 + times))
        expect(rest).toBeLessThan(1e-9 * (1 + times) + 20 * diode.card.is!)
      },
    ),
    { numRuns: 60 },
  ))
