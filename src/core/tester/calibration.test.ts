import { describe, expect, test } from 'vitest'
import { contribution, type Quantity, standardUncertainty } from '#core/quantity'
import { expectRelative } from '#core/testing'
import { bench } from './bench.ref.ts'
import { calibrationAt, correctionAt } from './calibration.ts'
import { testerExample } from './example.ts'
import { type Calibration, type Reading, readTester, type Seen, seenAtPart, type Tester } from './index.ts'

const line = { kind: 'line', at: 5e-3, offset: 0.1e-3, slope: 0.02, uOffset: 0.01e-3, uSlope: 0.002 } as const
const of = (date: string, more: Partial<Calibration['ranges'][number]> = {}, head: Partial<Calibration> = {}) => ({
  date,
  ...head,
  ranges: [
    {
      range: '10 mA',
      trust: 'with corrections' as const,
      why: 'It reads low.',
      from: 0,
      to: 10e-3,
      law: line,
      uReference: 0.02e-3,
      uRepeat: 0.03e-3,
      ...more,
    },
  ],
})

const reading = (divisions: number, more: Partial<Reading> = {}): Reading => ({
  part: 'P',
  reads: 'I_C',
  shown: { kind: 'deflection', divisions },
  seen: `${divisions} div`,
  range: '10 mA',
  point: 1,
  ...more,
})

const read = (t: Tester, r: Reading): Extract<Seen, { ok: true }> => {
  const seen = seenAtPart(t, r)
  if (!seen.ok) throw new Error(JSON.stringify(seen.faults))
  return seen
}
const with1 = (...calibrations: Calibration[]): Tester => ({ ...bench, calibrations })
const share = (q: Quantity, part: string): number =>
  Math.hypot(...q.budget.filter((t) => t.cause.includes(part)).map(contribution))

describe('a reading on a calibrated range', () => {
  const seen = read(with1(of('2024-01-01')), reading(40))
  const q = seen.quantity

  /** By hand: 40 of 50 divisions show 8 mA; 0.1 mA + 0.02 (8 - 5) mA = 0.16 mA is added. */
  test('is what is printed, and the correction', () => {
    expectRelative(q.value, 8.16e-3, 1e-12)
    expect(seen.notes.join(' ')).toContain('Corrected by the calibration of 2024-01-01.')
  })

  /** By hand: 0.01, 0.002 x 3 = 0.006, 0.02 and 0.03 mA. */
  test('has the causes of the calibration, and no longer class and shunt', () => {
    expectRelative(share(q, '/offset'), 0.01e-3, 1e-9)
    expectRelative(share(q, '/slope'), 0.006e-3, 1e-9)
    expectRelative(share(q, '/reference'), 0.02e-3, 1e-9)
    expectRelative(share(q, '/scatter'), 0.03e-3, 1e-9)
    expect(q.budget.filter((t) => /movement|shunt|resolution/.test(t.cause))).toEqual([])
    expect(standardUncertainty(q)).toBeLessThan(standardUncertainty(read(bench, reading(40)).quantity))
  })

  test('shares the calibration with other readings on the range, and not its own repeats', () => {
    const other = read(with1(of('2024-01-01')), reading(20, { point: 2 })).quantity
    const shared = q.budget.filter((t) => other.budget.some((o) => o.cause === t.cause)).map((t) => t.cause)
    expect(shared.every((c) => c.includes('/calibration/2024-01-01/'))).toBe(true)
    expect(shared).toHaveLength(3)
  })

  test('brings the degrees of freedom of its scatter, and none of the reference', () => {
    const few = read(with1(of('2024-01-01', { dof: 3 })), reading(40)).quantity
    const dofOf = (part: string) => few.budget.find((t) => t.cause.includes(part))?.dof
    expect(['/offset', '/slope', '/scatter', '/reference'].map(dofOf)).toEqual([3, 3, 3, undefined])
  })

  test('beyond what was calibrated is read as described', () => {
    const far = read(with1(of('2024-01-01', { to: 5e-3 })), reading(40))
    expect(far.quantity.value).toBe(read(bench, reading(40)).quantity.value)
    expect(far.notes.join(' ')).toContain('does not reach 40 div')
  })

  test('of another range is none of it', () =>
    expect(read(with1(of('2024-01-01')), reading(40, { range: '1 mA' })).quantity).toEqual(
      read(bench, reading(40, { range: '1 mA' })).quantity,
    ))
})

describe('which calibration is in force', () => {
  const t = with1(
    of('2024-01-01'),
    of('2024-06-01', { why: 'second' }),
    of('2025-01-01', { why: 'third' }, { from: '2024-09-01' }),
  )

  test.each([
    ['2023-12-31T10:00:00Z', undefined],
    ['2024-01-01T08:00:00Z', '2024-01-01'],
    ['2024-08-31', '2024-06-01'],
    ['2024-09-01', '2025-01-01'],
    [undefined, '2025-01-01'],
  ])('at %s', (at, date) => expect(calibrationAt(t, { id: '10 mA', unit: 'A' }, at)?.head.date).toBe(date))

  test('a reading before the first is read as described', () =>
    expect(read(t, reading(40, { at: '2023-05-01' })).quantity).toEqual(read(bench, reading(40)).quantity))
})

test('a range that is not trusted is read as described, and says so', () => {
  const seen = read(with1(of('2024-01-01', { trust: 'not trusted', why: 'The needle sticks.' })), reading(40))
  expect(seen.quantity).toEqual(read(bench, reading(40)).quantity)
  expect(seen.distrust).toBe('10 mA is not trusted since its calibration of 2024-01-01: The needle sticks.')
})

test('a calibration that was due again is said', () => {
  const t = with1(of('2024-01-01', {}, { due: '2025-01-01' }))
  expect(read(t, reading(40, { at: '2025-01-01' })).distrust).toBeUndefined()
  expect(read(t, reading(40, { at: '2025-01-02' })).distrust).toContain('due again on 2025-01-01')
})

/** By hand: coil 1100 ohm beside 11.1 ohm; 0.4 % more coil is 0.4 % x 1100/1111.1 more current a division. */
test('the coil is taken from the temperature of the calibration to that of the reading', () => {
  const copper = {
    ...bench,
    movement: { ...bench.movement!, copperPerK: 0.004 },
    calibrations: [of('2024-01-01', { law: { ...line, offset: 0, slope: 0 } }, { ambientC: 20 })],
  }
  const at = (ambientC: number): number => read(copper, reading(40, { ambientC })).quantity.value
  const circuit = bench.ranges.find((r) => r.id === '10 mA')!.circuit
  const ohm = circuit.kind === 'shunt' ? circuit.shuntOhm + circuit.contactOhm : Number.NaN
  expect(at(20)).toBeCloseTo(8e-3, 12)
  expectRelative(at(25), (8e-3 * (1100 * 1.02 + ohm)) / (1100 + ohm), 1e-9)
})

test('a curve runs through its points, and its doubt between them', () => {
  const curve = { kind: 'curve', shown: [0, 5e-3, 10e-3], correction: [0, 1e-4, 0], u: [1e-5, 3e-5, 1e-5] } as const
  const c = of('2024-01-01', { law: curve }).ranges[0]!
  expect(correctionAt(c, 5e-3).value).toBeCloseTo(1e-4, 12)
  expectRelative(correctionAt(c, 2.5e-3).u, 2e-5, 1e-9)
  expectRelative(correctionAt(c, 10e-3).u, 1e-5, 1e-9)
  expectRelative(read(with1(of('2024-01-01', { law: curve })), reading(25)).quantity.value, 5.1e-3, 1e-9)
})

describe('in a description', () => {
  const written = (range: string, law: string, to = '10 mA'): string => `${testerExample}
calibrations:
  - date: "2024-05-12"
    ambient: 21 degC
    ranges:
      - { range: ${range}, trust: with corrections, why: It reads low., from: 0 mA, to: ${to}, law: ${law}, uReference: 0.02 mA, uRepeat: 0 mA }
`
  const law = '{ kind: line, at: 5 mA, offset: -0.03 mA, slope: -0.6 %, uOffset: 0.01 mA, uSlope: 0.1 % }'

  test('is read in SI units', () => {
    const found = readTester(written('10 mA', law))
    if (!found.ok) throw new Error(JSON.stringify(found.faults))
    const [c] = found.tester.calibrations!
    expect(c).toMatchObject({ date: '2024-05-12', ambientC: 21 })
    expectRelative((c!.ranges[0]!.law as typeof line).offset, -0.03e-3, 1e-12)
    expectRelative((c!.ranges[0]!.law as typeof line).slope, -0.006, 1e-12)
  })

  test.each([
    [written('11 mA', law), /is no range of this tester/],
    [written('10 mA', law.replace('5 mA', '5 V')), /mixes A and V/],
    [written('10 mA', law, '10 A'), /is beyond 10 mA/],
    [
      written('10 mA', '{ kind: curve, shown: [1 mA, 1 mA], correction: [0 mA, 0 mA], u: [0 mA, 0 mA] }'),
      /does not rise/,
    ],
    [
      written('10 mA', '{ kind: curve, shown: [1 mA, 2 mA, 3 mA], correction: [0 mA, 0 mA], u: [0 mA, 0 mA] }'),
      /different lengths/,
    ],
  ])('%#', (text, say) => {
    const found = readTester(text)
    expect(found.ok).toBe(false)
    expect(JSON.stringify(found)).toMatch(say)
  })
})
