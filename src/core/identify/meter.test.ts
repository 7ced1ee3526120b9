import { describe, expect, test } from 'vitest'
import { curveVolts, digitalMeter, needleMeter, rangeNamed, rangeOhm } from './meter.ts'

describe('a curve between its points', () => {
  const curve = { leakA: 1e-9, voltsPerK: 0, decadesPerK: 0 }

  test('a fired thyristor that lets go below 1 mA shows its drop at 1 mA, and no resistance that is no number', () => {
    const held = { ...curve, volts: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0.79, 0.82] }
    expect(curveVolts(held, 1e-3)).toBe(0.79)
    expect(rangeOhm(held, rangeNamed(digitalMeter, '2k'))).toBeGreaterThan(0)
  })

  test('what blocks without any leak blocks', () => {
    const blocks = { ...curve, leakA: 0, volts: Array.from({ length: 4 }, () => Number.POSITIVE_INFINITY) }
    expect(curveVolts(blocks, 1e-6)).toBe(Number.POSITIVE_INFINITY)
    expect(rangeOhm(blocks, rangeNamed(needleMeter, 'x1k'))).toBe(Number.POSITIVE_INFINITY)
  })
})
