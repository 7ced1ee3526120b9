import { describe, expect, test } from 'vitest'
import { type Calibration, readTester, type TrustWord, testerExample } from '#core/tester'
import { checkStandardExampleCsv, healthOf, readCheckStandards, steadiness } from './index.ts'

const read = readTester(testerExample)
if (!read.ok) throw new Error('the example does not read')
const { tester } = read

const calibration = (date: string, due: string, trust: TrustWord, offset = 0): Calibration => ({
  date,
  due,
  ranges: [
    {
      range: '10 mA',
      trust,
      why: 'Because.',
      from: 0,
      to: 10e-3,
      law: { kind: 'line', at: 5e-3, offset, slope: 0, uOffset: 1e-6, uSlope: 1e-4 },
      uReference: 0,
      uRepeat: 0,
    },
  ],
})

const rangeOf = (calibrations: readonly Calibration[], on: string) =>
  healthOf({ ...tester, calibrations }, on).ranges.find((r) => r.range === '10 mA')!

test('a tester nobody calibrated is as described', () => {
  const h = healthOf(tester, '2024-06-01')
  expect(h.word).toBe('as described')
  expect(h.say).toBe('Bench tester: never calibrated on all its ranges.')
  expect(h.nextDue).toBeUndefined()
})

describe('a calibrated range', () => {
  test.each(['trusted', 'with corrections', 'not trusted'] as const)('is %s as its calibration says', (trust) => {
    const r = rangeOf([calibration('2024-01-01', '2025-01-01', trust)], '2024-06-01')
    expect(r).toMatchObject({ word: trust, calibrated: '2024-01-01', due: '2025-01-01' })
  })

  test('is as described before its first calibration, and not trusted after it was due', () => {
    const all = [calibration('2024-01-01', '2025-01-01', 'trusted')]
    expect(rangeOf(all, '2023-12-31').word).toBe('as described')
    expect(rangeOf(all, '2025-01-01').word).toBe('trusted')
    expect(rangeOf(all, '2025-01-02')).toMatchObject({ word: 'not trusted', why: expect.stringContaining('Due again') })
  })

  test('says how its correction moves over three calibrations', () => {
    const all = [0, 1, 2, 3].map((y) =>
      calibration(`${2020 + y}-01-01`, `${2021 + y}-01-01`, 'trusted', 20e-6 * y + (y % 2) * 1e-7),
    )
    expect(rangeOf(all, '2023-06-01').why).toMatch(/moves by 20\.\d+\(\d+\) µA a year/)
  })
})

test('the sentence names every word and the next date', () => {
  const h = healthOf(
    { ...tester, calibrations: [calibration('2024-01-01', '2025-01-01', 'with corrections')] },
    '2024-06-01',
  )
  expect(h.say).toBe(
    'Bench tester: trusted with corrections on 10 mA; never calibrated on 100 uA, 1 mA, 1 V. Next due on 2025-01-01.',
  )
  expect(h.nextDue).toBe('2025-01-01')
})

test('a check standard out of control takes the trust from every range', () => {
  const found = readCheckStandards(checkStandardExampleCsv, 'x.csv').map((s) => steadiness(s, { baseline: 12 }))
  const h = healthOf(
    tester,
    '2025-01-01',
    found.map((s) => ({ steadiness: s, say: 'Out.' })),
  )
  expect(h.word).toBe('not trusted')
  expect(h.ranges.every((r) => r.word === 'not trusted')).toBe(true)
  expect(h.standards).toEqual([{ part: 'CS-1', word: 'out of control', say: 'Out.' }])
})
