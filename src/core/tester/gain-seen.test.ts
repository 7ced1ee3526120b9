import { expect, test } from 'vitest'
import { explain } from '#core/fault'
import { covariance, standardUncertainty } from '#core/quantity'
import { testerExample } from './example.ts'
import { gainSeen } from './gain-seen.ts'
import { readTester } from './read-tester.ts'
import type { Reading } from './reading.ts'
import type { Gain, Tester } from './tester.ts'

const tester = ((): Tester => {
  const read = readTester(testerExample)
  if (!read.ok) throw new Error(read.faults.map(explain).join('\n'))
  return read.tester
})()

const gain = (value: number, more: Partial<Reading> = {}): Reading => ({
  part: 'A1',
  reads: 'h_FE',
  shown: { kind: 'value', value, unit: '1' },
  seen: String(value),
  point: 1,
  ...more,
})

const withGain = (g: Gain): Tester => ({ ...tester, gain: g })
const good = (t: Tester, r: Reading) => {
  const seen = gainSeen(t, r)
  if (!seen.ok) throw new Error(seen.faults.map(explain).join('\n'))
  return seen
}
const fault = (t: Tester, r: Reading): string => {
  const seen = gainSeen(t, r)
  return seen.ok ? '' : seen.faults.map(explain).join('\n')
}

test('a dialled gain: tolerance shared by the span, reading and null its own', () => {
  const { quantity, notes } = good(tester, gain(80, { range: 'high' }))
  expect(notes).toEqual([])
  expect(quantity.budget.map((t) => [t.cause, Math.abs(t.slope * t.u)])).toEqual([
    ['bench-tester/gain/high/dial', (0.05 * 80) / Math.sqrt(3)],
    ['reading/A1/h_FE/1/high/resolution', (0.01 * 500) / Math.sqrt(12)],
    ['reading/A1/h_FE/1/high/null', (0.01 * 80) / Math.sqrt(3)],
  ])
  const other = good(tester, gain(90, { part: 'A2', range: 'high' })).quantity
  expect(covariance(quantity, other)).toBeCloseTo((0.05 ** 2 * 80 * 90) / 3, 10)
})

test('a span that was not noted is found where only one holds the number, and said where two do', () => {
  expect(good(tester, gain(20)).notes).toEqual([])
  expect(good(tester, gain(80)).notes).toEqual(['The span was not noted: low was taken.'])
  expect(good(tester, gain(300)).quantity.budget[0]!.cause).toBe('bench-tester/gain/high/dial')
})

test('what is no gain is said to be none', () => {
  expect(fault(tester, gain(80, { range: 'hihg' }))).toContain(
    'Near it: high. Spans of the dial: low (10 to 100), high (50 to 500).',
  )
  expect(fault(tester, gain(5))).toContain('is off every span of the dial')
  expect(fault(tester, gain(600, { range: 'high' }))).toContain('is off the span high')
  expect(fault(tester, gain(-3))).toContain('is not a gain')
  expect(fault(tester, gain(Number.NaN))).toContain('is not a gain')
  expect(fault(tester, gain(3, { shown: { kind: 'state', state: 'no null' } }))).toContain(
    'a gain that cannot be nulled',
  )
  expect(fault(tester, gain(3, { shown: { kind: 'deflection', divisions: 3 } }))).toContain(
    'is a deflection, not a gain',
  )
  expect(fault(tester, gain(3, { shown: { kind: 'value', value: 3, unit: 'A' } }))).toContain('a gain has no unit')
  const ratio: Gain = { kind: 'ratio', maxBaseA: 1e-3, collectorA: [1e-4, 1e-2] }
  expect(fault(withGain(ratio), gain(80))).toContain('Enter I_C and I_B; the gain is their ratio.')
  expect(fault(withGain({ kind: 'none' }), gain(80))).toContain('Leave it out.')
})

test("a displayed gain takes its maker's limits, or a wide one that is said", () => {
  const stated = good(withGain({ kind: 'digital', ofReading: 0.03, counts: 2, step: 1 }), gain(100))
  expect(stated.notes).toEqual([])
  expect(standardUncertainty(stated.quantity)).toBeCloseTo(
    Math.hypot(3 / Math.sqrt(3), 2 / Math.sqrt(3), 1 / Math.sqrt(12)),
    12,
  )
  const unknown = good(withGain({ kind: 'digital', step: 1 }), gain(100))
  expect(unknown.notes[0]).toContain('The maker says nothing of how accurate the gain of Bench tester is: 10 %')
  expect(standardUncertainty(unknown.quantity)).toBeCloseTo(Math.hypot(10 / Math.sqrt(3), 1 / Math.sqrt(12)), 12)
})
