import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { expectPrinted } from '#core/testing'
import { derive, numericSlopes } from './derive.ts'
import { formula } from './formula.ts'
import { exact, leaf, term } from './leaf.ts'
import type { Quantity, Term } from './quantity.ts'
import { correlation, covariance, standardUncertainty } from './spread.ts'

const source = { title: 'arithmetic' }
const domain = [0.1, 10] as const

const minus = formula({
  id: 'arithmetic/minus',
  version: 1,
  text: 'd = a - b',
  unit: '1',
  inputs: { a: '1', b: '1' },
  symbols: { a: 'a', b: 'b' },
  source,
  evaluate: ({ a, b }) => a - b,
  partials: () => ({ a: 1, b: -1 }),
  domain: { a: domain, b: domain },
})

const times = formula({
  ...minus,
  id: 'arithmetic/times',
  text: 'p = a b',
  evaluate: ({ a, b }) => a * b,
  partials: ({ a, b }) => ({ a: b, b: a }),
})

/** Gain from what two ranges show: (shown_C k_C) / (shown_B k_B). */
const gain = formula({
  id: 'example/gain',
  version: 1,
  text: 'h = s_C k_C / (s_B k_B)',
  unit: '1',
  inputs: { sc: 'A', kc: '1', sb: 'A', kb: '1' },
  symbols: { sc: 's_C', kc: 'k_C', sb: 's_B', kb: 'k_B' },
  source,
  evaluate: ({ sc, kc, sb, kb }) => (sc * kc) / (sb * kb),
  domain: { sc: [1e-4, 1e-2], kc: [0.9, 1.1], sb: [1e-6, 1e-4], kb: [0.9, 1.1] },
})

const anyTerm: fc.Arbitrary<Term> = fc
  .record({
    cause: fc.constantFrom('a', 'b', 'c', 'd', 'e'),
    slope: fc.integer({ min: -5000, max: 5000 }).map((k) => k / 1000),
  })
  .map(({ cause, slope }) => term(cause, { label: cause, u: cause.charCodeAt(0) / 100, slope }))

const anyLeaf: fc.Arbitrary<Quantity<'1'>> = fc
  .tuple(
    fc.double({ min: -10, max: 10, noNaN: true }),
    fc.uniqueArray(anyTerm, { selector: (t) => t.cause, maxLength: 5 }),
  )
  .map(([value, budget]) => leaf(value, '1', { kind: 'assumed', what: 'x', why: 'any' }, budget))

describe('causes that are shared', () => {
  test('x - x is exactly nothing', () => {
    fc.assert(
      fc.property(anyLeaf, (x) => {
        const d = derive(minus, { a: x, b: x })
        expect([d.value, standardUncertainty(d)]).toEqual([0, 0])
      }),
    )
  })

  test('the order of the inputs does not matter, nor that of a budget', () => {
    fc.assert(
      fc.property(anyLeaf, anyLeaf, (x, y) => {
        const one = derive(minus, { a: x, b: y })
        const other = derive(minus, {
          a: { ...y, budget: y.budget.toReversed() },
          b: { ...x, budget: x.budget.toReversed() },
        })
        expect(other.value).toBeCloseTo(-one.value, 12)
        expect(standardUncertainty(other)).toBeCloseTo(standardUncertainty(one), 12)
      }),
    )
  })

  test('the variance of a difference is that of both less twice the covariance', () => {
    fc.assert(
      fc.property(anyLeaf, anyLeaf, (x, y) => {
        const d = derive(minus, { a: x, b: y })
        const wanted = covariance(x, x) + covariance(y, y) - 2 * covariance(x, y)
        expect(standardUncertainty(d) ** 2).toBeCloseTo(wanted, 9)
        expect(Math.abs(correlation(x, y))).toBeLessThanOrEqual(1 + 1e-12)
      }),
    )
  })

  test('two transistors on the same two ranges differ by far less than either is known', () => {
    const range = (name: string) => leaf(1, '1', { kind: 'stated', what: name }, [term(name, { label: name, u: 0.01 })])
    const [kc, kb] = [range('collector range'), range('base range')]
    const of = (part: string, shownA: number): Quantity<'1'> =>
      derive(gain, {
        sc: leaf(shownA, 'A', { kind: 'read', what: part, seen: '' }, [
          term(`reading of ${part}`, { label: 'reading', u: 0.00085 * shownA }),
        ]),
        kc,
        sb: exact(1e-5, 'A', 'base current'),
        kb,
      })
    const [first, second] = [of('Q1', 1e-3), of('Q2', 0.99e-3)]
    const difference = derive(minus, { a: first, b: second })
    expectPrinted(first.value, '100.0')
    expectPrinted(standardUncertainty(first), '1.4')
    expectPrinted(second.value, '99.0')
    expectPrinted(standardUncertainty(second), '1.4')
    expectPrinted(difference.value, '1.00')
    expectPrinted(standardUncertainty(difference), '0.12')
    const ifForgotten = Math.hypot(standardUncertainty(first), standardUncertainty(second))
    expectPrinted(ifForgotten, '2.0')
  })

  test('a cause stated in two units is still one error', () => {
    const inVolts = leaf(2, '1', { kind: 'assumed', what: 'x', why: '' }, [term('class', { label: '', u: 0.02 })])
    const asShare = leaf(1, '1', { kind: 'assumed', what: 'y', why: '' }, [term('class', { label: '', u: 0.01 })])
    expect(standardUncertainty(derive(minus, { a: inVolts, b: asShare }))).toBeCloseTo(0.01, 15)
    expect(standardUncertainty(derive(minus, { a: asShare, b: inVolts }))).toBeCloseTo(0.01, 15)
    expect(standardUncertainty(derive(times, { a: inVolts, b: asShare }))).toBeCloseTo(0.04, 15)
  })

  test('causes correlated by one behave as one cause', () => {
    const correlations = [{ a: 'p', b: 'q', r: 1 }]
    const [x, y] = (['p', 'q'] as const).map(
      (c): Quantity<'1'> => ({
        ...leaf(3, '1', { kind: 'assumed', what: c, why: '' }, [term(c, { label: c, u: 0.5 })]),
        correlations,
      }),
    ) as [Quantity<'1'>, Quantity<'1'>]
    expect(standardUncertainty(derive(minus, { a: x, b: y }))).toBe(0)
    expect(standardUncertainty(derive(times, { a: x, b: y }))).toBeCloseTo(3, 14)
    expect(correlation(x, y)).toBe(1)
  })
})

describe('what cannot be derived is refused', () => {
  const one = exact(1, '1', 'one')
  const zero = exact(0, '1', 'nothing')
  const over = formula({ ...minus, id: 'arithmetic/over', text: 'r = a / b', evaluate: ({ a, b }) => a / b })
  test('a unit that does not belong', () => {
    const volts = exact(1, 'V', 'one volt') as unknown as Quantity<'1'>
    expect(() => derive(minus, { a: one, b: volts })).toThrow('b is in V; it must be in 1.')
    // @ts-expect-error a voltage is not a plain number
    expect(() => derive(minus, { a: one, b: exact(1, 'V', 'one volt') })).toThrow('b is in V')
  })
  test('a result that is no number', () => {
    expect(() => derive(over, { a: one, b: zero })).toThrow('r is Infinity; it must be a number; check r = a / b.')
  })
})

test('slopes by differences are those of calculus', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.5, max: 5, noNaN: true }), fc.double({ min: 0.5, max: 5, noNaN: true }), (a, b) => {
      const curved = formula({
        ...minus,
        id: 'arithmetic/curved',
        text: 'c = f',
        evaluate: (x) => Math.exp(x.a) * Math.log(1 + x.b),
      })
      const s = numericSlopes(curved, { a, b })
      expect(s.a! / (Math.exp(a) * Math.log(1 + b))).toBeCloseTo(1, 8)
      expect(s.b! / (Math.exp(a) / (1 + b))).toBeCloseTo(1, 8)
    }),
  )
})

test('a quantity survives being written as JSON', () => {
  fc.assert(
    fc.property(anyLeaf, anyLeaf, (x, y) => {
      const d = derive(minus, { a: x, b: y })
      expect(standardUncertainty(JSON.parse(JSON.stringify(d)) as Quantity)).toBe(standardUncertainty(d))
    }),
  )
})
