import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { standardUncertainty } from '#core/quantity'
import { expectRelative } from '#core/testing'
import { checkScale, coilByHalf, coilBySwap, fullScaleOf, readScaleTable, scaleExampleCsv } from './index.ts'

/** What a loop does, by Kirchhoff's laws: the needle's current with a resistor across the movement, as a part of that without. */
const deflection = (coil: number, series: number, parallel: number): number => {
  const side = (coil * parallel) / (coil + parallel)
  return ((1 / (series + side)) * (side / coil)) / (1 / (series + coil))
}

describe('coil by half deflection', () => {
  test('gives back the coil of the loop, whatever the deflection; the rule of thumb is low as textbooks say', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 5000, noNaN: true }),
        fc.double({ min: 10, max: 1000, noNaN: true }),
        fc.double({ min: 0.3, max: 3, noNaN: true }),
        (coil, ratio, share) => {
          const series = ratio * coil
          const parallel = share * coil
          const fraction = deflection(coil, series, parallel)
          const found = coilByHalf({ parallel: { ohm: parallel }, series: { ohm: series }, fraction, readable: 0 })
          expectRelative(found.coil.value, coil, 1e-9)
        },
      ),
    ))

  /** Textbook: the resistor across is R_m R_s / (R_s + R_m), low by R_m / (R_s + R_m). */
  test('the method by itself is low by R_m / (R_s + R_m)', () => {
    const parallel = (1000 * 100_000) / 101_000
    const found = coilByHalf({ parallel: { ohm: parallel }, series: { ohm: 100_000 }, fraction: 0.5, readable: 0 })
    expectRelative(found.coil.value, 1000, 1e-12)
    expectRelative(found.methodError, -1000 / 101_000, 1e-9)
  })

  test('reading to a fifth of one of 50 divisions makes about 0.33 %', () => {
    const found = coilByHalf({
      parallel: { ohm: 990.099 },
      series: { ohm: 100_000 },
      fraction: 0.5,
      readable: 0.2 / 50,
    })
    // two readings of half-width 0.2 %, each four times as much in the coil beside one half: 4 x 0.002 / sqrt(3) x sqrt(2)
    expectRelative(standardUncertainty(found.coil) / 1000, (4 * 0.002 * Math.SQRT2) / Math.sqrt(3), 0.02)
    const rough = coilByHalf({
      parallel: { ohm: 990.099 },
      series: { ohm: 100_000 },
      fraction: 0.5,
      readable: 0,
      scale: 0.01,
    })
    expectRelative(standardUncertainty(rough.coil) / 1000, (4 * 0.01) / Math.sqrt(3), 0.02)
  })

  test('readings that do not belong together are refused', () =>
    expect(() => coilByHalf({ parallel: { ohm: 2000 }, series: { ohm: 1000 }, fraction: 0.5, readable: 0 })).toThrow(
      FaultError,
    ))
})

test('substitution takes the box for the coil, in doubt by what the meter can tell of the loop', () => {
  const { coil, methodError } = coilBySwap({ box: { ohm: 1100, u: 1 }, seriesOhm: 8900, within: 0.001 })
  expect(coil.value).toBe(1100)
  expect(methodError).toBe(0)
  expectRelative(standardUncertainty(coil), Math.hypot(1, (0.001 * 10_000) / Math.sqrt(3)), 1e-9)
})

test('full scale from a reference and a needle at 48 of 50 divisions', () => {
  const q = fullScaleOf({ ampere: 97e-6, u: 0.5e-6 }, 48 / 50, 0.2 / 50)
  expectRelative(q.value, 101.0417e-6, 1e-6)
  expectRelative(standardUncertainty(q), Math.hypot(0.5e-6 / 0.96, (97e-6 * 0.002) / Math.sqrt(3) / 0.96 ** 2), 1e-9)
})

describe('a scale against true values', () => {
  /** Published worked example of a class 0.2 ammeter of 1 A: the limit is 0.002 A. */
  test('a class 0.2 ammeter of 1 A may be 0.002 A off', () => {
    const at = (error: number) =>
      checkScale(
        [0, 0.5, 1].map((true_) => ({ true: true_, up: true_ + (true_ === 0.5 ? error : 0) })),
        { fullScale: 1, classPercent: 0.2, expanded: 0 },
      ).verdict
    expect(at(0.002)).toBe('conforms')
    expect(at(-0.0021)).toBe('does not conform')
  })

  test('zero, friction, straight line and class of the example', () => {
    const { points, unit } = readScaleTable(scaleExampleCsv, 'example')
    expect(unit).toBe('A')
    const c = checkScale(points, { fullScale: 100e-6, classPercent: 1, expanded: 0.001 })
    expectRelative(c.zero!, 0.005, 1e-9)
    expectRelative(c.friction!.difference, 0.008, 1e-9)
    expectRelative(c.largest, 0.009, 1e-9)
    expect(c.meets).toBe(1)
    // 0.9 % and a doubt of 0.1 % just keep within 1 %
    expect(c.verdict).toBe('conforms')
    expect(checkScale(points, { fullScale: 100e-6, classPercent: 1, expanded: 0.002 }).verdict).toBe('undecided')
    expect(checkScale(points, { fullScale: 100e-6, classPercent: 0.5, expanded: 0.002 }).verdict).toBe(
      'does not conform',
    )
    expect(c.advice.join(' ')).toMatch(/zero screw/)
    expect(c.advice.join(' ')).toMatch(/sticks/)
  })

  test('a line of error is told as offset and slope, and nothing is left of it', () => {
    const points = [0, 25, 50, 75, 100].map((x) => ({ true: x, up: 1 + x * 0.97 }))
    const c = checkScale(points, { fullScale: 100, expanded: 0 })
    expectRelative(c.offset, 0.01, 1e-9)
    expectRelative(c.slope, -0.03, 1e-9)
    expect(Math.abs(c.left)).toBeLessThan(1e-12)
    expect(c.friction).toBeUndefined()
    expect(c.verdict).toBeUndefined()
    expect(c.advice.join(' ')).toMatch(/too little in proportion/)
    const bad = checkScale(
      points.map((p) => ({ ...p, up: p.up * 1.2 })),
      { fullScale: 100, expanded: 0 },
    )
    expect(bad.meets).toBeUndefined()
    expect(bad.advice.join(' ')).toMatch(/too much in proportion/)
  })

  test('two points are too few, and all faults of a table are told together', () => {
    expect(() => checkScale([{ true: 0, up: 0 }], { fullScale: 1, expanded: 0 })).toThrow(FaultError)
    expect(() => readScaleTable('true [uA],up [uA]\n1,x\n,2\n3,\n', 'f.csv')).toThrow(/row 2[\s\S]*row 3[\s\S]*row 4/)
    expect(() => readScaleTable('true [uA],upp [uA]\n1,2\n', 'f.csv')).toThrow(/up/)
  })
})
