import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { normalQuantile } from '#core/numeric'
import { derive, exact, leaf, limitTerm, type Quantity, standardUncertainty, term } from '#core/quantity'
import { leakageAtVoltage } from '#core/reduce'
import { expectPrinted, expectRelative } from '#core/testing'
import { deaver, deaverWide, examples, guardBands, lotShares, resistors, table1 } from './conformance.ref.ts'
import {
  acceptance,
  capabilityIndex,
  conformance,
  conformanceProbability,
  decide,
  deciding,
  guardBand,
} from './conformance.ts'
import { globalRisks } from './global-risk.ts'

const guarded = { kind: 'guarded', probability: 0.95 } as const
const simple = { kind: 'simple', probability: 0.5 } as const
const trials = { trials: 20_000, seed: 1 }

describe('JCGM 106:2012', () => {
  // 0.95 is printed 1.64 where 1.645 is exact; half a unit holds it
  test.each(table1)('Table 1: probability %d needs z = %s', (p, printed, z) => {
    expectRelative(normalQuantile(p), z, 1e-12)
    expectPrinted(normalQuantile(p), printed)
    expectPrinted(guardBand(1, p), printed)
  })
  test.each(examples)('$what', ({ value, u, limits, printed, exact: want }) => {
    const p = conformanceProbability(value, u, limits)
    expectRelative(p, want, 1e-12)
    expectPrinted(p, printed)
  })
  test('capability index: T over 4 u', () => expect(capabilityIndex({ min: 9, max: 11 }, 0.25)).toBe(2))
  test('resistors: risks of the lot, as printed', () => {
    const { lot, u, tolerance, printed } = resistors
    const r = globalRisks(lot, u, tolerance, { min: 1500 - printed.halfWidth, max: 1500 + printed.halfWidth })
    expectPrinted(r.consumer, printed.consumer)
    expectPrinted(r.producer, printed.producer)
    expectRelative(conformanceProbability(lot.mean, lot.deviation, tolerance), resistors.processConformance, 1e-12)
  })
  test.each(resistors.exact)('resistors accepted within $halfWidth ohm', ({ halfWidth, consumer, producer }) => {
    const r = globalRisks(resistors.lot, resistors.u, resistors.tolerance, {
      min: 1500 - halfWidth,
      max: 1500 + halfWidth,
    })
    expectRelative(r.consumer, consumer, 1e-8)
    expectRelative(r.producer, producer, 1e-8)
  })
  test('a lot with a measurement four times as good', () => {
    const r = globalRisks({ mean: 0, deviation: 4 }, 1, { min: -8, max: 8 }, { min: -8, max: 8 })
    expectRelative(r.consumer, deaver.consumer, 1e-8)
    expectRelative(r.producer, deaver.producer, 1e-8)
  })
  test('limits at 2.5 deviations of the lot', () => {
    const { limit, u, consumer, producer } = deaverWide
    const limits = { min: -limit, max: limit }
    const r = globalRisks({ mean: 0, deviation: 1 }, u, limits, limits)
    expectRelative(r.consumer, consumer, 1e-8)
    expectRelative(r.producer, producer, 1e-8)
  })
  test.each(lotShares)('a lot about $mean has $outside outside', ({ mean, outside }) =>
    expectPrinted(1 - conformanceProbability(mean, 0.4, { min: 9, max: 11 }), outside),
  )
  test.each(guardBands)('guard band of $rule leaves its risk at one limit', ({ bandInU, risk }) => {
    const u = 0.3
    const accept = acceptance({ max: 10 }, bandInU * 2 * u)
    expectRelative(1 - conformanceProbability(accept.max!, u, { max: 10 }), risk, 1e-9)
  })
})

describe('few degrees of freedom', () => {
  test('widen the doubt: t in place of the normal distribution', () => {
    const at = (dof: number): number => conformanceProbability(8, 1, { max: 10 }, dof)
    expect(at(3)).toBeLessThan(at(Number.POSITIVE_INFINITY))
    // TN 1297, Table B.1: t = 2.13 for 4 degrees of freedom leaves 5 % in one tail (two-sided 90 %)
    expectRelative(conformanceProbability(0, 1, { max: 2.131846786 }, 4), 0.95, 1e-8)
  })
})

describe('rules', () => {
  test.each([
    [0.97, 'conforms'],
    [0.95, 'conforms'],
    [0.5, 'undecided'],
    [0.05, 'does not conform'],
    [0.01, 'does not conform'],
  ] as const)('guarded, %d: %s', (p, word) => expect(decide(p, 5, { max: 6 }, guarded)).toBe(word))
  test('simple goes by the value, whatever the doubt', () => {
    expect(decide(0.51, 9.99, { max: 10 }, simple)).toBe('conforms')
    expect(decide(0.49, 10.01, { max: 10 }, simple)).toBe('does not conform')
    expect(decide(0.3, 5, { min: 4, max: 6 }, simple)).toBe('conforms')
  })
  test('a value without doubt is inside or outside', () => {
    expect(conformanceProbability(10, 0, { max: 10 })).toBe(1)
    expect(conformanceProbability(10.1, 0, { max: 10 })).toBe(0)
  })
})

const value = fc.double({ min: -20, max: 20, noNaN: true })

test('the uncertainty that would decide just decides', () => {
  fc.assert(
    fc.property(value, fc.constantFrom({ max: 5 }, { min: -3 }, { min: -3, max: 5 }), (y, limits) => {
      const u = deciding(y, limits, 0.95)
      fc.pre(u > 1e-6)
      const p = conformanceProbability(y, u, limits)
      const isIn = y >= (limits.min ?? -1e9) && y <= (limits.max ?? 1e9)
      if (isIn) expect(Math.abs(p - 0.95)).toBeLessThan(1e-9)
      else expect(p).toBeLessThanOrEqual(0.05 + 1e-9)
      expect(decide(conformanceProbability(y, 0.99 * u, limits), y, limits, guarded)).not.toBe('undecided')
    }),
  )
})

test('less doubt never turns a verdict into its opposite', () => {
  fc.assert(
    fc.property(value, fc.double({ min: 0.01, max: 10, noNaN: true }), (y, u) => {
      const limits = { min: -3, max: 5 }
      const wide = decide(conformanceProbability(y, u, limits), y, limits, guarded)
      const close = decide(conformanceProbability(y, u / 2, limits), y, limits, guarded)
      if (wide === 'conforms') expect(close).toBe('conforms')
      if (close === 'conforms' && y >= -3 && y <= 5) expect(wide).not.toBe('does not conform')
    }),
  )
})

describe('random trials', () => {
  const leakage = leaf(4e-6, 'A', { kind: 'read', what: 'I_CBO', seen: '4 uA' }, [
    term('r', { label: 'reading', u: 0.2e-6 }),
  ])
  const exponent = leaf(0.5, '1', { kind: 'assumed', what: 'm', why: 'test' }, [limitTerm('m', 'exponent', 0.5)])
  const bent: Quantity<'A'> = derive(leakageAtVoltage, {
    current: leakage,
    from: exact(1.5, 'V', 'from'),
    to: exact(15, 'V', 'to'),
    exponent,
  })
  test('are used where the formula bends, and are right there', () => {
    // a limit of 0.7 turns here, so that all trials are made
    const got = conformance(bent, { max: 20e-6 }, { trials: 200_000, seed: 1, turnsAt: 0.7 })
    expect(got.method).toBe('random trials')
    // the exponent is rectangular: P = E log10(20 / I), and with 5 % of the reading E log10(1 + 0.05 z) = -0.05^2 / (2 ln 10)
    const exactly = Math.log10(5) + 0.05 ** 2 / (2 * Math.LN10)
    expect(Math.abs(got.probability - exactly)).toBeLessThan(4 * Math.sqrt((0.7 * 0.3) / 200_000))
    // where the answer is plain soon, a tenth of them do
    const few = conformance(bent, { max: 20e-6 }, trials)
    expect(Math.abs(few.probability - exactly)).toBeLessThan(4 * Math.sqrt((0.7 * 0.3) / 2000))
    const first = conformance(bent, { max: 20e-6 }, { ...trials, trials: 0 })
    expect(first.method).toBe('first order')
    expect(Math.abs(first.probability - Math.log10(5))).toBeGreaterThan(0.02)
  })
  test('repeat under one seed', () => {
    expect(conformance(bent, { max: 20e-6 }, trials)).toEqual(conformance(bent, { max: 20e-6 }, trials))
  })
  test('are not used where the answer is plain, or the formula straight', () => {
    expect(conformance(bent, { max: 1 }, trials).method).toBe('first order')
    expect(conformance(leakage, { max: 4.1e-6 }, trials).method).toBe('first order')
    expect(standardUncertainty(leakage)).toBeCloseTo(0.2e-6, 12)
  })
})
