import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { explain } from '#core/fault'
import { covariance, derive, formula, leaf, type Quantity, standardUncertainty, term } from '#core/quantity'
import { assumedDoubts } from './cause.ts'
import { multiplierVoltage, shuntCurrent } from './formulas.ts'
import { fullScaleAtPart, needle } from './needle.ts'
import type { Reading, Shown } from './reading.ts'
import { type Seen, seenAtPart } from './seen-at-part.ts'
import type { Circuit, Movement, Range, ReadingKind, Tester } from './tester.ts'

const movement: Movement = {
  fullScaleA: 100e-6,
  coilOhm: 1100,
  copperPerK: 0,
  atC: 20,
  classPercent: 2,
  zero: 'left',
  readable: 0.2,
}

const range = (id: string, fullScale: number, circuit: Circuit, measures: Range['measures'] = 'current'): Range => ({
  id,
  measures,
  fullScale,
  circuit,
})

const bench: Tester = {
  format: 'germane/tester/1',
  id: 'bench',
  name: 'Bench tester',
  kind: 'needle',
  polarities: ['NPN', 'PNP'],
  movement,
  scales: [
    { id: '100', divisions: 50, end: 100 },
    { id: '30', divisions: 30, end: 30 },
  ],
  ranges: [
    range('100 uA', 100e-6, { kind: 'movement' }),
    range('1 mA', 1e-3, { kind: 'shunt', shuntOhm: 122.2222222, tolerance: 0.01, contactOhm: 0 }),
    range('10 mA', 10e-3, { kind: 'shunt', shuntOhm: 11.1111111, tolerance: 0.01, contactOhm: 0.05 }),
    range('5 mA', 5e-3, { kind: 'universal', ringOhm: 2400, tapOhm: 70, tolerance: 0.01 }),
    range('50 mA', 50e-3, { kind: 'universal', ringOhm: 2400, tapOhm: 7, tolerance: 0.01 }),
    range('1 V', 1, { kind: 'multiplier', seriesOhm: 8900, tolerance: 0.01 }, 'voltage'),
    range('panel', 1, { kind: 'stated', ofReading: 0.01, ofRange: 0.02, counts: 0, step: 1e-3 }),
    range('old', 3, { kind: 'unknown', assumed: 0.1, step: 1e-3 }),
  ],
  supplies: [],
  gain: { kind: 'none' },
  tests: [
    { reads: 'I_CEO', ranges: ['100 uA', '1 mA', '10 mA', '5 mA', '50 mA', 'panel', 'old'] },
    { reads: 'V_BE', ranges: ['1 V'] },
  ],
  limits: { maxCurrentA: 1, maxVoltageV: 30 },
}

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
const amps = (value: number): Shown => ({ kind: 'value', value, unit: 'A' })

const good = (seen: Seen): Extract<Seen, { ok: true }> => {
  if (!seen.ok) throw new Error(seen.faults.map(explain).join('\n'))
  return seen
}
const quantity = (t: Tester, r: Reading): Quantity => good(seenAtPart(t, r)).quantity
const faults = (t: Tester, r: Reading): readonly string[] => {
  const seen = seenAtPart(t, r)
  return seen.ok ? [] : seen.faults.map(explain)
}
const without = (q: Quantity, cause: RegExp): Quantity => ({
  ...q,
  budget: q.budget.filter((t) => !cause.test(t.cause)),
})
const close = (got: number, want: number, relative = 1e-12): void =>
  expect(Math.abs(got - want), `${got} is not ${want}`).toBeLessThanOrEqual(relative * Math.abs(want))

describe('there and back', () => {
  test.each(bench.ranges.map((r) => [r.id, r] as const))(
    '%s: what the needle shows for a value is that value',
    (id, r) => {
      fc.assert(
        fc.property(
          fc.integer({ min: 0, max: 10_000 }).map((n) => n / 10_000),
          fc.integer({ min: 5, max: 40 }),
          fc.constantFrom(0, 0.0039),
          (fraction, ambientC, copperPerK) => {
            const t: Tester = { ...bench, movement: { ...movement, copperPerK } }
            const value = fraction * fullScaleAtPart(t, r, ambientC)
            const at = needle(t, r, value, ambientC)
            const reads: ReadingKind = r.measures === 'voltage' ? 'V_BE' : 'I_CEO'
            const back = quantity(t, reading(div(at.divisions), { reads, range: id, ambientC }))
            close(back.value, value, 1e-12)
          },
        ),
      )
    },
  )

  test('the printed scale named with the reading is the one that counts', () => {
    close(quantity(bench, reading(div(15), { range: '100 uA', scale: '30' })).value, 50e-6)
    close(quantity(bench, reading(div(25), { range: '100 uA' })).value, 50e-6)
  })

  test('a value typed in units goes by way of the divisions', () => {
    const seen = good(seenAtPart(bench, reading(amps(12.5e-6), { range: '100 uA' })))
    close(seen.quantity.value, 12.5e-6)
    expect(seen.notes[0]).toBe('0.0000125 A was taken as 6.25 of 50 divisions.')
  })
})

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

describe('what cannot be a value', () => {
  test.each([
    [
      reading(div(51), { range: '1 mA' }),
      '"51 div" is beyond the end of the scale (50 divisions, 1 mA)',
      'read again on 5 mA',
    ],
    [reading(div(51), { range: 'old' }), 'beyond the end of the scale', 'there is no higher range'],
    [reading(div(-1), { range: '1 mA' }), 'is below zero', 'other polarity or lead order'],
    [reading(div(Number.NaN), { range: '1 mA' }), 'is not a number', 'Write what was shown.'],
    [
      reading({ kind: 'state', state: 'over' }, { range: '1 mA' }),
      'is a state, and I_CEO needs a number',
      'Take a higher range',
    ],
    [reading({ kind: 'state', state: 'short' }), 'is a state', 'A shorted part'],
    [reading(div(10)), '"" is empty, and Bench tester reads I_CEO on several', '100 uA, 1 mA'],
    [reading(div(10), { range: '7 mA' }), 'There is no range on Bench tester called "7 mA"', 'Its ranges here: 100 uA'],
    [reading(div(10), { range: '1 V' }), 'is a voltage range, and I_CEO is read in A', 'Write one of'],
    [reading(div(10), { range: '1 mA', scale: '60' }), '"60" is not a scale of Bench tester', '100, 30'],
    [
      reading({ kind: 'value', value: 0.5, unit: 'V' }, { range: '1 mA' }),
      'is not in A, as 1 mA reads',
      'Write a current',
    ],
    [reading(div(10), { reads: 'h_FE' }), '"h_FE" is not read on Bench tester', 'Leave it out.'],
    [reading(div(10), { reads: 'V_F' }), 'is not among the tests of Bench tester', 'Name the range'],
    [reading(div(10), { reads: 'short' }), 'is a check, not a quantity', 'Take its state'],
  ])('%j', (r, problem, mend) => {
    const [sentence, ...others] = faults(bench, r)
    expect(others).toEqual([])
    expect(sentence).toContain(problem)
    expect(sentence).toContain(mend)
  })

  test('a centre-zero needle reads both ways', () => {
    const t: Tester = { ...bench, movement: { ...movement, zero: 'centre' } }
    close(quantity(t, reading(div(-25), { range: '100 uA' })).value, -50e-6)
    expect(faults(t, reading(div(-51), { range: '100 uA' }))).toHaveLength(1)
  })

  test('a range the test does not offer is used, and said', () => {
    const seen = good(
      seenAtPart(bench, reading({ kind: 'value', value: 0.2, unit: 'V' }, { reads: 'V_CE', range: '1 V' })),
    )
    expect(seen.notes[0]).toBe('The description of Bench tester does not offer the range 1 V for V_CE.')
  })
})

describe('digits', () => {
  const digital: Tester = {
    ...bench,
    id: 'meter',
    name: 'Meter',
    kind: 'digital',
    scales: [],
    ranges: [
      range('2 mA', 2e-3, { kind: 'stated', ofReading: 0.01, ofRange: 0.001, counts: 2, step: 1e-6, burdenV: 0.2 }),
      range('20 mA', 20e-3, { kind: 'unknown', assumed: 0.05, step: 1e-5 }),
    ],
    tests: [{ reads: 'I_CEO', ranges: ['2 mA', '20 mA'] }],
  }

  test("the maker's limit is met whole, gain and offset shared and counts not", () => {
    const q = quantity(digital, reading(amps(1.5e-3), { range: '2 mA' }))
    const limit = 0.01 * 1.5e-3 + 0.001 * 2e-3 + 2e-6
    close(standardUncertainty(without(q, /resolution/)), limit / Math.sqrt(3))
    expect(q.budget.map((t) => t.cause)).toEqual([
      'reading/A1/I_CEO/1/2 mA/resolution',
      'meter/range/2 mA/gain',
      'meter/range/2 mA/offset',
      'reading/A1/I_CEO/1/2 mA/counts',
    ])
    close(q.budget[0]!.u, 1e-6 / Math.sqrt(12))
  })

  test('zero on the display still has its counts', () => {
    const q = quantity(digital, reading(amps(0), { range: '2 mA' }))
    close(standardUncertainty(without(q, /resolution/)), (0.001 * 2e-3 + 2e-6) / Math.sqrt(3))
  })

  test('unknown accuracy, over the range, below zero, no number', () => {
    expect(good(seenAtPart(digital, reading(amps(10e-3), { range: '20 mA' }))).notes).toHaveLength(1)
    expect(faults(digital, reading(amps(2.1e-3), { range: '2 mA' }))[0]).toContain(
      'is beyond the range 2 mA. Check the number, or read again on 20 mA.',
    )
    expect(faults(digital, reading(amps(-1e-6), { range: '2 mA' }))[0]).toContain('Write it without the sign')
    expect(faults(digital, reading(div(7), { range: '2 mA' }))[0]).toContain('Write the number Meter showed.')
  })
})

test('every reading on every range either is a finite number or a sentence', () => {
  const any = fc.double({ noNaN: false })
  fc.assert(
    fc.property(
      fc.oneof(any.map(div), any.map(amps)),
      fc.constantFrom(...bench.ranges.map((r) => r.id), 'x', undefined),
      fc.constantFrom<ReadingKind>('I_CEO', 'V_BE', 'h_FE', 'short'),
      (shown, id, reads) => {
        const seen = seenAtPart(bench, reading(shown, { reads, ...(id === undefined ? {} : { range: id }) }))
        if (seen.ok)
          expect(Number.isFinite(seen.quantity.value) && Number.isFinite(standardUncertainty(seen.quantity))).toBe(true)
        else expect(seen.faults.length).toBeGreaterThan(0)
      },
    ),
    { numRuns: 500 },
  )
})
