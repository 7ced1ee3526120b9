import { describe, expect, test } from 'vitest'
import { normalCdf } from '#core/numeric'
import { type AnyFormula, derive, formula, leaf, type Quantity, term } from '#core/quantity'
import { chanceInside } from './chance-inside.ts'

const stated = (
  what: string,
  value: number,
  u: number,
  distribution: 'normal' | 'rectangular' = 'normal',
): Quantity<'1'> => leaf(value, '1', { kind: 'stated', what }, [term(what, { label: what, u, distribution })])

const grown = formula({
  id: 'test/grown',
  version: 1,
  text: 'y = a exp(b)',
  unit: '1',
  inputs: { a: '1', b: '1' },
  symbols: { a: 'a', b: 'b' },
  source: { title: 'a product that bends in one factor' },
  evaluate: ({ a, b }) => a * Math.exp(b),
  domain: { a: [0, 10], b: [-1, 1] },
})
const formulas: ReadonlyMap<string, AnyFormula> = new Map([[grown.id, grown]])
const options = { formulas, trials: 4000, seed: 5 }
const open = Number.POSITIVE_INFINITY

/** Chance of a exp(b) <= high by Simpson's rule over b from -8 to 8 of its standard uncertainties. */
function bySimpson(a: number, ua: number, ub: number, high: number): number {
  const n = 2000
  const h = 16 / n
  let sum = 0
  for (let i = 0; i <= n; i++) {
    const z = -8 + i * h
    const weight = i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2
    sum += weight * Math.exp((-z * z) / 2) * normalCdf((high / Math.exp(z * ub) - a) / ua)
  }
  return (sum * h) / 3 / Math.sqrt(2 * Math.PI)
}

describe('chance that a value lies inside', () => {
  test('is the normal one for a normal value, without a draw that matters', () => {
    expect(chanceInside(stated('x', 3, 0.5), -open, 3.8, options)).toBeCloseTo(normalCdf(1.6), 12)
    expect(chanceInside(stated('x', 3, 0.5), 2.5, 4, options)).toBeCloseTo(normalCdf(2) - normalCdf(-1), 12)
  })
  test.each([1.2, 1.5, 2])('agrees with Simpson’s rule for a bent product, at most %d', (high) => {
    const y = derive(grown, { a: stated('a', 1, 0.1), b: stated('b', 0, 0.3) })
    const found = chanceInside(y, -open, high, options)
    expect(Math.abs(found - bySimpson(1, 0.1, 0.3, high))).toBeLessThan(0.012)
  })
  test('counts trials where no cause is normal', () => {
    const found = chanceInside(stated('x', 0, 1 / Math.sqrt(3), 'rectangular'), -open, 0.5, options)
    expect(Math.abs(found - 0.75)).toBeLessThan(0.03)
  })
  test('ends early where the answer is plain, and not before a hundred trials', () => {
    const asked: number[] = []
    const isEnough = (_: number, error: number): boolean => asked.push(error) > 0
    chanceInside(stated('x', 0, 1, 'rectangular'), -open, 1, { ...options, every: 200, isEnough })
    expect(asked).toHaveLength(1)
  })
  test('is the same for the same seed', () => {
    const y = derive(grown, { a: stated('a', 1, 0.1), b: stated('b', 0, 0.3) })
    expect(chanceInside(y, 0, 1.2, options)).toBe(chanceInside(y, 0, 1.2, options))
  })
  test('refuses fewer than a hundred trials', () => {
    expect(() => chanceInside(stated('x', 0, 1), 0, 1, { ...options, trials: 10 })).toThrow(/count of trials is 10/)
  })
})
