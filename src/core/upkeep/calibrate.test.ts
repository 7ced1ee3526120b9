import { describe, expect, test } from 'vitest'
import { atTerminals, type CalibrationPoint, correctionAt, readTester, testerExample } from '#core/tester'
import { expectPrinted, expectRelative } from '#core/testing'
import { calibrate, calibrationExampleCsv, correctionOf, halfWidth, readCalibration } from './index.ts'

/** JCGM 100:2008, H.3: a thermometer; corrections b at readings t. The data as printed in table H.6. */
describe('JCGM 100:2008, H.3', () => {
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511]
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16]
  const c = correctionOf(t.map((shown, i) => ({ shown, reference: shown + b[i]! })))

  test('offset, slope and their uncertainties, about the mean as in H.3.5', () => {
    if (c.law.kind !== 'line') throw new Error('a line is wanted')
    expectPrinted(c.law.at, '24.0085')
    expectPrinted(c.law.offset, '-0.1625')
    expectPrinted(c.law.uOffset, '0.0011')
    expectPrinted(c.law.slope, '0.00218')
    expectPrinted(c.law.uSlope, '0.00067')
    expectPrinted(c.scatter, '0.0035')
  })

  test('the correction at 30 degC and its uncertainty, H.3.4', () => {
    const range = {
      range: 't',
      trust: 'trusted',
      why: '',
      from: 21,
      to: 27,
      law: c.law,
      uReference: 0,
      uRepeat: 0,
    } as const
    const at = correctionAt(range, 30)
    expectPrinted(at.value, '-0.1494')
    expectPrinted(at.u, '0.0041')
  })
})

/** Readings made by a known tester, forward through its network with the parts it truly has. */
const fractions = [0.2, 0.4, 0.6, 0.8, 1]
const readings = (range: string, fullScale: number, factor: number, more: Partial<CalibrationPoint> = {}) => ({
  range,
  points: fractions.map((x) => ({
    shown: x * fullScale,
    reference: x * fullScale * factor,
    u: fullScale * 1e-4,
    ...more,
  })),
})
const example = readTester(testerExample)
if (!example.ok) throw new Error('the example does not read')
const { tester } = example
const head = { date: '2024-05-12', ambientC: 20 }

describe('what to trim', () => {
  const shunt = tester.ranges.find((r) => r.id === '10 mA')!
  const m = tester.movement!

  test('a shunt that is 3 % low is found, and the way to put it right brings the range right', () => {
    const true_ = 11.1 * 0.97
    const circuit = { kind: 'shunt', shuntOhm: true_, tolerance: 0, contactOhm: 0 } as const
    const factor = atTerminals(circuit, m.fullScaleA, m.coilOhm)! / shunt.fullScale
    const { advice } = calibrate(tester, [readings('10 mA', 10e-3, factor)], head).ranges[0]!
    expect(advice.kind).toBe('shunt')
    expectRelative(advice.ohm!.now, true_, 1e-6)
    const mended = { ...circuit, shuntOhm: true_ + advice.ohm!.inSeries! }
    expectRelative(atTerminals(mended, m.fullScaleA, m.coilOhm)!, shunt.fullScale, 1e-9)
    expect(advice.say).toMatch(/shunt of 10 mA acts as 10\.77/)
  })

  test('a multiplier that is 2 % high gets a resistor across it', () => {
    const factor = atTerminals({ kind: 'multiplier', seriesOhm: 8900 * 1.02, tolerance: 0 }, m.fullScaleA, m.coilOhm)!
    const { advice } = calibrate(tester, [readings('1 V', 1, factor)], head).ranges[0]!
    expect(advice.kind).toBe('multiplier')
    const { now, across } = advice.ohm!
    expectRelative((now * across!) / (now + across!), 8900, 1e-6)
  })

  test('what all ranges share is the movement', () => {
    const all = [readings('10 mA', 10e-3, 1.03), readings('1 mA', 1e-3, 1.03), readings('1 V', 1, 1.03)]
    for (const r of calibrate(tester, all, head).ranges) expect(r.advice.kind).toBe('movement')
  })

  test('a needle that does not rest at zero comes first', () => {
    const off = { range: '10 mA', points: fractions.map((x) => ({ shown: x * 10e-3 + 0.2e-3, reference: x * 10e-3 })) }
    const { advice } = calibrate(tester, [off], head).ranges[0]!
    expect(advice).toMatchObject({ kind: 'zero' })
    expect(advice.say).toContain('shows 1 of a division above it')
  })

  test('a needle that stood a hair below zero does not stop the rest', () => {
    const points = [-0.01, 0.5, 1].map((x) => ({ shown: x * 10e-3, reference: (x + 0.01) * 10e-3 }))
    expect(calibrate(tester, [{ range: '10 mA', points }], head).ranges).toHaveLength(1)
  })

  test('a range that is right is left alone', () => {
    const found = calibrate(tester, [readings('10 mA', 10e-3, 1.0002)], head).ranges[0]!
    expect(found.advice.kind).toBe('none')
    expect(found.calibration.trust).toBe('trusted')
  })
})

describe('what a range is worth', () => {
  test('with corrections, where it may be outside what is described', () => {
    const found = calibrate(tester, [readings('10 mA', 10e-3, 1.05)], head)
    expect(found.ranges[0]!.calibration.trust).toBe('with corrections')
    expect(found.calibration).toMatchObject({ date: '2024-05-12', ranges: [{ range: '10 mA' }] })
  })

  test('not trusted, where it is broken or sticks', () => {
    expect(calibrate(tester, [readings('10 mA', 10e-3, 2)], head).ranges[0]!.calibration).toMatchObject({
      trust: 'not trusted',
      why: expect.stringContaining('Something is broken'),
    })
    const stuck = fractions.flatMap((x) =>
      (['up', 'down'] as const).map((way) => ({
        shown: x * 10e-3 + (way === 'up' ? -0.5e-3 : 0.5e-3),
        reference: x * 10e-3,
        way,
      })),
    )
    const found = calibrate(tester, [{ range: '10 mA', points: stuck }], head).ranges[0]!
    expectRelative(found.correction.friction!, 0.5e-3, 1e-9)
    expect(found.calibration).toMatchObject({ trust: 'not trusted', why: expect.stringContaining('needle sticks') })
  })

  /** JCGM 100:2008, G.4.1, with two causes of 3 and 4: 5^4 / (3^4 / dof) degrees of freedom; t by SciPy 1.17.1. */
  test('few readings widen the interval', () => {
    const law = { kind: 'line', at: 0, offset: 0, slope: 0, uOffset: 3, uSlope: 0 } as const
    const c = { range: 'x', trust: 'trusted', why: '', from: 0, to: 1, law, uReference: 4, uRepeat: 0 } as const
    expectRelative(halfWidth(c, 0), 1.959964 * 5, 1e-6)
    expectPrinted(halfWidth({ ...c, uReference: 0, dof: 1 }, 0) / 3, '12.71')
    expectRelative(halfWidth({ ...c, dof: 1 }, 0) / 5, 2.320859, 1e-6)
  })

  test('the doubt of the reference and of repeats is kept', () => {
    const { calibration } = calibrate(tester, [readings('10 mA', 10e-3, 1.01)], head).ranges[0]!
    expectRelative(calibration.uReference, 1e-6, 1e-9)
    // a fifth of a division of 50, over sqrt(12)
    expectRelative(calibration.uRepeat, 0.04e-3 / Math.sqrt(12), 1e-9)
  })
})

describe('a bend', () => {
  const bent = (noise: number): readonly CalibrationPoint[] =>
    [1, 2, 3, 4, 5, 6].flatMap((x) =>
      [-1, 1].map((side) => ({ reference: x, shown: x + 0.05 * Math.sin(x) + side * noise })),
    )

  test('is seen above the repeats, and a curve goes through the means', () => {
    const c = correctionOf(bent(0.002))
    expect(c.law.kind).toBe('curve')
    const range = {
      range: 'x',
      trust: 'trusted',
      why: '',
      from: 1,
      to: 6,
      law: c.law,
      uReference: 0,
      uRepeat: 0,
    } as const
    expect(correctionAt(range, 2 + 0.05 * Math.sin(2)).value).toBeCloseTo(-0.05 * Math.sin(2), 6)
  })

  test('drowns in repeats that scatter more', () => expect(correctionOf(bent(0.2)).law.kind).toBe('line'))
  test('is not looked for where a line is asked for', () =>
    expect(correctionOf(bent(0.002), 'line').law.kind).toBe('line'))
})

describe('the table', () => {
  test('the example is read in the unit of each range, divisions by the scale', () => {
    const found = readCalibration(calibrationExampleCsv, 'x.csv', tester)
    expect(found.map((r) => [r.range, r.points.length])).toEqual([
      ['10 mA', 10],
      ['1 V', 10],
    ])
    const [p] = found[0]!.points
    expectRelative(p!.reference, 2e-3, 1e-9)
    const [, wanted, shown] = calibrationExampleCsv.split('\n')[1]!.split(',')
    expect([wanted, shown]).toEqual(['2.000 mA +- 0.002 mA', '9.8 div'])
    expectRelative(p!.shown, (9.8 / 50) * 10e-3, 1e-12)
    expect(p).toMatchObject({ way: 'up' })
    // stated as a standard uncertainty
    expectRelative(p!.u!, 0.002e-3, 1e-12)
  })

  test.each([
    ['range,reference,shown\n11 mA,1 mA,5 div\n', /is not one range of/],
    ['range,reference,shown\n10 mA,1,5 div\n', /column "reference".*has no unit/],
    ['range,reference,shown\n10 mA,1 V,5 div\n', /column "reference"/],
    ['range,reference,shown,way\n10 mA,1 mA,5 div,left\n', /neither up nor down/],
    ['range,reference,shown\n10 mA,1 mA,51 div\n', /column "shown": "51 div" is beyond the end of 10 mA\. Check/],
    ['range,reference,shown\n10 mA,1 mA,5 div\n', /has too few readings/],
    ['range,shown\n', /"reference" is a column that is missing/],
  ])('%j is refused', (text, say) => expect(() => readCalibration(text, 't.csv', tester)).toThrow(say))
})
