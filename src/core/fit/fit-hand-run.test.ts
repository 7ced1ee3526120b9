import { describe, expect, test } from 'vitest'
import { fitModel, Random } from '#core/numeric'
import { diodeAt, diodeCurrent, kelvin, seriesJunctionCurrent, thermalVoltage } from '#core/physics'
import { correlation, leaf, type Quantity, standardUncertainty, sumBudget, term } from '#core/quantity'
import { reduceReadings, understand } from '#core/reduce'
import { type Reading, readTester } from '#core/tester'
import { expectRelative } from '#core/testing'
import type { CurveFit, FittedParameter } from './describe-fit.ts'
import { fitCurve } from './fit-curve.ts'
import { fitHandRun } from './fit-hand-run.ts'
import { type HandRun, handRunOf, handRunOfReadings } from './hand-run.ts'
import { curvesOf } from './read-curve.ts'

const vt = thermalVoltage(kelvin(25))

const parameter = (fit: CurveFit, symbol: string): FittedParameter => fit.parameters.find((p) => p.symbol === symbol)!

/** A fitted parameter as a quantity, so that its causes may be asked about. */
const quantityOf = (fit: CurveFit, symbol: string): Quantity => {
  const p = parameter(fit, symbol)
  return leaf(p.value, '1', { kind: 'read', what: symbol, seen: '' }, p.budget)
}

const diodeRun = (
  rows: readonly (readonly [v: string, i: string])[],
  common?: number,
  temperatureU?: number,
): HandRun => {
  const csv = ['V_F [V],I_F [mA]', ...rows.map(([v, i]) => `${v},${i}`)].join('\n')
  return handRunOf(curvesOf(csv, 'diode')[0]!, {
    temperatureC: 25,
    ...(common === undefined ? {} : { common }),
    ...(temperatureU === undefined ? {} : { temperatureU }),
  })
}

describe('JCGM 100:2008, H.3: a thermometer calibrated by eleven readings, as ln I of a diode against V / V_T', () => {
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511]
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16]
  // computed from the table in double precision; printed: -0.1712, 0.0029, 0.00218, 0.00067, -0.930, 0.0035
  const wanted = { y1: -0.1712037901313498, u1: 0.002877597835159954, y2: 0.002182697739887239 }
  const more = { u2: 0.0006679387732278318, r: -0.9304296030934459, s: 0.003497563963505285 }
  // ln I = b(t) + (t - 20) - 20, so that 1 / n is y_2 + 1; at 40 V_T and more the 1 of exp(V / n V_T) - 1 is rounding
  const run: HandRun = {
    name: 'thermometer',
    kind: 'diode',
    polarity: 'n',
    temperature: leaf(25, 'degC', { kind: 'stated', what: 'temperature' }),
    notes: [],
    rows: t.map((ti, i) => {
      const current = Math.exp(b[i]! + (ti - 20) - 20)
      const own = term(`reading ${i}`, { label: 'reading', u: more.s, slope: current })
      return {
        row: i,
        values: {
          V_F: leaf((40 + (ti - 20)) * vt, 'V', { kind: 'stated', what: 'V_F' }),
          I_F: leaf(current, 'A', { kind: 'read', what: 'I_F', seen: '' }, [own]),
        },
      }
    }),
  }
  const fit = fitHandRun(run, { fix: { R_S: 0 } })
  const is = quantityOf(fit, 'I_S')
  const n = quantityOf(fit, 'n')
  // y_1 = ln I at t = 20: ln I_S + 40 / n + 20
  const y1 = {
    ...leaf(Math.log(is.value) + 40 / n.value + 20, '1', { kind: 'read', what: 'y_1', seen: '' }),
    ...sumBudget([
      [is, 1 / is.value],
      [n, -40 / n.value ** 2],
    ]),
  }
  const y2 = {
    ...leaf(1 / n.value - 1, '1', { kind: 'read', what: 'y_2', seen: '' }),
    ...sumBudget([[n, -1 / n.value ** 2]]),
  }

  test('intercept and slope', () => {
    expect(y1.value).toBeCloseTo(wanted.y1, 5)
    expect(y2.value).toBeCloseTo(wanted.y2, 6)
  })
  test('their uncertainties and correlation, from the budgets of the readings', () => {
    expectRelative(standardUncertainty(y1), wanted.u1, 1e-5)
    expectRelative(standardUncertainty(y2), more.u2, 1e-5)
    expect(correlation(y1, y2)).toBeCloseTo(more.r, 5)
  })
  test('chi-square is that of the scatter, nine degrees of freedom', () => {
    expect(fit.dof).toBe(9)
    expectRelative(fit.chiSquare, 9, 1e-4)
  })
})

describe('two readings', () => {
  const fit = fitHandRun(
    diodeRun(
      [
        ['0.600(1)', '"1.00(1)"'],
        ['0.700', '"10.0(1)"'],
      ].map(([v, i]) => [v!, i!] as const),
      0.02,
      1,
    ),
  )
  const p = (s: string): FittedParameter => parameter(fit, s)

  test('give ideality by the two-point formula, and its uncertainty by hand', () => {
    const decade = Math.log(10)
    const n = 0.1 / (vt * decade)
    // the 1 of exp(V / n V_T) - 1 is below 1e-6 of the current here
    expectRelative(p('n').value, n, 1e-5)
    // voltage 1 mV of 100 mV, each current 1 % of a decade, 1 K of 298.15 K; what both currents share cancels
    const u = n * Math.hypot(0.01, (0.01 * Math.SQRT2) / decade, 1 / 298.15)
    expectRelative(p('n').u!, u, 1e-3)
    const shared = p('n').budget!.find((c) => c.cause === 'fit/currents')
    expect(Math.abs((shared?.slope ?? 0) * 0.02)).toBeLessThan(1e-5)
  })

  test('say what they cannot say', () => {
    expect(fit.dof).toBe(0)
    expect(fit.notes).toContain('As many readings as parameters: nothing can contradict the law.')
    expect(p('R_S')).toMatchObject({ standing: 'held', value: 0 })
    // what 9 mA more may drop while the ideality stays above 0.5, the least the law takes
    const most = (0.1 - 0.5 * vt * Math.log(10)) / 9e-3
    const { limit } = p('R_S')
    if (limit === undefined || !('atMost' in limit)) throw new Error('no limit')
    expect(limit.atMost).toBeGreaterThan(most)
    expect(limit.atMost).toBeLessThan(1.15 * most)
  })
})

test('what currents share moves I_S by as much, and the parts read on one instrument together', () => {
  const rows = [
    ['0.55', '"0.300(3)"'],
    ['0.60', '"1.000(10)"'],
    ['0.65', '"3.20(3)"'],
  ] as const
  const one = fitHandRun(diodeRun(rows, 0.03))
  const other = fitHandRun(diodeRun(rows, 0.03))
  const alone = fitHandRun(diodeRun(rows))
  expectRelative(parameter(one, 'n').u!, parameter(alone, 'n').u!, 1e-3)
  const both = (parameter(one, 'I_S').u! / parameter(one, 'I_S').value) ** 2
  const own = (parameter(alone, 'I_S').u! / parameter(alone, 'I_S').value) ** 2
  expectRelative(both - own, 0.03 ** 2, 1e-2)
  const shared = quantityOf(other, 'I_S').budget.filter((t) => t.cause === 'fit/currents')
  expect(shared).toHaveLength(1)
})

test('a value given with a doubt passes it on', () => {
  const rows = [
    ['0.60', '"1.00(1)"'],
    ['0.65', '"3.00(3)"'],
    ['0.70', '"8.5(1)"'],
  ] as const
  const got = fitHandRun(diodeRun(rows), { fix: { R_S: 1 }, fixU: { R_S: 0.1 } })
  expect(parameter(got, 'n').budget!.some((t) => t.label === 'R_S as you gave it')).toBe(true)
  // the same as if R_S had been read as 1.0 ohm with that uncertainty and fitted with the others
  const voltages = [0.6, 0.65, 0.7]
  const model = {
    evaluate: ([is, n, rs]: Float64Array, values: Float64Array) => {
      for (const [i, v] of voltages.entries())
        values[i] = Math.log(seriesJunctionCurrent({ saturationA: is!, stepV: n! * vt, seriesOhm: rs! }, v))
      values[3] = rs!
    },
  }
  const free = fitModel(
    model,
    [Math.log(1e-3), Math.log(3e-3), Math.log(8.5e-3), 1],
    [
      { name: 'I_S', start: 1e-9, scale: 'log' },
      { name: 'n', start: 1.7 },
      { name: 'R_S', start: 1 },
    ],
    { sigma: [0.01, 0.01, 0.1 / 8.5, 0.1] },
  )
  expectRelative(parameter(got, 'n').value, free.values[1]!, 1e-3)
  expectRelative(parameter(got, 'n').u!, free.sd[1]!, 0.02)
  expectRelative(parameter(got, 'I_S').u!, free.sd[0]!, 0.05)
})

test('of a resistance that is left out it says how large it may be', () => {
  const rows = [
    ['0.60', '"1.00(1)"'],
    ['0.65', '"2.91(3)"'],
    ['0.70', '"8.5(1)"'],
  ] as const
  const fit = fitHandRun(diodeRun(rows))
  const { limit } = parameter(fit, 'R_S')
  if (limit === undefined || !('atMost' in limit)) throw new Error('no limit')
  // at the limit chi-square has risen by 1.645 squared: 95 % on one side
  const at = fitHandRun(diodeRun(rows), { fix: { R_S: limit.atMost } })
  expect(at.chiSquare - fit.chiSquare).toBeCloseTo(2.706, 2)
})

test('without uncertainty of what was set it is the fit of a curve', () => {
  const csv = 'V_F [V],I_F [mA]\n0.500,"0.120(2)"\n0.550,"0.370(5)"\n0.600,"1.11(1)"\n0.650,"3.20(4)"\n0.700,"8.6(1)"\n'
  const [curve] = curvesOf(csv, 'diode')
  const plain = fitCurve(curve!, { space: 'log' })
  const run = fitHandRun(handRunOf(curve!, { temperatureC: 25 }))
  for (const [j, p] of plain.parameters.entries()) {
    expectRelative(run.parameters[j]!.value, p.value, 1e-3, p.symbol)
    if (p.u !== undefined) expectRelative(run.parameters[j]!.u!, p.u, 2e-3, p.symbol)
  }
  expect(run.chiSquare).toBeCloseTo(plain.chiSquare, 4)
})

test('intervals hold the truth in 95 of 100 runs of four readings with all their errors', () => {
  const truth = { is: 2e-9, n: 1.7, rs: 0 }
  const random = new Float64Array(12)
  const stream = new Random(1956, 'hand runs')
  const model = diodeAt({ ...truth, tnom: 25 }, kelvin(25))
  const trials = 400
  const held = { I_S: 0, n: 0 }
  for (let trial = 0; trial < trials; trial++) {
    stream.fillNormal(random)
    const scale = 1 + 0.02 * random[0]!
    const rows = [0.45, 0.5, 0.55, 0.6].map((v, k) => {
      const current = diodeCurrent(model, v + 0.001 * random[1 + k]!)! * scale * (1 + 0.01 * random[5 + k]!)
      return { row: k, values: { V_F: v, I_F: current }, u: { V_F: 0.001, I_F: 0.01 * current } }
    })
    const curve = { name: 'run', kind: 'diode', polarity: 'n', points: rows, notes: [] } as const
    const fit = fitHandRun(handRunOf(curve, { temperatureC: 25, common: 0.02 }), { fix: { R_S: 0 } })
    for (const s of ['I_S', 'n'] as const) {
      const p = parameter(fit, s)
      if (p.low! <= truth[s === 'n' ? 'n' : 'is'] && truth[s === 'n' ? 'n' : 'is'] <= p.high!) held[s]++
    }
  }
  // 95 % of 400, with three standard deviations of that count
  for (const count of Object.values(held)) expect(Math.abs(count / trials - 0.95)).toBeLessThan(0.033)
})

test('readings of a tester bring their own budgets', () => {
  const read = readTester(`format: germane/tester/1
id: two-ranges
name: Two ranges
kind: digital
polarities: [NPN, PNP]
ranges:
  - { id: 200 uA, fullScale: 200 uA, circuit: { kind: stated, ofReading: 1 %, step: 0.1 uA } }
  - { id: 20 mA, fullScale: 20 mA, circuit: { kind: stated, ofReading: 1 %, step: 10 uA } }
supplies:
  - { id: bench, kind: external, from: 1 V, to: 12 V, resistance: 0 ohm, tolerance: 0.01, maxCurrent: 100 mA }
gain: { kind: ratio, maxBase: 1 mA, collector: [0.1 mA, 20 mA] }
tests:
  - { reads: I_C, ranges: [20 mA], supply: bench }
  - { reads: I_B, ranges: [200 uA], supply: bench }
limits: { current: 100 mA, voltage: 12 V }
`)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const { tester } = read
  const reading = (reads: 'I_C' | 'I_B', value: number, point: number): Reading => ({
    part: 'Q1',
    reads,
    shown: { kind: 'value', value, unit: 'A' },
    seen: String(value),
    range: reads === 'I_C' ? '20 mA' : '200 uA',
    point,
    supplyV: 5,
    ambientC: 25,
  })
  const readings = [
    reading('I_B', 2e-5, 1),
    reading('I_C', 2.4e-3, 1),
    reading('I_B', 8e-5, 2),
    reading('I_C', 9.6e-3, 2),
  ]
  const { seen } = understand(tester, readings)
  const warm = leaf(25, 'degC', { kind: 'read', what: 'room', seen: '' }, [term('room', { label: 'room', u: 1 })])
  const fit = fitHandRun(handRunOfReadings(seen, 'bjt', warm))
  const bf = parameter(fit, 'B_F')
  expect(fit.parameters.filter((p) => p.standing === 'fitted').map((p) => p.symbol)).toEqual(['B_F'])
  // both points have the gain of 120; the ratio of the two ranges is one cause for both
  const gains = reduceReadings(tester, readings).flatMap((r) => r.parameters.filter((p) => p.symbol === 'h_FE'))
  expect(gains.map((g) => g.quantity.value)).toEqual([expect.closeTo(120, 6), expect.closeTo(120, 6)])
  expectRelative(bf.value, 120, 2e-3)
  const least = Math.min(...gains.map((g) => standardUncertainty(g.quantity)))
  expect(bf.u!).toBeLessThanOrEqual(least * 1.001)
  expect(bf.u!).toBeGreaterThan(least / 2)
})

test('base and collector currents alone give the gain; limits are not told of what hangs on a saturation current', () => {
  const csv = 'V_CE [V],I_B [uA],I_C [mA]\n4.5,10.0(2),1.74(3)\n4.5,40.0(4),7.0(1)\n'
  const [curve] = curvesOf(csv, 'bjt')
  const fit = fitHandRun(handRunOf(curve!, { temperatureC: 25 }))
  // the weighted mean of two ratios, each with the uncertainties of its two readings (JCGM 100:2008, 5.1.6)
  const gains = [1740 / 10, 7000 / 40]
  const us = [gains[0]! * Math.hypot(0.03 / 1.74, 0.02), gains[1]! * Math.hypot(0.1 / 7, 0.01)]
  const weights = us.map((u) => 1 / u ** 2)
  const whole = weights[0]! + weights[1]!
  expectRelative(parameter(fit, 'B_F').value, (gains[0]! * weights[0]! + gains[1]! * weights[1]!) / whole, 1e-3)
  expectRelative(parameter(fit, 'B_F').u!, 1 / Math.sqrt(whole), 5e-3)
  expect(parameter(fit, 'I_S')).toMatchObject({ standing: 'held', why: 'no V_BE was read' })
  expect(parameter(fit, 'I_SE').limit).toBeUndefined()
  expect(parameter(fit, 'I_KF').limit).toEqual({ atLeast: expect.any(Number) })
})
