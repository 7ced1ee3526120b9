import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Axis, layScale, niceValues, place } from './scale.ts'

const gain: Axis = { symbol: 'h_FE', name: 'current gain', unit: '1', kind: 'log' }
const leakage: Axis = { symbol: 'I_CEO', name: 'leakage', unit: 'A', kind: 'log' }
const voltage: Axis = { symbol: 'V_BE', name: 'base voltage', unit: 'V', kind: 'linear' }
const room = { from: 100, to: 700, labels: 8 }

const named = (axis: Axis, values: readonly number[]): readonly string[] =>
  layScale(axis, values, room)
    .ticks.map((t) => t.label)
    .filter((l) => l !== '')

describe('labels', () => {
  test('a linear axis has round steps and one unit', () => {
    expect(named(voltage, [0.6, 0.72])).toEqual(['600', '620', '640', '660', '680', '700', '720'])
    expect(layScale(voltage, [0.6, 0.72], room).unit).toBe('mV')
  })

  test('negative values carry a true minus, a nought none', () =>
    expect(named(voltage, [-2, 2])).toEqual(['\u22122', '\u22121', '0', '1', '2']))

  test('a leakage axis has decades with their own units', () =>
    expect(named(leakage, [2e-8, 3e-3])).toEqual(['100 nA', '1 \u00b5A', '10 \u00b5A', '100 \u00b5A', '1 mA']))

  test('less than two decades are divided at 1, 2 and 5', () =>
    expect(named(gain, [18, 210])).toEqual(['20', '50', '100', '200']))

  test('a narrow log axis is divided evenly', () =>
    expect(named(gain, [104, 131])).toEqual(['105', '110', '115', '120', '125', '130']))

  test('many decades are thinned', () => expect(named(leakage, [1e-12, 1]).length).toBeLessThanOrEqual(room.labels))
})

test('round steps are those of 1, 2 and 5', () =>
  expect([niceValues(0, 1, 5), niceValues(0, 100, 4), niceValues(-3, 3, 3)]).toEqual([
    [0, 0.2, 0.4, 0.6, 0.8, 1],
    [0, 50, 100],
    [-2, 0, 2],
  ]))

describe('for any values', () => {
  const numbers = fc.array(fc.double({ min: 1e-12, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 20 })

  test.each([gain, leakage, voltage])('$symbol: all lie on the drawing, in their order, and so do the marks', (axis) =>
    fc.assert(
      fc.property(numbers, (values) => {
        const s = layScale(axis, values, room)
        const sorted = [...values].sort((a, b) => a - b)
        const places = sorted.map((v) => place(s, v))
        expect(places.every((p) => p >= room.from && p <= room.to)).toBe(true)
        expect(places.every((p, i) => i === 0 || p >= places[i - 1]! - 1e-9)).toBe(true)
        expect(s.ticks.every((t) => t.value >= s.low * (1 - 1e-9) && t.value <= s.high * (1 + 1e-9))).toBe(true)
        expect(s.ticks.filter((t) => t.label !== '').length).toBeLessThanOrEqual(room.labels + 2)
      }),
    ),
  )

  test('no values, or one, still give an axis', () => {
    for (const values of [[], [0], [5], [-3], [Number.NaN]])
      for (const axis of [gain, voltage]) {
        const s = layScale(axis, values, room)
        expect(Number.isFinite(place(s, 1))).toBe(true)
        expect(s.high).toBeGreaterThan(s.low)
      }
  })

  test('what a log axis cannot show lies at its low end', () => {
    const s = layScale(leakage, [-1e-6, 0, 1e-6, 1e-5], room)
    expect([place(s, -1e-6), place(s, 0)]).toEqual([room.from, room.from])
  })
})
