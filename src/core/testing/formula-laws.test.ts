import { describe, expect, test } from 'vitest'
import { formula } from '#core/quantity'
import { expectDigits, expectPrinted, expectRelative, rightDigits } from './expect-printed.ts'
import { expectFinite, expectRightSlopes, expectWellFormed, formulaLaws } from './formula-laws.ts'

const thermal = formula({
  id: 'example/junction-current',
  version: 1,
  text: 'I = I_S exp(V / V_T)',
  unit: 'A',
  inputs: { is: 'A', v: 'V', vt: 'V' },
  symbols: { is: 'I_S', v: 'V', vt: 'V_T' },
  source: { title: 'example' },
  evaluate: ({ is, v, vt }) => is * Math.exp(v / vt),
  partials: ({ is, v, vt }) => {
    const e = Math.exp(v / vt)
    return { is: e, v: (is * e) / vt, vt: (-is * e * v) / vt ** 2 }
  },
  domain: { is: [1e-15, 1e-6], v: [0, 0.7], vt: [0.02, 0.03] },
})

describe('a right formula passes', () => formulaLaws([thermal]))

describe('a wrong formula fails', () => {
  test('by a sign', () => {
    const wrong = formula({
      ...thermal,
      partials: (at) => ({ ...thermal.partials!(at), vt: -thermal.partials!(at).vt }),
    })
    expect(() => expectRightSlopes(wrong)).toThrow('slope for vt')
  })
  test('by a factor', () => {
    const wrong = formula({
      ...thermal,
      partials: (at) => ({ ...thermal.partials!(at), is: 1.001 * thermal.partials!(at).is }),
    })
    expect(() => expectRightSlopes(wrong)).toThrow('slope for is')
  })
  test('by a place where it gives no number', () => {
    expect(() => expectFinite(formula({ ...thermal, domain: { ...thermal.domain, v: [-1, 100] } }))).toThrow()
  })
  test('by a symbol that does not stand in its text', () => {
    expect(() => expectWellFormed(formula({ ...thermal, text: 'I = I_S exp(V / U_T)' }))).toThrow('symbol of vt')
  })
})

describe('printed values', () => {
  test.each([
    [2.776, '2.78'],
    [2.7751, '2.78'],
    [1.4888e-5, '1.489e-5'],
    [-0.65, '-0.65'],
    [118.4, '118'],
  ])('%d is %s', (got, printed) => expectPrinted(got, printed))
  test.each([
    [2.774, '2.78'],
    [118.6, '118'],
    [1.4884e-5, '1.489e-5'],
  ])('%d is not %s', (got, printed) => expect(() => expectPrinted(got, printed)).toThrow('is not'))
  test('count of right digits', () => {
    expect(rightDigits(1.001, 1)).toBeCloseTo(3, 9)
    expect(rightDigits(1e-9, 0)).toBeCloseTo(9, 9)
    expect(() => expectDigits(1.001, 1, 4)).toThrow()
    expect(() => expectRelative(1.1, 1, 0.01)).toThrow('is not')
  })
})
