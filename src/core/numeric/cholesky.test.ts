import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cholesky } from './cholesky.ts'

test('the factor times itself is the matrix', () => {
  const entry = fc.double({ min: -3, max: 3, noNaN: true })
  fc.assert(
    fc.property(fc.array(fc.array(entry, { minLength: 4, maxLength: 4 }), { minLength: 4, maxLength: 4 }), (rows) => {
      const a = rows.map((r) => rows.map((s) => r.reduce((sum, v, k) => sum + v * s[k]!, 0)))
      const l = cholesky(a)
      for (const [i, row] of a.entries())
        for (const [j, v] of row.entries())
          expect(l[i]!.reduce((sum, x, k) => sum + x * l[j]![k]!, 0)).toBeCloseTo(v, 5)
    }),
  )
})

test('causes correlated by exactly one are allowed', () => {
  expect(
    cholesky([
      [1, -1],
      [-1, 1],
    ]),
  ).toEqual([
    [1, 0],
    [-1, 0],
  ])
})

test('correlations that cannot be together are refused', () => {
  const impossible = [
    [1, 0.9, -0.9],
    [0.9, 1, 0.9],
    [-0.9, 0.9, 1],
  ]
  expect(() => cholesky(impossible)).toThrow('matrix of correlations')
  expect(() =>
    cholesky([
      [1, 2],
      [2, 1],
    ]),
  ).toThrow('matrix of correlations')
})
