import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { explain } from '#core/fault'
import { type Quantity, standardUncertainty } from '#core/quantity'
import { bench, movement, range } from './bench.ref.ts'
import { fullScaleAtPart, needle } from './needle.ts'
import type { Reading, Shown } from './reading.ts'
import { type Seen, seenAtPart } from './seen-at-part.ts'
import type { ReadingKind, Tester } from './tester.ts'

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
