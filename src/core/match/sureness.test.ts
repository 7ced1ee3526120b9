import { expect, test } from 'vitest'
import { normalCdf, Random } from '#core/numeric'
import { leaf, type Quantity, term } from '#core/quantity'
import { probabilityMet } from './sureness.ts'

const read = (what: string, value: number, shared: number, own: number): Quantity<'V'> =>
  leaf(value, 'V', { kind: 'read', what, seen: '' }, [
    term('meter', { label: 'meter', u: shared }),
    term(what, { label: 'reading', u: own }),
  ])

const within =
  (limit: number) =>
  (x: Float64Array): boolean =>
    Math.max(...x) - Math.min(...x) <= limit

test('what a pair shares cancels: the difference alone decides', () => {
  const pair = [read('a', 0.16, 0.02, 0.001), read('b', 0.162, 0.02, 0.001)]
  const u = Math.sqrt(2) * 0.001
  const wanted = normalCdf((0.003 - 0.002) / u) - normalCdf((-0.003 - 0.002) / u)
  expect(Math.abs(probabilityMet(pair, within(0.003), { trials: 200_000 }) - wanted)).toBeLessThan(0.005)
})

test('values without doubt, or with nothing but a shared cause, are met or not', () => {
  const same = [read('a', 0.16, 0.02, 0), read('b', 0.162, 0.02, 0)]
  expect(probabilityMet(same, within(0.003))).toBe(1)
  expect(probabilityMet(same, within(0.001))).toBe(0)
})

test('four parts come to what sampling each cause comes to', () => {
  const set = [0.16, 0.161, 0.1625, 0.159].map((v, i) => read(`p${i}`, v, 0.01, 0.001 * (1 + i / 3)))
  const random = new Random(9, 'causes')
  const z = new Float64Array(5)
  let met = 0
  const trials = 200_000
  for (let t = 0; t < trials; t++) {
    random.fillNormal(z)
    const x = set.map((q, i) => q.value + q.budget[0]!.u * z[4]! + q.budget[1]!.u * z[i]!)
    if (Math.max(...x) - Math.min(...x) <= 0.005) met++
  }
  const got = probabilityMet(set, within(0.005), { trials })
  expect(Math.abs(got - met / trials)).toBeLessThan(0.006)
})
