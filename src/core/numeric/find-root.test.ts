import fc from 'fast-check'
import { expect, test } from 'vitest'
import { findRoot } from './find-root.ts'

test.each<readonly [string, (x: number) => number, number, number, number]>([
  ['x x = 2', (x) => x * x - 2, 0, 2, Math.SQRT2],
  ['cos x = x', (x) => Math.cos(x) - x, 0, 1, 0.7390851332151607],
  ['a steep exponential', (x) => Math.exp(40 * x) - 1e6, -1, 2, Math.log(1e6) / 40],
  ['a flat ninth power', (x) => x ** 9, -1, 1.3, 0],
  ['a root at the end', (x) => x, 0, 1, 0],
])('%s', (_, f, low, high, root) => {
  expect(findRoot(f, low, high)).toBeCloseTo(root, 14)
})

test('any cubic with one root in the bracket is solved, in few steps', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -0.99, max: 0.99, noNaN: true }),
      fc.double({ min: 0, max: 5, noNaN: true }),
      (r, k) => {
        let steps = 0
        const f = (x: number): number => {
          steps++
          return (x - r) * (1 + k * (x - r) ** 2)
        }
        expect(Math.abs(findRoot(f, -1, 1, { tolerance: 1e-15 }) - r)).toBeLessThan(1e-14)
        expect(steps).toBeLessThan(60)
      },
    ),
  )
})

test('a bracket without a change of sign is refused', () => {
  expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow('bracket of a root is -1 to 1; it must be two points')
  expect(() => findRoot(() => 1e-200, -1, 1)).toThrow('bracket of a root')
  expect(() => findRoot(() => Number.NaN, -1, 1)).toThrow('bracket of a root')
})
