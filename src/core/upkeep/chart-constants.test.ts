import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { expectPrinted, expectRelative } from '#core/testing'
import { chartConstants, d2Star, rangeConstants } from './chart-constants.ts'
import published from './control.ref.json'

const { rows, deviations_over_half_unit: slips } = published.constants

describe('factors of control charts, ASTM E2587 and ISO 7870-2, n = 2 to 25', () => {
  test.each(rows)('n = $n, to the digits integrated independently', ({ n, exact }) => {
    const got = chartConstants(n)
    for (const [name, wanted] of Object.entries(exact))
      expectRelative(got[name as keyof typeof exact], wanted, 1e-8, `${name}(${n})`)
  })

  test.each(rows)('n = $n, as printed', ({ n, printed }) => {
    const got = chartConstants(n)
    for (const [name, wanted] of Object.entries(printed)) {
      const decimals = name === 'c4' ? 4 : 3
      // the printed table was made from rounded d2 and d3: a tenth of half a unit, and three entries off by a unit
      const isOff = slips.some((s) => s.n === n && s.constant === name)
      expectPrinted(got[name as keyof typeof printed], wanted.toFixed(decimals), isOff ? 3 : 1.1)
    }
  })

  test('there is a row for each n', () =>
    expect(rows.map((r) => r.n)).toEqual(Array.from({ length: 24 }, (_, i) => i + 2)))
})

/** K factors of the average and range method, 1/d2*, as AIAG prints them: trials; appraisers 2, 3; parts 2 to 10. */
test.each([
  [2, 1, '0.7071'],
  [3, 1, '0.5231'],
  [4, 1, '0.4467'],
  [5, 1, '0.4030'],
  [6, 1, '0.3742'],
  [7, 1, '0.3534'],
  [8, 1, '0.3375'],
  [9, 1, '0.3249'],
  [10, 1, '0.3146'],
  [2, 1e9, '0.8862'],
  [3, 1e9, '0.5908'],
])('one over d2*(%i, %d) is %s', (n, groups, printed) => expectPrinted(1 / d2Star(n, groups), printed))

test.each([1, 2.5, 101])('%d values in a group are refused', (n) => expect(() => rangeConstants(n)).toThrow(FaultError))
