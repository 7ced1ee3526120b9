import { describe, expect, test } from 'vitest'
import { type Calibration, readTester, type TrustWord, testerExample } from '#core/tester'
import { checkStandardExampleCsv, foundState, healthOf, readCheckStandards, steadiness } from './index.ts'

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
  const h = healthOf(tester, '2025-01-01', {
    standards: found.map((s) => ({ part: s.part, word: s.word, say: 'Out.' })),
  })
  expect(h.word).toBe('not trusted')
  expect(h.ranges.every((r) => r.word === 'not trusted')).toBe(true)
  expect(h.standards).toEqual([{ part: 'CS-1', word: 'out of control', say: 'Out.' }])
})

describe('parts as found', () => {
  const shunt = (value: number) => [{ day: '2024-06-10', parts: [{ part: 'shunt 10 mA', value, u: value * 0.002 }] }]
  const health = (value: number, calibrations: readonly Calibration[] = [], on = '2024-07-01') =>
    healthOf({ ...tester, calibrations }, on, { found: foundState(tester, shunt(value), on) }).ranges.find(
      (r) => r.range === '10 mA',
    )!

  // by hand: a shunt 9 % too large lets the movement take about 9 % more, far beyond class and tolerance
  test('far off take the trust from their range, and say by how much', () => {
    const r = health(12.1)
    expect(r.word).toBe('not trusted')
    expect(r.why).toMatch(/^As found on 2024-06-10 its parts make it read 8\.\d+ % high at full scale/)
    expect(health(10.1).why).toMatch(/read 9\.\d+ % low/)
  })

  test('as they should be leave the word and are told', () => {
    expect(health(11.11)).toMatchObject({
      word: 'as described',
      why: expect.stringContaining('As found on 2024-06-10'),
    })
  })

  test('are over once the range was calibrated after them, and count again where the calibration is older', () => {
    expect(health(12.1, [calibration('2024-06-10', '2025-06-01', 'with corrections')]).word).toBe('with corrections')
    expect(health(12.1, [calibration('2024-06-01', '2025-06-01', 'trusted')]).word).toBe('not trusted')
    expect(health(12.1, [], '2024-06-09').word).toBe('as described')
  })

  test('the newest value of each part counts, and what is no part any more is named', () => {
    const all = [
      ...shunt(12.1),
      { day: '2024-06-12', parts: [{ part: 'shunt 10 mA', value: 11.1, u: 0 }] },
      { day: '2023-01-01', parts: [{ part: 'shunt 77 mA', value: 1, u: 0 }] },
    ]
    const state = foundState(tester, all)
    expect(state.values.map((v) => [v.part.id, v.value, v.day])).toEqual([['shunt 10 mA', 11.1, '2024-06-12']])
    expect(state.unknown).toEqual(['shunt 77 mA'])
    expect(foundState(tester, all, '2024-06-11').values[0]?.value).toBe(12.1)
  })
})
