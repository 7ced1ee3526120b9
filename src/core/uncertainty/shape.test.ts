import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { derive, formula, leaf, limitTerm, type Quantity, standardUncertainty, term } from '#core/quantity'
import { expectPrinted, expectRelative } from '#core/testing'
import { coverage, coverageFactor } from './coverage.ts'
import { monteCarlo } from './monte-carlo.ts'
import { errorShape, shapeReach } from './shape.ts'
import supplement from './supplement.ref.json'

const limits = (...halfWidths: readonly number[]): Quantity =>
  leaf(
    0,
    'V',
    { kind: 'assumed', what: 'V', why: 'example' },
    halfWidths.map((a, i) => limitTerm(`x${i}`, `X${i}`, a)),
  )

const reach95 = (q: Quantity): number => shapeReach(errorShape(q), 0.95)

describe('the reach of an error made of limits', () => {
  test('one limit: every value inside is equally likely, so 95 % of its half-width', () => {
    expectRelative(reach95(limits(2)), 1.9, 1e-9)
    // EA-4/02, example S9: a rectangular distribution has k = 1.65 (from memory)
    expectPrinted(coverage(limits(2)).factor, '1.65')
  })

  test('two equal limits make a triangle: 2 a (1 - sqrt(0.05))', () =>
    expectRelative(reach95(limits(3, 3)), 6 * (1 - Math.sqrt(0.05)), 1e-9))

  test('two limits make a trapezoid: a + b - sqrt(4 a b 0.05)', () =>
    expectRelative(reach95(limits(3, 1.2)), 4.2 - Math.sqrt(4 * 3 * 1.2 * 0.05), 1e-9))

  test('a normal error keeps its factor of 1.96', () => {
    const q = leaf(0, 'V', { kind: 'assumed', what: 'V', why: 'example' }, [term('n', { label: 'n', u: 2 })])
    expectPrinted(coverage(q).factor, '1.96')
  })

  test('JCGM 101:2008, 9.2.3 and 9.2.4: four limits, equal and with one that dominates', () => {
    const [, equal, dominated] = supplement['9.2'].cases
    const root3 = Math.sqrt(3)
    // the third and fourth limit count as normal, which costs most where all four are equal: 0.3 %
    expectRelative(coverage(limits(root3, root3, root3, root3)).expanded, equal!.exact.half, 4e-3)
    expectRelative(coverage(limits(root3, root3, root3, 10 * root3)).expanded, dominated!.exact.half, 1e-3)
  })

  test('causes that are known from few readings keep the t factor (JCGM 100:2008, G.6.4)', () => {
    const q = { ...limits(1), budget: [...limits(1).budget, term('t', { label: 't', u: 1, dof: 4 })] }
    // Welch and Satterthwaite (G.4.1): u^2 = 1/3 + 1, of which 1 has 4 degrees of freedom
    expectRelative(coverage(q).factor, coverageFactor(4 * (4 / 3) ** 2, 0.95), 1e-12)
  })
})

const sum = formula({
  id: 'test/sum',
  version: 1,
  text: 'y = x',
  unit: 'V',
  inputs: { x: 'V' },
  symbols: { x: 'x' },
  source: { title: 'test' },
  evaluate: ({ x }) => x,
  partials: () => ({ x: 1 }),
  domain: { x: [0, 1] },
})

test('random errors: 95 % of 100,000 trials lie within the reach', () =>
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 1, maxLength: 6 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (halfWidths, u) => {
        const q = limits(...halfWidths)
        const x = { ...q, unit: 'V' as const, budget: [...q.budget, term('n', { label: 'n', u })] }
        const y = derive(sum, { x })
        const got = monteCarlo(y, { formulas: new Map([[sum.id, sum]]), trials: 100_000, seed: 3 })
        // the ends of an interval from 100,000 trials stray by about 0.6 % of u; ten runs make some three times that
        const stray = 0.02 * standardUncertainty(y)
        expect(Math.abs(reach95(y) - (got.symmetric95[1] - got.symmetric95[0]) / 2)).toBeLessThan(stray)
      },
    ),
    { numRuns: 10, seed: 7 },
  ))
