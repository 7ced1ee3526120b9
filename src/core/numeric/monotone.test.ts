import fc from 'fast-check'
import { expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import reference from './monotone.ref.json'
import { monotoneCurve } from './monotone.ts'

test.each(reference.sets)(`$name: as ${reference.source}`, ({ x, y, at, values }) => {
  const curve = monotoneCurve(x, y)
  const size = Math.max(...y.map(Math.abs))
  // the same arithmetic in another order: within some units in the last place of the largest value
  for (const [i, a] of at.entries()) expect(Math.abs(curve(a) - values[i]!)).toBeLessThan(1e-14 * size)
})

const points = fc
  .uniqueArray(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 12 })
  .chain((x) =>
    fc.tuple(
      fc.constant(x.sort((a, b) => a - b)),
      fc.array(fc.integer({ min: -99, max: 99 }), { minLength: x.length, maxLength: x.length }),
    ),
  )

test('it goes through its points and between two of them stays between their values', () =>
  fc.assert(
    fc.property(points, fc.double({ min: 0, max: 1, noNaN: true }), ([x, y], part) => {
      const curve = monotoneCurve(x, y)
      for (let i = 0; i < x.length; i++) expect(curve(x[i]!)).toBeCloseTo(y[i]!, 9)
      for (let i = 1; i < x.length; i++) {
        const value = curve(x[i - 1]! + part * (x[i]! - x[i - 1]!))
        expect(value).toBeGreaterThanOrEqual(Math.min(y[i - 1]!, y[i]!) - 1e-9)
        expect(value).toBeLessThanOrEqual(Math.max(y[i - 1]!, y[i]!) + 1e-9)
      }
    }),
  ))

test.each([
  [[1], [1]],
  [
    [1, 1],
    [1, 2],
  ],
  [
    [2, 1],
    [1, 2],
  ],
])('places %j are refused', (x, y) => expect(() => monotoneCurve(x, y)).toThrow(FaultError))

test.each([0.9, 2.1, Number.NaN])('%d outside 1 to 2 is refused', (at) =>
  expect(() => monotoneCurve([1, 2], [1, 2])(at)).toThrow('between 1 and 2'),
)

test('the example in its description', () => expect(monotoneCurve([0, 1, 2], [0, 1, 4])(1.5)).toBe(2.1875))
