import { describe, expect, test } from 'vitest'
import { normalCdf } from '#core/numeric'
import {
  type AnyFormula,
  derive,
  exact,
  type Formula,
  formula,
  leaf,
  limitTerm,
  type Quantity,
  standardUncertainty,
  type Term,
  term,
  type Unit,
} from '#core/quantity'
import { expectPrinted, expectRelative } from '#core/testing'
import { coverageFactor, effectiveDof, interval95 } from './coverage.ts'
import { firstOrderGoodEnough } from './first-order.ts'
import { type MonteCarlo, monteCarlo } from './monte-carlo.ts'
import propagation from './propagation.ref.json'
import supplement from './supplement.ref.json'

const source = { title: 'JCGM 101:2008' }
const trials = 1_000_000
const fewer = 400_000
const run = (q: Quantity, f: AnyFormula, count = trials): MonteCarlo =>
  monteCarlo(q, { formulas: new Map([[f.id, f]]), trials: count, seed: 1962 })

const plain = (names: readonly string[], evaluate: (at: Readonly<Record<string, number>>) => number): AnyFormula =>
  formula({
    id: 'supplement/example',
    version: 1,
    text: 'y = f',
    unit: '1',
    inputs: Object.fromEntries(names.map((n) => [n, '1' as Unit])),
    symbols: Object.fromEntries(names.map((n) => [n, n])),
    source,
    evaluate,
    domain: Object.fromEntries(names.map((n) => [n, [-1e3, 1e3] as const])),
  })

const input = (value: number, terms: readonly Term[]): Quantity =>
  leaf(value, '1', { kind: 'assumed', what: 'x', why: 'example' }, terms)

const y = (f: AnyFormula, inputs: Readonly<Record<string, Quantity>>): Quantity =>
  derive(f as Formula<Record<string, Unit>>, inputs)

/** Errors of random trials, in units of the standard uncertainty: four of their own standard errors and more. */
const noiseOf = (count: number) => ({
  mean: 4 / Math.sqrt(count),
  deviation: 4 / Math.sqrt(2 * count),
  symmetric: 12 / Math.sqrt(count),
  shortest: 6 / Math.cbrt(count),
})
const noise = noiseOf(trials)

describe('JCGM 101:2008, 9.2: a sum of four', () => {
  const names = ['x1', 'x2', 'x3', 'x4']
  const f = plain(names, ({ x1, x2, x3, x4 }) => x1! + x2! + x3! + x4!)
  const normal = (n: string) => input(0, [term(n, { label: n, u: 1 })])
  const rectangular = (n: string, u: number) => input(0, [limitTerm(n, n, u * Math.sqrt(3))])
  const [normals, rectangles, oneLarge] = supplement['9.2'].cases as [Case, Case, Case]
  type Case = (typeof supplement)['9.2']['cases'][number]
  test.each([
    ['9.2.2, normal', normals, names.map(normal)],
    ['9.2.3, rectangular', rectangles, names.map((n) => rectangular(n, 1))],
    ['9.2.4, one much wider', oneLarge, names.map((n, i) => rectangular(n, i === 3 ? 10 : 1))],
  ] as const)('%s', (_, wanted, inputs) => {
    const q = y(f, Object.fromEntries(names.map((n, i) => [n, inputs[i]!])))
    const m = run(q, f)
    const { u, half } = wanted.exact
    expectRelative(standardUncertainty(q), u, 1e-9)
    const first = wanted.published[0]!
    expectPrinted(standardUncertainty(q), first.u.toFixed(1))
    expectPrinted(coverageFactor(effectiveDof(q)) * u, first.interval95[1]!.toFixed(u > 5 ? 1 : 2))
    expect(Math.abs(m.mean)).toBeLessThan(noise.mean * u)
    expectRelative(m.standardUncertainty, u, noise.deviation)
    for (const [k, sign] of [-1, 1].entries()) {
      expect(Math.abs(m.symmetric95[k]! - sign * half)).toBeLessThan(noise.symmetric * u)
      expect(Math.abs(m.shortest95[k]! - sign * half)).toBeLessThan(noise.shortest * u)
    }
    // the normal factor of the guide fails in 9.2.4; with the shape of the error first order holds in all three
    expect(firstOrderGoodEnough(q, m, 'symmetric95').validated).toBe(true)
  })
})

describe('JCGM 101:2008, 9.3: calibration of a mass', () => {
  const { inputs: i, exact: wanted, published } = supplement['9.3']
  const f = plain(
    ['mRc', 'dmRc', 'rhoA', 'rhoW', 'rhoR'],
    ({ mRc, dmRc, rhoA, rhoW, rhoR }) => (mRc! + dmRc!) * (1 + (rhoA! - 1.2) * (1 / rhoW! - 1 / rhoR!)) - 100_000,
  )
  const normal = (n: string, x: { mean: number; sd: number }) => input(x.mean, [term(n, { label: n, u: x.sd })])
  const between = (n: string, x: { a: number; b: number }) => input((x.a + x.b) / 2, [limitTerm(n, n, (x.b - x.a) / 2)])
  const q = y(f, {
    mRc: normal('mRc', i.mRc_mg),
    dmRc: normal('dmRc', i.dmRc_mg),
    rhoA: between('rhoA', i.rho_a),
    rhoW: between('rhoW', i.rho_W),
    rhoR: between('rhoR', i.rho_R),
  })
  const m = run(q, f)
  test('first order', () => {
    expectRelative(standardUncertainty(q), wanted.GUF1.u, 1e-6)
    expectPrinted(standardUncertainty(q), published[0]!.u.toFixed(4))
    for (const [k, end] of interval95(q).entries()) expectPrinted(end, published[0]!.shortest95[k]!.toFixed(4))
  })
  test('random trials', () => {
    expect(Math.abs(m.mean - wanted.mean)).toBeLessThan(noise.mean * wanted.u)
    expectRelative(m.standardUncertainty, wanted.u, noise.deviation)
    for (const k of [0, 1]) {
      expect(Math.abs(m.symmetric95[k]! - wanted.sym95[k]!)).toBeLessThan(noise.symmetric * wanted.u)
      expect(Math.abs(m.shortest95[k]! - wanted.shortest95[k]!)).toBeLessThan(noise.shortest * wanted.u)
    }
  })
  test('first order is not good enough, and the sentence says so', () => {
    const check = firstOrderGoodEnough(q, m)
    expect(check.validated).toBe(published[0]!.validated)
    expect(check.delta).toBeCloseTo(0.0005, 12)
    // printed 0.0451 and 0.0430, from an interval that is 0.001 off; exactly 0.0440 both
    expect(Math.abs(check.dLow - 0.044)).toBeLessThan(noise.shortest * wanted.u)
    expect(Math.abs(check.dHigh - 0.044)).toBeLessThan(noise.shortest * wanted.u)
    expect(check.sentence).toMatch(/^First order is not good enough here: .* Use the interval of the trials\.$/)
  })
})

describe('JCGM 101:2008, 9.4: a sum of two squares, correlated or not', () => {
  const f = plain(['x1', 'x2'], ({ x1, x2 }) => x1! ** 2 + x2! ** 2)
  test.each(supplement['9.4'].rows.map((row) => [row.r, row.x1, row] as const))('r = %d, x1 = %d', (r, _, row) => {
    const together = (q: Quantity): Quantity => (r === 0 ? q : { ...q, correlations: [{ a: 'a', b: 'b', r }] })
    const x1 = together(input(row.x1, [term('a', { label: 'a', u: row.u_x })]))
    const x2 = together(input(row.x2, [term('b', { label: 'b', u: row.u_x })]))
    const q = y(f, { x1, x2 })
    const m = run(q, f, fewer)
    const noise = noiseOf(fewer)
    const wanted = row['exact_1e-6']
    const { GUF, analytic } = row['published_1e-6']
    expectRelative(standardUncertainty(q) * 1e6, GUF.u, 1e-8)
    for (const [k, end] of interval95(q).entries()) expectPrinted(end * 1e6, GUF.interval95[k]!.toFixed(0))
    expectPrinted(wanted.u, analytic.u.toFixed(0))
    expect(Math.abs(m.mean * 1e6 - wanted.y)).toBeLessThan(noise.mean * wanted.u)
    // the spread and the upper end of a square vary more than those of a normal value
    expectRelative(m.standardUncertainty * 1e6, wanted.u, 3 * noise.deviation)
    for (const k of [0, 1]) {
      expect(Math.abs(m.symmetric95[k]! * 1e6 - wanted.sym95[k]!)).toBeLessThan(5 * noise.symmetric * wanted.u)
      expect(Math.abs(m.shortest95[k]! * 1e6 - wanted.shortest95[k]!)).toBeLessThan(noise.shortest * wanted.u)
    }
  })
})

/** The twelve formulas of the reference cases, as written there. */
const laws: Readonly<Record<string, (at: Readonly<Record<string, number>>) => number>> = {
  '(IC-ICEO)/IB': ({ IC, ICEO, IB }) => (IC! - ICEO!) / IB!,
  '(IC2-IC1)/(IB2-IB1)': ({ IC1, IC2, IB1, IB2 }) => (IC2! - IC1!) / (IB2! - IB1!),
  'IC*11604.5181/(TC+273.15)': ({ IC, TC }) => (IC! * 11604.5181) / (TC! + 273.15),
  '(V2-V1)/(I2-I1)': ({ V1, V2, I1, I2 }) => (V2! - V1!) / (I2! - I1!),
  'IM*(RM+RS)/RS': ({ IM, RM, RS }) => (IM! * (RM! + RS!)) / RS!,
  'IM*(RM+RS)': ({ IM, RM, RS }) => IM! * (RM! + RS!),
  'R1*R2/(R1+R2)': ({ R1, R2 }) => (R1! * R2!) / (R1! + R2!),
  'I*2**((25-T)/D)': ({ I, T, D }) => I! * 2 ** ((25 - T!) / D!),
  '(V2-V1)/(8.617333262e-5*(TC+273.15)*log(I2/I1))': ({ V1, V2, I1, I2, TC }) =>
    (V2! - V1!) / (8.617333262e-5 * (TC! + 273.15) * Math.log(I2! / I1!)),
}

type Case = (typeof propagation.cases)[number]

/** The quantity of a case. A t input has for first order its standard deviation, for sampling its scale as u. */
function quantityOf(c: Case, f: AnyFormula, isForSampling: boolean): Quantity {
  const names = c.inputs.map((i) => i.name)
  const correlations = names.flatMap((a, i) =>
    names.flatMap((b, j) => (j > i && c.correlation[i]![j] !== 0 ? [{ a, b, r: c.correlation[i]![j]! }] : [])),
  )
  const inputs = c.inputs.map((i): Quantity => {
    const isT = i.distribution === 't'
    const u = isT && isForSampling ? (i as { scale: number }).scale : i.u
    const shape = i.distribution === 'uniform' ? 'rectangular' : (i.distribution as Term['distribution'])
    const cause = term(i.name, {
      label: i.name,
      u,
      distribution: shape,
      ...(isT ? { dof: (i as { dof: number }).dof } : {}),
    })
    const q = input(i.mean, [cause])
    return correlations.length === 0 ? q : { ...q, correlations }
  })
  return y(f, Object.fromEntries(names.map((n, k) => [n, inputs[k]!])))
}

describe.each(propagation.cases.map((c) => [c.id, c] as const))('reference propagation %s', (id, c) => {
  const f = plain(
    c.inputs.map((i) => i.name),
    laws[c.formula]!,
  )
  test('first order', () => {
    const q = quantityOf(c, f, false)
    expectRelative(q.value, c.first_order.value, 1e-6)
    expectRelative(standardUncertainty(q), c.first_order.u, 1e-6)
    const { correlations: _, ...alone } = q
    expectRelative(standardUncertainty(alone), c.first_order.u_ignoring_correlation, 1e-6)
    for (const t of q.budget) expectRelative(t.slope, c.first_order.sensitivities[t.cause as 'IC']!, 1e-6, t.cause)
  })
  test('random trials, within five standard errors', () => {
    const m = run(quantityOf(c, f, true), f, fewer)
    const ten = c.monte_carlo
    const errors = 5 * Math.sqrt(1 + ten.trials / fewer)
    for (const k of [0, 1] as const) {
      expect(Math.abs(m.symmetric95[k] - ten.symmetric95[k]!)).toBeLessThan(errors * ten.standard_error.symmetric95[k]!)
      expect(Math.abs(m.shortest95[k] - ten.shortest95[k]!)).toBeLessThan(errors * ten.standard_error.shortest95[k]!)
    }
    // mean and spread of the case with a divisor near zero do not settle
    if (id === 'f12-hfe-close-points') return
    expect(Math.abs(m.mean - ten.mean)).toBeLessThan(errors * ten.standard_error.mean)
    expect(Math.abs(m.standardUncertainty - ten.std)).toBeLessThan(errors * ten.standard_error.std)
  })
})

describe('random trials', () => {
  const f = plain(['a', 'b'], ({ a, b }) => a! - b!)
  const ratio = plain(['a', 'b'], ({ a, b }) => a! / b!)
  const x = input(3, [term('x', { label: 'x', u: 1 })])
  test('of a value less itself are nothing', () => {
    const m = run(y(f, { a: x, b: x }), f, 10_000)
    expect([m.mean, m.standardUncertainty, ...m.shortest95]).toEqual([0, 0, 0, 0])
  })
  test('give the same numbers for the same seed, others for another', () => {
    const q = y(f, { a: x, b: exact(1, '1', 'one') })
    const formulas = new Map([[f.id, f]])
    const [one, again, other] = [5, 5, 6].map((seed) => monteCarlo(q, { formulas, trials: 5000, seed }))
    expect(again).toEqual(one)
    expect(other!.mean).not.toBe(one!.mean)
  })
  test('count the trials that gave no number', () => {
    const half = plain(['a', 'b'], ({ a, b }) => Math.sqrt(a! - b!))
    const m = run(y(half, { a: x, b: exact(2.9, '1', 'limit') }), half, 20_000)
    expect(m.trials + m.failures).toBe(20_000)
    // 2.9 lies a tenth of u below 3; three standard deviations of a share of 20,000
    const share = normalCdf(-0.1)
    expect(Math.abs(m.failures / 20_000 - share)).toBeLessThan(3 * Math.sqrt((share * (1 - share)) / 20_000))
    expect(Number.isFinite(m.mean)).toBe(true)
  })
  test('can be watched and ended early', () => {
    const seen: number[] = []
    const m = monteCarlo(y(ratio, { a: x, b: exact(2, '1', 'two') }), {
      formulas: new Map([[ratio.id, ratio]]),
      trials: 1e6,
      seed: 1,
      onProgress: (done) => seen.push(done),
      shouldStop: () => seen.length === 3,
    })
    expect(m.stopped).toBe(true)
    expect(m.trials).toBe(seen[2])
    expect(m.trials).toBeLessThan(1e6)
  })
  test('need their formulas and enough trials', () => {
    const q = y(f, { a: x, b: x })
    expect(() => monteCarlo(q, { formulas: new Map(), trials: 1000, seed: 1 })).toThrow(
      'No formula is called supplement/example',
    )
    expect(() => run(q, { ...f, version: 2 }, 1000)).toThrow('supplement/example, version 1')
    expect(() => run(q, f, 10)).toThrow('count of trials is 10; it must be a whole number of at least 100.')
    const never = plain(['a', 'b'], ({ a, b }) => (a === 3 && b === 3 ? 0 : Number.NaN))
    expect(() => run(y(never, { a: x, b: exact(3, '1', '') }), never, 1000)).toThrow(/out|gave a number/)
  })
  test('refuse correlations that cannot hold together', () => {
    const q = { ...x, correlations: [{ a: 'x', b: 'z', r: 1.2 }] }
    const z = { ...input(1, [term('z', { label: 'z', u: 1 })]), correlations: q.correlations }
    expect(() => run(y(f, { a: q, b: z }), f, 1000)).toThrow('matrix of correlations')
  })
})
