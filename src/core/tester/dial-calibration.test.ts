import { describe, expect, test } from 'vitest'
import { contribution, type Quantity, standardUncertainty } from '#core/quantity'
import { expectRelative } from '#core/testing'
import { testerExample } from './example.ts'
import { type Calibration, gainSeen, type Reading, readTester, type Seen, type Tester } from './index.ts'
import { writtenCalibration } from './write-calibration.ts'

const example = readTester(testerExample)
if (!example.ok) throw new Error('the example does not read')
const bare = example.tester

const line = { kind: 'line', at: 50, offset: 1.5, slope: 0.02, uOffset: 0.2, uSlope: 0.01 } as const
const of = (more: Partial<Calibration['ranges'][number]> = {}): Calibration => ({
  date: '2024-01-01',
  due: '2025-01-01',
  ranges: [
    {
      range: 'low',
      unit: '1',
      trust: 'with corrections',
      why: 'It reads low.',
      from: 20,
      to: 100,
      law: line,
      uReference: 0.3,
      uRepeat: 0.4,
      dof: 8,
      ...more,
    },
  ],
})
const with1 = (c: Calibration): Tester => ({ ...bare, calibrations: [c] })
const reading = (value: number, more: Partial<Reading> = {}): Reading => ({
  part: 'P',
  reads: 'h_FE',
  shown: { kind: 'value', value, unit: '1' },
  seen: String(value),
  range: 'low',
  point: 1,
  ...more,
})
const read = (t: Tester, r: Reading): Extract<Seen, { ok: true }> => {
  const seen = gainSeen(t, r)
  if (!seen.ok) throw new Error(JSON.stringify(seen.faults))
  return seen
}
const share = (q: Quantity, part: string): number =>
  Math.hypot(...q.budget.filter((t) => t.cause.includes(part)).map(contribution))

describe('a gain read on a calibrated span', () => {
  const seen = read(with1(of()), reading(70))
  const q = seen.quantity

  /** By hand, with the law of JCGM 100:2008, H.3: 70 + 1.5 + 0.02 (70 - 50) = 71.9. */
  test('is what the dial shows, and the correction', () => {
    expectRelative(q.value, 71.9, 1e-12)
    expect(seen.notes).toEqual(['Corrected by the calibration of 2024-01-01.'])
    expect(q.origin).toMatchObject({ kind: 'derived', formula: 'tester/corrected-gain' })
  })

  /** By hand: 0.2, 0.01 x 20 = 0.2, 0.3 and 0.4; together 0.574, where the dial as described leaves 5 % / sqrt(3) of 70 open. */
  test('has the causes of the calibration, and no longer those of the dial', () => {
    expectRelative(share(q, '/offset'), 0.2, 1e-9)
    expectRelative(share(q, '/slope'), 0.2, 1e-9)
    expectRelative(share(q, '/reference'), 0.3, 1e-9)
    expectRelative(share(q, '/scatter'), 0.4, 1e-9)
    expectRelative(standardUncertainty(q), Math.sqrt(0.04 + 0.04 + 0.09 + 0.16), 1e-9)
    expect(q.budget.filter((t) => /\/dial$|\/null|resolution/.test(t.cause))).toEqual([])
    expect(q.budget.find((t) => t.cause.endsWith('/offset'))).toMatchObject({
      label: 'offset, calibration of h_FE span low, 2024-01-01',
      dof: 8,
    })
  })

  test('shares the calibration with other gains on the span, and not its own repeats', () => {
    const other = read(with1(of()), reading(30, { part: 'Q' })).quantity
    const shared = q.budget.filter((t) => other.budget.some((o) => o.cause === t.cause)).map((t) => t.cause)
    expect(shared).toEqual(
      ['offset', 'slope', 'reference'].map((c) => `${bare.id}/gain/low/calibration/2024-01-01/${c}`),
    )
  })

  test('is corrected where the span was not noted, too', () => {
    const { range: _, ...unnamed } = reading(30)
    expectRelative(read(with1(of()), unnamed).quantity.value, 30 + 1.5 - 0.4, 1e-12)
  })

  test.each([
    ['beyond what was calibrated', with1(of({ to: 40 })), reading(70), /does not reach 70 on h_FE span low/],
    ['on another span', with1(of()), reading(70, { range: 'high' }), /^$/],
    ['before it was calibrated', with1(of()), reading(70, { at: '2023-05-01' }), /^$/],
    ['where a range has the name of the span', with1(of({ range: '10 mA' })), reading(70), /^$/],
  ])('%s it is read as described', (_, t, r, notes) => {
    const found = read(t, r)
    expect(found.quantity).toEqual(read(bare, r).quantity)
    expect(found.notes.join(' ')).toMatch(notes)
  })
})

test('a span that is not trusted is read as described, and says so', () => {
  const seen = read(with1(of({ trust: 'not trusted', why: 'The dial has play.' })), reading(70))
  expect(seen.quantity).toEqual(read(bare, reading(70)).quantity)
  expect(seen.distrust).toBe('h_FE span low is not trusted since its calibration of 2024-01-01: The dial has play.')
})

test('a calibration that was due again is said', () =>
  expect(read(with1(of()), reading(70, { at: '2025-02-01' })).distrust).toBe(
    'The calibration of h_FE span low was due again on 2025-01-01: make it anew.',
  ))

describe('in a description', () => {
  const written = (calibration: unknown): string => `${testerExample}\ncalibrations: ${JSON.stringify([calibration])}\n`

  test('what was written is read back', () => {
    const points = [{ shown: 20, reference: 20.9, u: 0.1, way: 'up' as const }]
    const found = readTester(written(writtenCalibration(bare, of({ points }))))
    if (!found.ok) throw new Error(JSON.stringify(found.faults))
    expect(found.tester.calibrations).toEqual([of({ points })])
  })

  test('a small number is read back', () => {
    const small = of({ law: { ...line, offset: -1.25e-7, uOffset: 3e-9 }, uRepeat: 0 })
    const found = readTester(written(writtenCalibration(bare, small)))
    if (!found.ok) throw new Error(JSON.stringify(found.faults))
    expect(found.tester.calibrations).toEqual([small])
  })

  test.each([
    ['a span that is not there', of({ range: 'middle' }), /is no span of the gain dial/],
    ['a gain beyond the span', of({ to: 500 }), /is beyond low/],
  ])('%s is refused', (_, c, say) =>
    expect(JSON.stringify(readTester(written(writtenCalibration(bare, c))))).toMatch(say),
  )

  test('a current among gains is refused', () => {
    const text = written(writtenCalibration(bare, of())).replace('"uRepeat":"0.4"', '"uRepeat":"0.4 mA"')
    expect(JSON.stringify(readTester(text))).toMatch(/mixes units and plain numbers/)
  })
})
