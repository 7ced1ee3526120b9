import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { expectDigits, expectPrinted } from '#core/testing'
import { chiSquareQuantile, chiSquareTail, fisherCdf, fisherQuantile } from './fisher.ts'
import { logBeta, logGamma } from './gamma.ts'
import { normalCdf, normalQuantile, normalTail } from './normal.ts'
import { studentCdf, studentQuantile, studentTail } from './student.ts'
import table from './student-table.ref.json'

/** Percentage points printed with AS 241 as its test values (Appl. Statist. 37 (1988) 477-484). */
test.each([
  [0.25, '-0.6744897501960817'],
  [0.001, '-3.090232306167814'],
  [1e-20, '-9.262340089798408'],
] as const)('AS 241: the normal quantile of %d is %s', (p, z) => expectDigits(normalQuantile(p), Number(z), 15))

/** Abramowitz and Stegun, Table 26.2: upper tails of the normal distribution, and well known far ones (recomputed). */
test.each([
  [1, 0.15865525393145705],
  [3, 0.0013498980316300946],
  [10, 7.61985302416053e-24],
  [30, 4.906713927148187e-198],
])('the normal tail beyond %d', (z, tail) => expectDigits(normalTail(z), tail, 14))

test('nothing lies beyond infinity', () => {
  expect([normalCdf(Number.POSITIVE_INFINITY), normalCdf(Number.NEGATIVE_INFINITY)]).toEqual([1, 0])
})

test('normal cdf and quantile undo each other', () => {
  fc.assert(
    fc.property(fc.double({ min: -8, max: 5, noNaN: true }), (z) => {
      expect(normalQuantile(normalCdf(z))).toBeCloseTo(z, 9)
    }),
  )
  expect([0, 0.5, 1, 2].map(normalQuantile)).toEqual([
    Number.NEGATIVE_INFINITY,
    0,
    Number.POSITIVE_INFINITY,
    Number.NaN,
  ])
})

/** Entries of the table that, as recollected, do not round from the exact quantile. */
const doubtful = new Set(['1/0.9973', '35/0.9'])

describe.each(table.rows)('JCGM 100:2008, Table G.2, $dof degrees of freedom', ({ dof, t, tExact }) => {
  test.each(table.p.map((p, i) => [p, t[i]!, tExact[i]!] as const))('p = %d', (p, printed, exact) => {
    const got = studentQuantile((1 + p) / 2, dof ?? Number.POSITIVE_INFINITY)
    expectDigits(got, exact, 12.5)
    const decimals = dof === 100 || dof === null ? 3 : 2
    if (!doubtful.has(`${dof}/${p}`)) expectPrinted(got, printed.toFixed(decimals))
  })
})

test('t with many degrees of freedom is the normal distribution, without a step where the method changes', () => {
  for (const p of [0.6, 0.9, 0.975, 0.999]) {
    expectDigits(studentQuantile(p, 1e12), normalQuantile(p), 11)
    const [below, above] = [99_999, 100_001].map((dof) => studentQuantile(p, dof)) as [number, number]
    expect(Math.abs(below / above - 1)).toBeLessThan(1e-9)
  }
})

test('t cdf and quantile undo each other, also for broken degrees of freedom', () => {
  const dofs = fc.double({ min: 0.3, max: 500, noNaN: true })
  fc.assert(
    fc.property(dofs, fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), (dof, p) => {
      const t = studentQuantile(p, dof)
      expect(studentCdf(t, dof)).toBeCloseTo(p, 11)
      expect(studentTail(t, dof)).toBeCloseTo(1 - p, 11)
      expect(studentQuantile(1 - p, dof)).toBeCloseTo(-t, 5 - Math.ceil(Math.log10(Math.abs(t) + 1)))
    }),
  )
})

/** JCGM 100:2008, H.5: F at 95 % and 97.5 % with 9 and 40 degrees of freedom, as printed. */
test('F values of the guide', () => {
  expectPrinted(fisherQuantile(0.95, 9, 40), '2.12')
  expectPrinted(fisherQuantile(0.975, 9, 40), '2.45')
})

/** Abramowitz and Stegun, Tables 26.8 and 26.9 (from memory, recomputed). */
test('F and chi-square tables', () => {
  expectPrinted(fisherQuantile(0.99, 4, 10), '5.99')
  expectPrinted(fisherQuantile(0.95, 1, 5), '6.61')
  expectPrinted(chiSquareQuantile(0.95, 9), '16.919')
  expectPrinted(chiSquareQuantile(0.01, 3), '0.114832')
  expect(chiSquareTail(chiSquareQuantile(0.3, 7.5), 7.5)).toBeCloseTo(0.7, 12)
})

test('F with one upper degree of freedom is t squared', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.1, max: 20, noNaN: true }),
      fc.double({ min: 1, max: 200, noNaN: true }),
      (t, dof) => {
        expect(fisherCdf(t * t, 1, dof)).toBeCloseTo(1 - 2 * studentTail(t, dof), 11)
      },
    ),
  )
})

test('gamma: factorials, the half, and the recurrence', () => {
  expectDigits(logGamma(0.5), 0.5 * Math.log(Math.PI), 14.5)
  expectDigits(Math.exp(logGamma(11)), 3_628_800, 13.5)
  fc.assert(
    fc.property(fc.double({ min: 0.01, max: 1e6, noNaN: true }), (x) => {
      expect(logGamma(x + 1) - logGamma(x) - Math.log(x)).toBeCloseTo(0, 7 - Math.log10(x + 1) / 2)
    }),
  )
  expectDigits(logBeta(3, 4), Math.log(1 / 60), 13.5)
  expect(logGamma(0)).toBeNaN()
})
