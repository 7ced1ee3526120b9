import { describe, expect, test } from 'vitest'
import { derive, exact, leaf, limitTerm, numericSlopes, standardUncertainty } from '#core/quantity'
import { inventedLeakages, lawChecks, textbookTables } from './temperature-laws.ref.ts'
import {
  baseVoltageSlope,
  baseVoltageTheory,
  gainAtTemperature,
  gainPowerLaw,
  gainSlope,
  leakageAtTemperature,
  leakageDoublings,
  leakageSlope,
  openBaseDoublings,
  saturationRatio,
  temperatureFormulas,
  voltageAtTemperature,
} from './temperature-laws.ts'
import { kelvin } from './thermal-voltage.ts'

/** Digits of a computed check value: both sides are doubles of one expression. */
const digits = 12
const close = (got: number, want: number): void =>
  expect(Math.abs(got / want - 1), `${got} is not ${want}`).toBeLessThan(10 ** -digits)

/** Evaluates one end of a doubtful number's span. */
const span = (n: { readonly centre: number; readonly halfWidth: number }): readonly [number, number] => [
  n.centre - n.halfWidth,
  n.centre + n.halfWidth,
]

describe('laws by theory', () => {
  test.each(Object.entries(lawChecks.saturationRatio))('saturation current of %s from 27 to 60 degC', (_, c) =>
    close(saturationRatio.evaluate({ from: kelvin(27), to: kelvin(60), gap: c.gap, power: c.power }), c.ratio),
  )
  test('gain by a power of temperature', () =>
    close(gainPowerLaw.evaluate({ from: kelvin(27), to: kelvin(60), power: 1.5 }), lawChecks.gainPowerLaw))
  test.each(lawChecks.leakageSlope)('leakage slope and doubling interval, $what', (c) => {
    const slope = leakageSlope.evaluate({ temperature: 300, power: c.power, gap: c.gap, emission: c.emission })
    close(Math.LN2 / slope, c.doubling)
    if ('slope' in c) close(slope, c.slope)
  })
  test.each(lawChecks.baseVoltageSlope)('slope of V_BE, $what', (c) =>
    close(baseVoltageTheory.evaluate({ voltage: c.voltage, gap: c.gap, power: c.power, temperature: 300.15 }), c.slope),
  )
})

describe('numbers known only roughly', () => {
  test.each(lawChecks.publishedPairs)('the limits of the $type imply its doubling interval, inside our span', (p) => {
    const doublings = 1 / p.doubling
    close(leakageAtTemperature.evaluate({ current: p.low, from: p.from, to: p.to, doublings }), p.high)
    const [low, high] = span(leakageDoublings[p.type === '2N404' ? 'Ge' : 'Si'])
    expect(doublings).toBeGreaterThan(low)
    expect(doublings).toBeLessThan(high)
  })
  test('germanium theory, 6.4 K, stands at the end of the span', () => {
    expect(1 / span(leakageDoublings.Ge)[1]).toBeCloseTo(6.45, 2)
    expect(1 / span(leakageDoublings.Ge)[0]).toBeCloseTo(22.2, 1)
  })
  test.each(textbookTables)('the textbook table of $material agrees with the spans', ({ material, rows: [a, b] }) => {
    const dT = b.atC - a.atC
    const inside = (x: number, n: { readonly centre: number; readonly halfWidth: number }): void => {
      expect(Math.abs(x - n.centre)).toBeLessThanOrEqual(n.halfWidth * (1 + 1e-12))
    }
    inside(Math.log2(b.leakage / a.leakage) / dT, leakageDoublings[material])
    inside(Math.log(b.gain / a.gain) / dT, gainSlope[material])
    inside((b.baseVoltage - a.baseVoltage) / dT, baseVoltageSlope[material])
  })
  test.each(inventedLeakages.filter(([card]) => card !== 'ge-pnp-bad'))(
    '%s %s: a reading at 0 or 50 degC brought to 25 degC holds the solved value within two standard uncertainties',
    (_, symbol, at0, at25, at50) => {
      for (const [current, at] of [
        [at0, 0],
        [at50, 50],
      ] as const) {
        const n = (symbol === 'I_CEO' ? openBaseDoublings : leakageDoublings).Ge
        const brought = derive(leakageAtTemperature, {
          current: exact(current, 'A', 'reading'),
          from: exact(at, 'degC', 'room'),
          to: exact(25, 'degC', '25 degC'),
          doublings: leaf(n.centre, '1/K', { kind: 'assumed', what: n.says, why: n.source.title }, [
            limitTerm('r', n.says, n.halfWidth),
          ]),
        })
        const relative = standardUncertainty(brought) / brought.value
        expect(Math.abs(Math.log(at25 / brought.value))).toBeLessThan(2 * relative)
      }
    },
  )
})

describe('common practice', () => {
  test('germanium leakage doubles for 10 K, V_BE falls 20 mV, gain rises 5 %', () => {
    expect(leakageAtTemperature.evaluate({ current: 1e-6, from: 25, to: 35, doublings: 0.1 })).toBeCloseTo(2e-6, 18)
    expect(voltageAtTemperature.evaluate({ voltage: 0.2, from: 25, to: 35, slope: -0.002 })).toBeCloseTo(0.18, 12)
    expect(gainAtTemperature.evaluate({ gain: 100, from: 25, to: 35, slope: 0.005 })).toBeCloseTo(105.1271, 4)
  })
})

test.each(temperatureFormulas)('$id: stated slopes agree with differences in the middle of the domain', (f) => {
  const domain: Readonly<Record<string, readonly [number, number]>> = f.domain
  const at = Object.fromEntries(Object.entries(domain).map(([k, [a, b]]) => [k, a + 0.41 * (b - a)]))
  const byDifference = numericSlopes(f, at)
  const stated: Readonly<Record<string, number>> = f.partials!(at as never)
  for (const [name, slope] of Object.entries(stated))
    expect(Math.abs(slope - byDifference[name]!), name).toBeLessThanOrEqual(1e-6 * Math.abs(slope) + 1e-15)
})
