import fc from 'fast-check'
import { expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { bandColours, eSeries, readBands, writeBands } from './index.ts'

const published = {
  black: [0, 0, null, 250],
  brown: [1, 1, 1, 100],
  red: [2, 2, 2, 50],
  orange: [3, 3, 0.05, 15],
  yellow: [4, 4, 0.02, 25],
  green: [5, 5, 0.5, 20],
  blue: [6, 6, 0.25, 10],
  violet: [7, 7, 0.1, 5],
  grey: [8, 8, 0.01, 1],
  white: [9, 9, null, null],
  gold: [null, -1, 5, null],
  silver: [null, -2, 10, null],
  pink: [null, -3, null, null],
}

/** Worked by hand from the colour table of IEC 60062:2016. */
test.each([
  ['brown black red', { ohm: 1000, tolerance: 0.2 }],
  ['yellow violet red gold', { ohm: 4700, tolerance: 0.05 }],
  ['green blue silver silver', { ohm: 0.56, tolerance: 0.1 }],
  ['brown black black red brown', { ohm: 10_000, tolerance: 0.01 }],
  ['red red green pink violet', { ohm: 0.225, tolerance: 0.001 }],
  ['orange white black gold green red', { ohm: 39, tolerance: 0.005, perK: 50e-6 }],
])('%s, both ways', (bands, meant) => {
  const names = bands.split(' ')
  expect(readBands(names)).toEqual(meant)
  expect(writeBands(meant, names.length as 3 | 4 | 5 | 6)).toEqual(names)
})

/** Digits, multipliers, limits of error and drifts as public transcriptions of IEC 60062:2016, table 1, agree on them. */
test('the colours are those of the standard', () => {
  const said = Object.fromEntries(
    Object.entries(bandColours).map(([name, c]: [string, Record<string, number>]) => [
      name,
      [c.digit, c.power, c.percent, c.ppmPerK].map((v) => v ?? null),
    ]),
  )
  expect(said).toEqual(published)
})

const anyBanded = fc.record({
  digits: fc.constantFrom(...eSeries.E192),
  power: fc.integer({ min: -3, max: 7 }),
  percent: fc.constantFrom(10, 5, 2, 1, 0.5, 0.25, 0.1, 0.05, 0.02, 0.01),
  ppm: fc.constantFrom(undefined, 250, 100, 50, 25, 20, 15, 10, 5, 1),
})

test('what was written is read back', () =>
  fc.assert(
    fc.property(anyBanded, ({ digits, power, percent, ppm }) => {
      const perK = ppm === undefined ? {} : { perK: ppm / 1e6 }
      const said = { ohm: Number(`${digits}e${power}`), tolerance: percent / 100, ...perK }
      expect(readBands(writeBands(said, ppm === undefined ? 5 : 6)!)).toEqual(said)
    }),
  ))

test.each([
  [{ ohm: 475, tolerance: 0.01 }, 4],
  [{ ohm: 4755, tolerance: 0.01 }, 5],
  [{ ohm: 4700, tolerance: 0.07 }, 4],
  [{ ohm: 4700, tolerance: 0.05, perK: 1e-4 }, 5],
  [{ ohm: 4700, tolerance: 0.05 }, 3],
  [{ ohm: 1e13, tolerance: 0.05 }, 4],
] as const)('%j cannot be said in %d bands', (r, count) => expect(writeBands(r, count)).toBeUndefined())

test('all bad bands are told together', () => {
  const read = () => readBands(['gold', 'mauve', 'red', 'white'])
  expect(read).toThrow(FaultError)
  expect(read).toThrow(/band 1[\s\S]*band 2[\s\S]*band 4/)
})

test.each([[[]], [['red', 'red']], [Array(7).fill('red')]])('%s are refused', (bands) =>
  expect(() => readBands(bands)).toThrow(FaultError),
)
