import { describe, expect, test } from 'vitest'
import { type Bin, nameByAllPairs, nameByOffers } from './named-parts.ts'

/** Simulated parts whose truth is known; a longer run is `node scripts/bench.mjs identify`. */
describe('parts whose truth is known', () => {
  test('are named as surely as is stated', () => {
    const s = nameByAllPairs(200, () => 0)
    expect(s.right / s.parts).toBeGreaterThan(0.75)
    // each stated probability is a chance: the count of right answers lies within 3.3 standard deviations of their sum
    const whole = (of: (b: Bin) => number): number => s.bins.reduce((total, b) => total + of(b), 0)
    const all = { count: s.parts, stated: whole((b) => b.stated), right: s.right }
    for (const b of [...s.bins, all]) {
      const p = b.stated / b.count
      const spread = Math.sqrt(b.count * p * (1 - p))
      expect(Math.abs(b.right - b.stated), `stated ${p.toFixed(3)} of ${b.count}, right ${b.right}`).toBeLessThan(
        3.3 * spread + 1,
      )
    }
  })

  test('are named by fewer tests where those that are offered are taken', () => {
    const s = nameByOffers(25, () => 0)
    expect(s.sure / s.parts).toBeGreaterThan(0.6)
    expect(s.rightWhenSure / s.sure).toBeGreaterThan(0.9)
    // the offered way takes about three fifths of the tests; 0.72 leaves room for so few parts
    expect(s.three.offered).toBeLessThan(0.72 * s.three.other)
    expect(s.meanTests).toBeLessThan(5)
  })
})
