import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { thermalVoltage } from '#core/physics'
import { type Quantity, standardUncertainty } from '#core/quantity'
import type { Reading } from '#core/tester'
import { expectRelative } from '#core/testing'
import type { Parameter, PartResult } from './parameter.ts'
import { meterTester, needleTester, read, state, typeNamed } from './sample.ref.ts'
import { reduceReadings } from './understand.ts'

const options = { types: typeNamed }
const one = (tester: typeof needleTester, readings: readonly Reading[], more = {}): PartResult => {
  const results = reduceReadings(tester, readings, { ...options, ...more })
  expect(results).toHaveLength(1)
  return results[0]!
}
const find = (r: PartResult, symbol: string, standing: Parameter['standing'] = 'measured'): Parameter => {
  const found = r.parameters.find((p) => p.symbol === symbol && p.standing === standing)
  expect(found, `${symbol} of ${r.parameters.map((p) => p.symbol).join(' ')}`).toBeDefined()
  return found!
}
const codes = (p: { readonly doubts: readonly { readonly code: string }[] }): string[] => p.doubts.map((d) => d.code)

/** Readings of a germanium part on the needle tester, by dial. */
const germanium = (part: string): Reading[] => {
  const type = { type: 'GX41', supplyV: 4.5 }
  return [
    state(part, 'short', 'clear', type),
    read(part, 'I_CBO', 5e-6, { ...type, range: '50 uA', point: 0 }),
    read(part, 'I_CEO', 150e-6, { ...type, range: '250 uA', point: 0 }),
    read(part, 'I_C', 1.02e-3, { ...type, range: '10 mA' }),
    read(part, 'h_FE', 102, { ...type, range: '200' }),
  ]
}

describe('a germanium part on a needle tester with a dial', () => {
  const r = one(needleTester, germanium('G1'))
  test('leakages come out as read, with their conditions', () => {
    const iceo = find(r, 'I_CEO')
    // the copper of the coil is 2 K warmer than where it was measured, and 50 of 250 uA go through it
    expectRelative(iceo.quantity.value, 150e-6 * (1 + 0.0039 * 2 * (1 - 50 / 250)), 1e-9)
    expect(iceo.conditions.V_CE).toBeLessThan(4.5)
    expect(iceo.conditions.V_CE).toBeGreaterThan(4.3)
    expect(iceo.conditions.T).toBe(22)
    expectRelative(find(r, 'I_CBO').conditions.V_CB!, 4.5 - 5e-6 * (2000 * (1 + 0.0039 * 2) + 3 * 0.3), 1e-6)
  })
  test('the dialled gain loses its leakage', () => {
    expect(find(r, 'h_FE').quantity.value).toBe(102)
    const corrected = find(r, 'h_FE0')
    const iceo = find(r, 'I_CEO').quantity.value
    const ic = corrected.conditions.I_C!
    expect(corrected.quantity.value).toBeCloseTo(102 * (1 - iceo / ic), 6)
    expect(corrected.quantity.origin).toMatchObject({ kind: 'derived', formula: 'reduce/dialled-less-leakage' })
    expect(codes(find(r, 'h_FE'))).toContain('leakage-in-gain')
  })
  test('leakage and gain are brought to 25 degC, the law a cause of its own', () => {
    const at25 = find(r, 'I_CEO', 'brought to 25 C')
    expect(at25.quantity.value / find(r, 'I_CEO').quantity.value).toBeCloseTo(2 ** (0.11 * 3), 9)
    expect(at25.quantity.budget.map((t) => t.cause)).toContain('law/doublings/I_CEO/G1')
    expect(at25.quantity.budget.map((t) => t.cause)).toContain('willow/thermometer')
    expect(at25).toMatchObject({ temperatureC: 25, conditions: { T: 25 } })
    expect(find(r, 'h_FE0', 'brought to 25 C').quantity.value).toBeGreaterThan(find(r, 'h_FE0').quantity.value)
  })
  test('power and junction temperature follow', () => {
    const p = find(r, 'P')
    expect(p.quantity.value).toBeCloseTo(p.conditions.I_C! * p.conditions.V_CE!, 9)
    expect(find(r, 'T_J').quantity.value).toBeCloseTo(22 + 300 * p.quantity.value, 6)
  })
  test('the working can be followed down to what was read', () => {
    const seen: string[] = []
    const walk = (q: Quantity): void => {
      if (q.origin.kind === 'read') seen.push(q.origin.seen)
      if (q.origin.kind === 'derived') for (const x of Object.values(q.origin.inputs)) walk(x)
    }
    walk(find(r, 'h_FE0').quantity)
    expect(seen).toEqual(expect.arrayContaining(['102', '0.00015', '0.00102']))
  })
  test('results are plain JSON', () => expect(JSON.parse(JSON.stringify(r))).toEqual(r))
})

describe('two currents through one movement', () => {
  const r = one(needleTester, [
    read('R1', 'I_C', 5e-3, { type: 'SX12', range: '10 mA', supplyV: 4.5 }),
    read('R1', 'I_B', 25e-6, { range: '50 uA' }),
  ])
  test('give a gain in which the movement cancels', () => {
    const h = find(r, 'h_FE')
    expect(h.quantity.value).toBeCloseTo(200, -1)
    expect(h.quantity.origin).toMatchObject({ formula: 'reduce/gain-ratio' })
    const sensitivity = h.quantity.budget.find((t) => t.cause.endsWith('/movement/sensitivity'))!
    expect(Math.abs(sensitivity.slope * sensitivity.u)).toBeLessThan(1e-9 * h.quantity.value)
  })
})

describe('two points of one transistor', () => {
  const at = (point: number, ic: number, ib: number, vbe: number, supplyV = 5): Reading[] => [
    read('S1', 'I_C', ic, { type: 'SX12', range: '20 mA', point, supplyV }),
    read('S1', 'I_B', ib, { range: '200 uA', point }),
    read('S1', 'V_BE', vbe, { range: '2 V', point }),
  ]
  const readings = [...at(1, 2e-3, 10e-6, 0.64), ...at(2, 10e-3, 50e-6, 0.682), ...at(3, 10.4e-3, 50e-6, 0.682, 10)]
  const r = one(meterTester, readings)
  test('give h_fe, g_m, h_ie and ideality at their mean', () => {
    expect(find(r, 'h_fe').quantity.value).toBeCloseTo(200, 6)
    expect(find(r, 'h_fe').conditions.I_C).toBeCloseTo(6e-3, 9)
    const gm = r.parameters.find(
      (p) => p.quantity.origin.kind === 'derived' && p.quantity.origin.formula.endsWith('conductance-two-points'),
    )!
    expect(gm.quantity.value).toBeCloseTo(8e-3 / 0.042, 6)
    expect(gm.conditions.I_C).toBeCloseTo(8e-3 / Math.log(5), 9)
    expect(find(r, 'h_ie').quantity.value).toBeCloseTo(0.042 / 40e-6, 6)
    expect(find(r, 'n').quantity.value).toBeCloseTo(0.042 / (thermalVoltage(295.15) * Math.log(5)), 1)
  })
  test('two collector voltages give h_oe and V_A', () => {
    expect(find(r, 'h_oe').quantity.value).toBeCloseTo(0.4e-3 / 5, 9)
    expect(find(r, 'V_A').quantity.value).toBeCloseTo((10e-3 * 10 - 10.4e-3 * 5) / 0.4e-3, 6)
    expect(find(r, 'h_oe').points).toEqual([2, 3])
  })
  test('g_m follows from one point as well, and h_ie from h_fe where V_BE was not read', () => {
    const bare = one(
      meterTester,
      readings.filter((x) => x.reads !== 'V_BE'),
    )
    expect(find(bare, 'g_m').quantity.value).toBeCloseTo(2e-3 / (1.05 * thermalVoltage(295.15)), 3)
    expect(find(bare, 'h_ie').quantity.origin).toMatchObject({ formula: 'reduce/input-resistance' })
  })
  test('points that are too close say so', () => {
    const close = one(meterTester, [...at(1, 10e-3, 50e-6, 0.68), ...at(2, 10.25e-3, 50.4e-6, 0.681)])
    expect(find(close, 'h_fe').doubts).toContainEqual(
      expect.objectContaining({ code: 'points-close', weight: 'nonsense' }),
    )
  })
})

describe('a diode at three points', () => {
  const volts = (i: number): number => 1.8 * thermalVoltage(295.15) * Math.log(i / 4e-9) + 2 * i
  const readings = [1e-3, 4e-3, 16e-3].flatMap((i, k) => [
    read('D1', 'I_F', i, { type: 'DX7', range: '20 mA', point: k + 1 }),
    read('D1', 'V_F', volts(i), { range: '2 V', point: k + 1 }),
  ])
  const r = one(meterTester, [...readings, read('D1', 'I_R', 0.3e-6, { range: '200 uA', supplyV: 20, point: 0 })])
  test('gives V_F, I_R, ideality and series resistance', () => {
    expect(find(r, 'I_R').conditions.V_R).toBeCloseTo(20, 6)
    expect(find(r, 'V_F').conditions.I_F).toBeCloseTo(1e-3, 9)
    expect(find(r, 'R_S').quantity.value).toBeCloseTo(2, 6)
    const n = r.parameters.filter((p) => p.symbol === 'n' && p.points.length === 3)
    // its junction is a little warmer than the room: 250 K/W, as nothing is known of its case
    const warmer = (295.15 + 250 * 1e-3 * volts(1e-3)) / 295.15
    expectRelative(n[0]!.quantity.value, 1.8 / warmer, 1e-9)
    expect(find(r, 'P').quantity.value).toBeCloseTo(1e-3 * volts(1e-3), 9)
  })
})

describe('a tester that only displays results', () => {
  const display: typeof meterTester = {
    ...meterTester,
    id: 'wren',
    kind: 'display',
    gain: { kind: 'digital', step: 1, collectorA: 2.5e-3, collectorV: 2 },
  }
  test('gives gain and V_BE at its own operating point', () => {
    const r = one(display, [read('W', 'h_FE', 187, { type: 'SX12' }), read('W', 'V_BE', 0.69, { range: '2 V' })])
    expect(find(r, 'h_FE')).toMatchObject({ quantity: { value: 187 }, conditions: { I_C: 2.5e-3, V_CE: 2, T: 22 } })
    expect(find(r, 'V_BE').conditions.I_C).toBe(2.5e-3)
    expect(standardUncertainty(find(r, 'h_FE').quantity)).toBeGreaterThan(5)
  })
})

describe('states', () => {
  test('a short ends the part', () => {
    const r = one(needleTester, [...germanium('X'), state('X', 'short', 'short')])
    expect(r).toMatchObject({ state: 'short', parameters: [], type: 'GX41' })
    expect(r.doubts[0]!.say).toMatch(/shorted/)
  })
  test('an open ends the part', () => {
    expect(one(needleTester, [...germanium('X'), state('X', 'I_C', 'open')])).toMatchObject({
      state: 'open',
      parameters: [],
    })
  })
  test('a needle over the scale and a missing null are said, and the rest stands', () => {
    const r = one(needleTester, [
      ...germanium('X').filter((x) => x.reads !== 'h_FE' && x.reads !== 'I_CEO'),
      state('X', 'I_CEO', 'over', { range: '250 uA' }),
      state('X', 'h_FE', 'no null'),
    ])
    expect(codes(r)).toEqual(expect.arrayContaining(['over-scale', 'no-null']))
    expect(find(r, 'I_CBO').quantity.value).toBeCloseTo(5e-6, 9)
  })
})

describe('nonsense is spotted', () => {
  test('a negative gain', () => {
    const r = one(needleTester, [
      read('N', 'I_C', 0.4e-3, { range: '1 mA', supplyV: 4.5 }),
      read('N', 'I_CEO', 0.6e-3, { range: '1 mA', supplyV: 4.5, point: 0 }),
      read('N', 'I_B', 20e-6, { range: '50 uA' }),
    ])
    const h = find(r, 'h_FE0')
    expect(h.quantity.value).toBeLessThan(0)
    expect(h.doubts).toContainEqual(expect.objectContaining({ code: 'gain-negative', weight: 'nonsense' }))
    expect(find(r, 'h_FE').doubts).toContainEqual(
      expect.objectContaining({ code: 'leakage-in-gain', weight: 'nonsense' }),
    )
  })
  test('I_CBO above I_CEO', () => {
    const r = one(needleTester, [
      read('N', 'I_CBO', 40e-6, { range: '50 uA', supplyV: 4.5 }),
      read('N', 'I_CEO', 20e-6, { range: '50 uA', supplyV: 4.5 }),
    ])
    for (const symbol of ['I_CBO', 'I_CEO'])
      expect(find(r, symbol).doubts).toContainEqual(
        expect.objectContaining({ code: 'cutoff-above-leakage', weight: 'nonsense' }),
      )
    expect(r.pair).toBeUndefined()
  })
  test('but not where the scale cannot tell', () => {
    const r = one(needleTester, [
      read('N', 'I_CBO', 20.1e-6, { range: '50 uA', supplyV: 4.5 }),
      read('N', 'I_CEO', 20e-6, { range: '50 uA', supplyV: 4.5 }),
    ])
    expect(codes(find(r, 'I_CBO'))).not.toContain('cutoff-above-leakage')
  })
  test('leakage that outweighs the base current', () => {
    const r = one(needleTester, [
      read('N', 'I_CBO', 30e-6, { range: '50 uA', supplyV: 4.5, point: 0 }),
      read('N', 'I_C', 1e-3, { range: '1 mA', supplyV: 4.5 }),
      read('N', 'I_B', 10e-6, { range: '50 uA' }),
    ])
    expect(find(r, 'h_FE').doubts).toContainEqual(
      expect.objectContaining({ code: 'leakage-outweighs-base', weight: 'nonsense' }),
    )
    expect(find(r, 'h_FE0(I_CBO)').doubts).toContainEqual(
      expect.objectContaining({ code: 'leakage-outweighs-base', weight: 'notice' }),
    )
  })
  test('a base range too coarse for the reading, and the finer one is named', () => {
    const r = one(needleTester, [
      read('N', 'I_C', 1e-3, { range: '1 mA', supplyV: 4.5 }),
      read('N', 'I_B', 4e-6, { range: '1 mA' }),
    ])
    const doubt = find(r, 'h_FE').doubts.find((d) => d.code === 'base-range-coarse')!
    expect(doubt.say).toContain('50 uA')
  })
  test('a base current that reads nothing gives no gain, and says so', () => {
    const r = one(needleTester, [
      read('N', 'I_C', 1e-3, { range: '1 mA', supplyV: 4.5 }),
      read('N', 'I_B', 0, { range: '50 uA' }),
    ])
    expect(r.parameters.some((p) => p.symbol === 'h_FE')).toBe(false)
    expect(codes(r)).toContain('no-number')
  })
  test('a needle in the lowest fifth', () => {
    const low = (range: string): string[] =>
      codes(find(one(needleTester, [read('N', 'I_CEO', 4e-6, { range, supplyV: 4.5 })]), 'I_CEO'))
    expect(low('250 uA')).toContain('low-needle')
    expect(low('50 uA')).toContain('low-needle')
    expect(codes(find(one(needleTester, [read('N', 'I_CEO', 14e-6, { range: '50 uA' })]), 'I_CEO'))).toEqual([])
  })
  test('a gain no transistor has', () => {
    const r = one(meterTester, [
      read('N', 'I_C', 15e-3, { range: '20 mA' }),
      read('N', 'I_B', 1e-6, { range: '200 uA' }),
    ])
    expect(codes(find(r, 'h_FE'))).toContain('gain-unlikely')
  })
  test.each([
    ['GX41', 0.64, true],
    ['GX41', 0.21, false],
    ['SX12', 0.2, true],
    ['SX12', 0.66, false],
  ])('V_BE of %s at %d V: unlike its material is %s', (type, vbe, odd) => {
    const r = one(meterTester, [
      read('N', 'I_C', 2e-3, { type, range: '20 mA', supplyV: 5 }),
      read('N', 'V_BE', vbe, { range: '2 V' }),
      read('N', 'I_B', 20e-6, { range: '200 uA' }),
    ])
    expect(codes(find(r, 'V_BE')).includes('material-unlike')).toBe(odd)
    expect(codes(find(r, 'h_FE')).includes('material-unlike')).toBe(odd)
    expect(codes(r).includes('material-unlike')).toBe(odd)
  })
  test('germanium without a room temperature', () => {
    const {
      ambientC: _,
      ambientU: __,
      ...bare
    } = read('N', 'I_CEO', 30e-6, { type: 'GX41', range: '50 uA', supplyV: 4.5 })
    const r = one(needleTester, [bare])
    expect(codes(find(r, 'I_CEO'))).toContain('ambient-missing')
    expect(find(r, 'I_CEO')).toMatchObject({ temperatureC: 20, temperatureU: 3 })
    const told = one(needleTester, [bare], { ambientC: 24, ambientU: 1 })
    expect(codes(find(told, 'I_CEO'))).not.toContain('ambient-missing')
    expect(find(told, 'I_CEO')).toMatchObject({ temperatureC: 24, temperatureU: 1 })
  })
  test('every doubt is a sentence with what to do', () => {
    const r = one(needleTester, [
      read('N', 'I_CBO', 30e-6, { type: 'GX41', range: '50 uA', supplyV: 4.5, point: 0 }),
      read('N', 'I_C', 1e-4, { range: '1 mA', supplyV: 4.5 }),
      read('N', 'I_B', 10e-6, { range: '1 mA' }),
    ])
    const all = [...r.doubts, ...r.parameters.flatMap((p) => p.doubts)]
    expect(all.length).toBeGreaterThan(2)
    for (const d of all) expect(d.say).toMatch(/^[A-Zh].*[.]$/)
  })
})

describe('repeated readings', () => {
  const once = (n: number): Reading[] =>
    Array.from({ length: n }, (_, i) =>
      read('M', 'I_CEO', 20e-6, { range: '50 uA', supplyV: 4.5, at: `2030-01-01T10:0${i}` }),
    )
  test('shrink what belongs to a reading and keep what they share', () => {
    const share = (r: PartResult, sign: RegExp): number =>
      Math.hypot(
        ...find(r, 'I_CEO')
          .quantity.budget.filter((t) => sign.test(t.cause))
          .map((t) => t.slope * t.u),
      )
    const [single, nine] = [one(needleTester, once(1)), one(needleTester, once(9))]
    expect(share(nine, /resolution/)).toBeCloseTo(share(single, /resolution/) / 3, 12)
    expect(share(nine, /movement/)).toBeCloseTo(share(single, /movement/), 12)
    expect(find(nine, 'I_CEO').quantity.value).toBeCloseTo(find(single, 'I_CEO').quantity.value, 15)
  })
  test('that scatter say so with their degrees of freedom', () => {
    const readings = [18e-6, 20e-6, 22e-6, 21e-6].map((v, i) => ({
      ...once(4)[i]!,
      ...read('M', 'I_CEO', v, { range: '50 uA', supplyV: 4.5 }),
    }))
    const scatter = find(one(needleTester, readings), 'I_CEO').quantity.budget.find((t) =>
      t.cause.endsWith('/scatter'),
    )!
    expect(scatter.dof).toBe(3)
    expect(scatter.u).toBeCloseTo(0.854e-6, 7)
  })
})

describe('many parts', () => {
  const lot = (count: number): Reading[] => Array.from({ length: count }, (_, i) => germanium(`T${i + 1}`)).flat()
  test('order of readings does not matter, and parts come in the order of their tags', () => {
    const readings = [...lot(12), ...germanium('T3').map((r) => ({ ...r, seen: 'again' }))]
    const expected = reduceReadings(needleTester, readings, options)
    expect(expected.map((r) => r.part).slice(0, 3)).toEqual(['T1', 'T2', 'T3'])
    expect(expected.map((r) => r.part).slice(-3)).toEqual(['T10', 'T11', 'T12'])
    fc.assert(
      fc.property(fc.shuffledSubarray(readings, { minLength: readings.length }), (shuffled) => {
        expect(reduceReadings(needleTester, shuffled, options)).toEqual(expected)
      }),
      { numRuns: 20 },
    )
  })
  test('all faults come together, and name part and reading', () => {
    const bad = [read('B1', 'I_C', 1, { range: '10 mA' }), read('B2', 'I_C', 1e-3, { range: '7 mA' })]
    try {
      reduceReadings(needleTester, [...lot(1), ...bad])
      expect.unreachable()
    } catch (e) {
      expect(e).toBeInstanceOf(FaultError)
      expect((e as FaultError).faults).toHaveLength(2)
      expect((e as FaultError).message).toContain('B1, I_C')
    }
  })
  test('ten times the readings take about ten times as long', () => {
    const time = (count: number): number => {
      const readings = lot(count)
      const runs = [1, 2, 3].map(() => {
        const start = performance.now()
        reduceReadings(needleTester, readings, options)
        return performance.now() - start
      })
      return Math.min(...runs)
    }
    time(50)
    // growth with the square would make it 100; tests run beside others, so much room is left
    expect(time(300) / time(50)).toBeLessThan(40)
  })
})

test('no doubt anywhere is not a number', () => {
  fc.assert(
    fc.property(
      fc.record({
        icbo: fc.double({ min: 0, max: 50e-6, noNaN: true }),
        iceo: fc.double({ min: 0, max: 250e-6, noNaN: true }),
        ic: fc.double({ min: 0, max: 10e-3, noNaN: true }),
        ib: fc.double({ min: 0, max: 50e-6, noNaN: true }),
        t: fc.double({ min: -10, max: 45, noNaN: true }),
      }),
      ({ icbo, iceo, ic, ib, t }) => {
        const at = { type: 'GX41', supplyV: 4.5, ambientC: t }
        const r = one(needleTester, [
          read('F', 'I_CBO', icbo, { ...at, range: '50 uA', point: 0 }),
          read('F', 'I_CEO', iceo, { ...at, range: '250 uA', point: 0 }),
          read('F', 'I_C', ic, { ...at, range: '10 mA' }),
          read('F', 'I_B', ib, { ...at, range: '50 uA' }),
        ])
        for (const p of r.parameters) {
          expect(p.quantity.value, p.symbol).toSatisfy(Number.isFinite)
          expect(standardUncertainty(p.quantity), p.symbol).toSatisfy(Number.isFinite)
        }
      },
    ),
    { numRuns: 100 },
  )
})
