import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { explain } from '#core/fault'
import { covariance, derive, formula, leaf, type Quantity, standardUncertainty, term } from '#core/quantity'
import { bench, movement, range } from './bench.ref.ts'
import { assumedDoubts } from './cause.ts'
import { multiplierVoltage, shuntCurrent } from './formulas.ts'
import type { Reading, Shown } from './reading.ts'
import { type Seen, seenAtPart } from './seen-at-part.ts'
import type { Circuit, Tester } from './tester.ts'

const reading = (shown: Shown, more: Partial<Reading> = {}): Reading => ({
  part: 'A1',
  reads: 'I_CEO',
  shown,
  seen:
    shown.kind === 'deflection'
      ? `${shown.divisions} div`
      : shown.kind === 'value'
        ? `${shown.value} ${shown.unit}`
        : shown.state,
  point: 1,
  ambientC: 20,
  ...more,
})
const div = (divisions: number): Shown => ({ kind: 'deflection', divisions })

const good = (seen: Seen): Extract<Seen, { ok: true }> => {
  if (!seen.ok) throw new Error(seen.faults.map(explain).join('\n'))
  return seen
}
const quantity = (t: Tester, r: Reading): Quantity => good(seenAtPart(t, r)).quantity
const without = (q: Quantity, cause: RegExp): Quantity => ({
  ...q,
  budget: q.budget.filter((t) => !cause.test(t.cause)),
})
const close = (got: number, want: number, relative = 1e-12): void =>
  expect(Math.abs(got - want), `${got} is not ${want}`).toBeLessThanOrEqual(relative * Math.abs(want))

describe('budget', () => {
  test('on the bare movement the class is the whole limit, wherever the needle stands', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 50, noNaN: true }), (d) => {
        const q = without(quantity(bench, reading(div(d), { range: '100 uA' })), /resolution/)
        close(standardUncertainty(q), (0.02 * 100e-6) / Math.sqrt(3))
      }),
    )
  })

  test('reading to a fifth of a division leaves 0.058 of one', () => {
    const q = quantity(bench, reading(div(20), { range: '100 uA' }))
    const t = q.budget.find((x) => x.cause.startsWith('reading/'))!
    close(t.u, 0.2 / Math.sqrt(12))
    close(t.slope * t.u, ((0.2 / Math.sqrt(12)) * 100e-6) / 50)
  })

  test('at full scale, shunt and class add up by squares', () => {
    const q = without(quantity(bench, reading(div(50), { range: '1 mA' })), /resolution/)
    const classU = (0.02 * 1e-3) / Math.sqrt(3)
    const shuntU = ((0.01 / Math.sqrt(3)) * 1e-3 * 1100) / (1100 + 122.2222222)
    close(standardUncertainty(q), Math.hypot(classU, shuntU), 1e-8)
  })

  test('a shunt as found takes the place of value and tolerance', () => {
    const circuit: Circuit = {
      kind: 'shunt',
      shuntOhm: 122.2222222,
      tolerance: 0.01,
      contactOhm: 0,
      asFound: { ohm: 123, uOhm: 0.1 },
    }
    const t: Tester = { ...bench, ranges: [range('1 mA', 1e-3, circuit)] }
    const q = quantity(t, reading(div(50), { range: '1 mA' }))
    close(q.value, (100e-6 * (1100 + 123)) / 123)
    expect(q.budget.find((x) => x.cause === 'bench/range/1 mA/shunt')?.u).toBe(0.1)
  })

  test('contact resistance counts with half of itself as its limit', () => {
    const q = quantity(bench, reading(div(50), { range: '10 mA' }))
    const t = q.budget.find((x) => x.cause === 'bench/range/10 mA/contact')!
    close(t.u, 0.025 / Math.sqrt(3))
    const side = 11.1111111 + 0.05
    close(t.slope, (-100e-6 * 1100) / side ** 2)
  })

  test('a copper coil brings in the thermometer, a compensated one does not', () => {
    const copper: Tester = { ...bench, movement: { ...movement, copperPerK: 0.0039 }, thermometer: { uC: 2 } }
    const warm = reading(div(50), { range: '1 mA', ambientC: 30 })
    const q = quantity(copper, warm)
    const coil = 1100 * (1 + 0.039)
    close(q.value, (100e-6 * (coil + 122.2222222)) / 122.2222222)
    const t = q.budget.find((x) => x.cause === 'bench/thermometer')!
    close(Math.abs(t.slope * t.u), (100e-6 * 1100 * 0.0039 * 2) / 122.2222222)
    const own = quantity(copper, { ...warm, ambientU: 0.5 }).budget.find((x) => x.cause === 'bench/thermometer')!
    close(own.slope * own.u, (t.slope * t.u) / 4)
    expect(quantity(bench, warm).budget.some((x) => x.cause === 'bench/thermometer')).toBe(false)
  })

  test('without an ambient temperature one is taken, and said', () => {
    const copper: Tester = { ...bench, movement: { ...movement, copperPerK: 0.0039 } }
    const { ambientC: _, ...bare } = reading(div(25), { range: '1 mA' })
    const seen = good(seenAtPart(copper, bare))
    expect(seen.notes).toEqual(['No ambient temperature was noted: 20 degC give or take 3 was taken for the coil.'])
    const t = seen.quantity.budget.find((x) => x.cause === 'bench/thermometer')!
    close(t.slope * t.u, ((50e-6 * 1100 * 0.0039) / 122.2222222) * assumedDoubts.ambientU, 1e-9)
    expect(good(seenAtPart(copper, { ...bare, range: '100 uA' })).notes).toEqual([])
  })

  test('a universal shunt: ring shared by its ranges, half of a tap its own', () => {
    const a = quantity(bench, reading(div(40), { range: '5 mA' }))
    close(a.value, (80e-6 * (1100 + 2400)) / 70)
    const ring = a.budget.find((x) => x.cause === 'bench/ring')!
    const tap = a.budget.find((x) => x.cause === 'bench/range/5 mA/tap')!
    const u = 0.01 / Math.sqrt(3)
    close(tap.slope * tap.u, -a.value * u * Math.SQRT1_2, 1e-9)
    close(ring.slope * ring.u, a.value * u * (2400 / 3500 - Math.SQRT1_2), 1e-9)
    const b = quantity(bench, reading(div(40), { range: '50 mA' }))
    expect(b.budget.some((x) => x.cause === 'bench/ring')).toBe(true)
  })

  test("a maker's limit on a needle range is met whole", () => {
    const q = without(quantity(bench, reading(div(25), { range: 'panel' })), /resolution/)
    close(q.value, 0.5)
    close(standardUncertainty(q), (0.01 * 0.5 + 0.02 * 1) / Math.sqrt(3))
  })

  test('an unknown accuracy is assumed and said', () => {
    const seen = good(seenAtPart(bench, reading(div(50), { range: 'old' })))
    expect(seen.notes).toEqual(['Nobody states how accurate old is: 10 % of the reading was taken for granted.'])
    close(standardUncertainty(without(seen.quantity, /resolution/)), (0.1 * 3) / Math.sqrt(3))
  })

  test('a needle low on its scale is told of a finer range that holds it', () => {
    expect(good(seenAtPart(bench, reading(div(4), { range: '1 mA' }))).notes).toEqual([
      'The needle stands low on the scale: 100 uA reads it better.',
    ])
    expect(good(seenAtPart(bench, reading(div(6), { range: '1 mA' }))).notes).toEqual([])
    expect(good(seenAtPart(bench, reading(div(2), { range: '100 uA' }))).notes).toEqual([])
  })
})

describe('causes that readings share', () => {
  const ratioOf = formula({
    id: 'test/ratio',
    version: 1,
    text: 'q = a / b',
    unit: '1',
    inputs: { a: 'A', b: 'A' },
    symbols: { a: 'a', b: 'b' },
    source: { title: 'test' },
    evaluate: ({ a, b }) => a / b,
    partials: ({ a, b }) => ({ a: 1 / b, b: -a / b ** 2 }),
    domain: { a: [0, 1], b: [0, 1] },
  })
  const at = (part: string, d: number, id: string): Quantity<'A'> =>
    quantity(bench, reading(div(d), { part, range: id })) as Quantity<'A'>

  test('a ratio of two currents through one movement loses its sensitivity error, and keeps the rest', () => {
    const ic = at('A1', 40, '10 mA')
    const ib = at('A1', 45, '100 uA')
    const q = derive(ratioOf, { a: ic, b: ib })
    const apart = q.value * Math.hypot(standardUncertainty(ic) / ic.value, standardUncertainty(ib) / ib.value)
    expect(q.budget.find((t) => t.cause === 'bench/movement/sensitivity')!.slope).toBeCloseTo(0, 6)
    expect(standardUncertainty(q)).toBeLessThan(0.85 * apart)
    expect(standardUncertainty(q)).toBeGreaterThan(0.4 * apart)
  })

  test('the difference of two parts in one place on one range is known much better than either', () => {
    const a = at('A1', 41, '1 mA')
    const b = at('A2', 42, '1 mA')
    const u = Math.sqrt(standardUncertainty(a) ** 2 + standardUncertainty(b) ** 2 - 2 * covariance(a, b))
    expect(u).toBeLessThan(0.2 * standardUncertainty(a))
    const resolution = ((0.2 / Math.sqrt(12)) * 1e-3) / 50
    expect(u).toBeGreaterThan(Math.SQRT2 * resolution * 0.999)
  })

  test('far apart on the scale the scale errors are different ones', () => {
    const near = covariance(at('A1', 41, '1 mA'), at('A2', 42, '1 mA'))
    const far = covariance(at('A1', 41, '1 mA'), at('A2', 12, '1 mA'))
    expect(far).toBeLessThan(0.5 * near)
    expect(far).toBeGreaterThan(0)
  })

  test('two readings never share how they were read', () => {
    const own = (q: Quantity): string[] => q.budget.map((t) => t.cause).filter((c) => c.startsWith('reading/'))
    expect(own(at('A1', 41, '1 mA'))).toEqual(['reading/A1/I_CEO/1/1 mA/resolution'])
    expect(own(at('A2', 41, '1 mA'))).toEqual(['reading/A2/I_CEO/1/1 mA/resolution'])
  })
})

describe('published propagations', () => {
  // First-order values of a general-purpose uncertainty program for the same formulas and inputs, to 9 digits.
  const of = (value: number, unit: 'A' | 'ohm' | 'div', u = 0): Quantity =>
    leaf(value, unit, { kind: 'stated', what: 'x' }, u === 0 ? [] : [term(`${value}`, { label: 'x', u })])

  test('current of a shunted movement', () => {
    const q = derive(shuntCurrent, {
      deflection: of(1, 'div') as Quantity<'div'>,
      divisions: of(1, 'div') as Quantity<'div'>,
      movement: of(4.2e-5, 'A', 2.04124145e-7) as Quantity<'A'>,
      coil: of(2050, 'ohm', 25) as Quantity<'ohm'>,
      contact: of(0, 'ohm') as Quantity<'ohm'>,
      shunt: of(10.3, 'ohm', 0.0577350269) as Quantity<'ohm'>,
    })
    close(q.value, 0.0084012233, 1e-8)
    close(standardUncertainty(q), 0.000119393407, 1e-8)
  })

  test('voltage of a movement with a multiplier', () => {
    const q = derive(multiplierVoltage, {
      deflection: of(1, 'div') as Quantity<'div'>,
      divisions: of(1, 'div') as Quantity<'div'>,
      movement: of(3.6e-5, 'A', 4.33012702e-7) as Quantity<'A'>,
      coil: of(2050, 'ohm', 25) as Quantity<'ohm'>,
      series: of(197950, 'ohm', 1142.86486) as Quantity<'ohm'>,
    })
    close(q.value, 7.2, 1e-8)
    close(standardUncertainty(q), 0.0958830931, 1e-8)
  })
})
