import fc from 'fast-check'
import { expect, test } from 'vitest'
import { expectRelative } from '#core/testing'
import { combine, type ESeries, eSeriesNames, preferredBetween, seriesOf } from './index.ts'

/** Worked by hand with Ohm's law: 11.1 ohm at 10 mA, of 1 % resistors of E24. */
test('a shunt of 11.1 ohm is a pair', () => {
  const { taken, one, inSeries, sideBySide } = combine(11.1, {
    series: 'E24',
    within: 0.005,
    tolerance: 0.01,
    load: { currentA: 0.01 },
  })
  expect(one.members[0]!.ohm).toBe(11)
  expectRelative(one.error, -0.1 / 11.1, 1e-9)
  expect(inSeries!.members.map((m) => m.ohm)).toEqual([11, 0.1])
  expectRelative(inSeries!.members[0]!.powerW!, 1.1e-3, 1e-12)
  expectRelative(inSeries!.members[1]!.powerW!, 1e-5, 1e-12)
  expect(taken).toBe(Math.abs(sideBySide!.error) < Math.abs(inSeries!.error) ? sideBySide : inSeries)
  expectRelative(taken!.worst, 0.01, 1e-9)
})

test('a preferred value is taken by itself', () =>
  expect(combine(4700, { series: 'E12', within: 0.01, tolerance: 0.05 }).taken).toMatchObject({
    kind: 'one',
    error: 0,
  }))

test('nothing is taken where nothing lies within', () => {
  const found = combine(0.07, { series: 'E3', within: 0.01, tolerance: 0.05 })
  expect(found.taken).toBeUndefined()
  expect(found.one.members).toEqual([{ ohm: 0.1 }])
})

const anyWish = fc.record({
  ohm: fc.double({ min: 0.3, max: 3e6, noNaN: true }),
  series: fc.constantFrom<ESeries>('E6', 'E12', 'E24'),
})

test('no pair of the series is nearer than the nearest found: held against all pairs', () =>
  fc.assert(
    fc.property(anyWish, ({ ohm, series }) => {
      const found = combine(ohm, { series, within: 0.01, tolerance: 0.01 })
      const values = preferredBetween(0.1, 10e6, series)
      let best: Record<'series' | 'parallel', number> = { series: Infinity, parallel: Infinity }
      for (const a of values)
        for (const b of values) {
          const sum = Math.abs((a + b) / ohm - 1)
          const side = Math.abs((a * b) / (a + b) / ohm - 1)
          best = { series: Math.min(best.series, sum), parallel: Math.min(best.parallel, side) }
        }
      for (const pair of [found.inSeries!, found.sideBySide!]) {
        expect(Math.abs(pair.error)).toBeLessThanOrEqual(best[pair.kind as keyof typeof best] + 1e-9)
        expect(pair.members.every((m) => seriesOf(m.ohm).includes(series))).toBe(true)
      }
    }),
    { numRuns: 40 },
  ))

test('the heat of the members is the heat of the whole', () =>
  fc.assert(
    fc.property(anyWish, fc.constantFrom(...eSeriesNames), ({ ohm }, series) => {
      const found = combine(ohm, { series, within: 1, tolerance: 0.01, load: { voltageV: 3 } })
      for (const c of [found.inSeries, found.sideBySide])
        if (c !== undefined)
          expectRelative(
            c.members.reduce((sum, m) => sum + m.powerW!, 0),
            9 / c.ohm,
            1e-9,
          )
    }),
  ))
