import { describe, expect, test } from 'vitest'
import { chiSquareTail } from './fisher.ts'
import { normalCdf } from './normal.ts'
import { Random } from './random.ts'
import { studentCdf } from './student.ts'

const rectangular = (x: number): number => 0.5 + x / Math.sqrt(12)
const triangular = (x: number): number => {
  const tail = (1 - Math.abs(x) / Math.sqrt(6)) ** 2 / 2
  return x < 0 ? tail : 1 - tail
}
const arcsine = (x: number): number => 0.5 + Math.asin(x / Math.SQRT2) / Math.PI

const shapes: readonly (readonly [string, (r: Random, into: Float64Array) => void, (x: number) => number])[] = [
  ['uniform', (r, x) => r.fillUniform(x), (x) => x],
  ['normal', (r, x) => r.fillNormal(x), normalCdf],
  ['rectangular', (r, x) => r.fillRectangular(x), rectangular],
  ['triangular', (r, x) => r.fillTriangular(x), triangular],
  ['arcsine', (r, x) => r.fillArcsine(x), arcsine],
  ['t with 4.5 degrees of freedom', (r, x) => r.fillStudent(x, 4.5), (x) => studentCdf(x, 4.5)],
  ['t with 1 degree of freedom', (r, x) => r.fillStudent(x, 1), (x) => studentCdf(x, 1)],
]

/** The sample sorted into 500 cells that are equally likely: chi-square with 499 degrees of freedom. */
describe.each(shapes)('%s', (name, fill, cdf) => {
  const cells = 500
  const into = new Float64Array(200_000)
  fill(new Random(20_240, name), into)
  test('every value is a finite number', () => expect(into.every(Number.isFinite)).toBe(true))
  test('the values are spread as they should be', () => {
    const counts = new Float64Array(cells)
    for (const x of into) counts[Math.min(cells - 1, Math.max(0, Math.floor(cdf(x) * cells)))]!++
    const expected = into.length / cells
    const chiSquare = counts.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0)
    const p = chiSquareTail(chiSquare, cells - 1)
    expect(p).toBeGreaterThan(1e-4)
    expect(p).toBeLessThan(1 - 1e-4)
  })
  test('neighbours are independent', () => {
    let sum = 0
    for (let i = 1; i < into.length; i++) sum += (cdf(into[i]!) - 0.5) * (cdf(into[i - 1]!) - 0.5) * 12
    expect(Math.abs(sum / Math.sqrt(into.length))).toBeLessThan(4)
  })
})

test('the far tail of the normal is right', () => {
  const into = new Float64Array(4_000_000)
  new Random(5).fillNormal(into)
  const beyond = into.reduce((n, x) => n + (Math.abs(x) > 3.8 ? 1 : 0), 0)
  const expected = into.length * 2 * normalCdf(-3.8)
  expect(Math.abs(beyond - expected)).toBeLessThan(4 * Math.sqrt(expected))
})

test('one seed and name give the same numbers; another name gives others', () => {
  const draw = (seed: number, name: string): number[] => {
    const r = new Random(seed, name)
    return [r.word(), r.word(), r.word()]
  }
  expect(draw(1, 'class of the movement')).toEqual(draw(1, 'class of the movement'))
  expect(draw(1, 'shunt')).not.toEqual(draw(1, 'class of the movement'))
  expect(draw(2, 'shunt')).not.toEqual(draw(1, 'shunt'))
})

test('a long fill is the same as short ones, and they go on where the last ended', () => {
  const whole = new Float64Array(1000)
  new Random(3).fillNormal(whole)
  const r = new Random(3)
  const halves = [new Float64Array(500), new Float64Array(500)]
  for (const h of halves) r.fillNormal(h)
  expect([...halves[0]!, ...halves[1]!]).toEqual([...whole])
})

test('whole numbers are below their bound and all turn up', () => {
  const r = new Random(9)
  const seen = new Set(Array.from({ length: 200 }, () => r.integer(7)))
  expect([...seen].sort()).toEqual([0, 1, 2, 3, 4, 5, 6])
})
