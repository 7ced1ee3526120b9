import { describe, expect, test } from 'vitest'
import { reduceReadings } from '#core/reduce'
import { type Calibration, type Reading, readTester, type Tester, testerExample } from '#core/tester'
import { foundAgainst, foundState, healthOf, type KeptFound } from './index.ts'

const read = readTester(testerExample)
if (!read.ok) throw new Error('the example does not read')
const tester: Tester = read.tester

const shunt = (day: string, value: number): KeptFound => ({
  day,
  parts: [{ part: 'shunt 10 mA', value, u: value * 0.002 }],
})
const ten = { range: '10 mA' } as const

/** A shunt of 12.1 ohm for 11.1 lets about 9 % more through the movement (Kirchhoff), far beyond class and tolerance. */
const bad = shunt('2024-06-10', 12.1)

const calibration = (date: string, range: Partial<Calibration['ranges'][number]> = {}): Calibration => ({
  date,
  ranges: [
    {
      range: '10 mA',
      trust: 'with corrections',
      why: 'w',
      from: 0,
      to: 10e-3,
      law: { kind: 'line', at: 5e-3, offset: 0, slope: 0, uOffset: 0, uSlope: 0 },
      uReference: 0,
      uRepeat: 0,
      ...range,
    },
  ],
})

describe('what parts as found say against a reading', () => {
  const against = foundAgainst(tester, [bad])

  test('taken after they were measured, or at an unknown time', () => {
    const say =
      /^As found on 2024-06-10 the tester's parts make 10 mA read 8\.\d+ % high at full scale, and its description allows [\d.]+ %\. Take it/
    expect(against(ten, '2024-07-01T10:00:00Z')).toMatch(say)
    expect(against(ten, '2024-06-10')).toMatch(say)
    expect(against(ten)).toMatch(say)
  })

  test('taken before: nobody knows since when it was so', () =>
    expect(against(ten, '2024-01-01')).toMatch(/measured after this reading, and nobody knows since when/))

  test('nothing on ranges that they do not move', () => {
    expect(against({ range: '1 mA' }, '2024-07-01')).toBeUndefined()
    expect(against('gain', '2024-07-01')).toBeUndefined()
  })

  test('nothing where they are as they should be', () =>
    expect(foundAgainst(tester, [shunt('2024-06-10', 11.11)])(ten, '2024-07-01')).toBeUndefined())

  test('nothing once they were measured again and found good; readings between stay doubtful', () => {
    const mended = foundAgainst(tester, [shunt('2024-06-20', 11.1), bad])
    expect(mended(ten, '2024-06-21')).toBeUndefined()
    expect(mended(ten, '2024-06-15')).toMatch(/^As found on 2024-06-10/)
  })

  test('good before and bad after: somewhere between it went', () => {
    const gone = foundAgainst(tester, [shunt('2024-01-01', 11.1), bad])
    expect(gone(ten, '2024-03-01')).toMatch(/nobody knows since when/)
    expect(foundAgainst(tester, [shunt('2024-01-01', 11.1)])(ten, '2024-03-01')).toBeUndefined()
  })

  test('a calibration after them settles it, one between a reading and them as well', () => {
    const calibrated = { ...tester, calibrations: [calibration('2024-06-12')] }
    expect(foundAgainst(calibrated, [bad])(ten, '2024-07-01')).toBeUndefined()
    expect(foundAgainst(calibrated, [bad])(ten, '2024-06-11')).toMatch(/^As found/)
    expect(foundAgainst(tester, [bad], [calibration('2024-03-01')])(ten, '2024-01-01')).toBeUndefined()
    expect(foundAgainst(tester, [bad], [calibration('2024-03-01')])(ten, '2024-04-01')).toMatch(/nobody knows/)
  })
})

describe('the resistors of the gain dial', () => {
  if (tester.gain.kind !== 'dial') throw new Error('the example has no dial')
  const bridged: Tester = {
    ...tester,
    gain: { ...tester.gain, bridge: { dial: 'base', fixedOhm: 1000, potOhm: 100e3, tolerance: 0.01 } },
  }
  const resistor = (value: number): KeptFound => ({
    day: '2024-06-10',
    parts: [{ part: 'dial resistor', value, u: 1 }],
  })

  /** By hand: at null the gain goes with R_B / R_C, so that 1.1 kohm for 1 kohm shows 10 % too much. */
  test('speak against gains', () =>
    expect(foundAgainst(bridged, [resistor(1100)])('gain', '2024-07-01')).toContain(
      'make the gain dial read 10 % high, and its description allows 5 %',
    ))

  test('take the trust from its spans, until one is calibrated', () => {
    const found = foundState(bridged, [resistor(1100)])
    const spans = (t: Tester) => healthOf(t, '2024-07-01', { found }).ranges.filter((r) => r.range.startsWith('h_FE'))
    expect(spans(bridged).map((r) => r.word)).toEqual(['not trusted', 'not trusted'])
    expect(spans(bridged)[0]!.why).toMatch(/^As found on 2024-06-10 its parts make it read 10 % high, and/)
    const dial = calibration('2024-06-12', { range: 'low', unit: '1', from: 10, to: 100 })
    expect(spans({ ...bridged, calibrations: [dial] }).map((r) => r.word)).toEqual(['with corrections', 'not trusted'])
  })

  test('within their tolerance they are told', () => {
    const found = foundState(bridged, [resistor(1005)])
    const span = healthOf(bridged, '2024-07-01', { found }).ranges.find((r) => r.range === 'h_FE span low')
    expect(span).toMatchObject({ word: 'as described', why: expect.stringContaining('0.5 % high') })
    expect(foundAgainst(bridged, [resistor(1005)])('gain', '2024-07-01')).toBeUndefined()
  })
})

describe('results', () => {
  const reading = (reads: Reading['reads'], divisions: number, range: string): Reading => ({
    part: 'P',
    reads,
    shown: { kind: 'deflection', divisions },
    seen: `${divisions} div`,
    range,
    point: 1,
    at: '2024-07-01T10:00:00Z',
  })
  const readings = [reading('I_C', 25, '10 mA'), reading('I_B', 25, '1 mA'), reading('I_CEO', 10, '100 uA')]
  const parameters = (against = foundAgainst(tester, [bad])) =>
    reduceReadings(tester, readings, { against })[0]!.parameters

  test('of readings on the range say so, however derived; the others do not', () => {
    const said = parameters().map((p) => [p.symbol, p.doubts.filter((d) => d.code === 'range-as-found').length])
    expect(said).toContainEqual(['I_CEO', 0])
    expect(said).toContainEqual(['h_FE', 1])
    const gain = parameters().filter((p) => p.symbol.startsWith('h_FE'))
    expect(gain.every((p) => p.doubts.some((d) => d.code === 'range-as-found' && d.weight === 'notice'))).toBe(true)
  })

  test('keep their numbers', () =>
    expect(parameters().map((p) => p.quantity)).toEqual(parameters(() => undefined).map((p) => p.quantity)))
})
