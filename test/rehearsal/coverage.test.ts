import { describe, expect, test } from 'vitest'
import { countCoverage, insideShare, symbolsOf } from './coverage.ts'

/**
 * The honesty of the intervals, measured: 2,000 runs with a known truth, each on a tester of its own that the
 * description fits. `node scripts/bench.mjs coverage` counts more testers, parts and runs.
 */
const runs = 2000

/** A share of 95 % counted in 2,000 runs strays by 0.5 %; four times that is allowed. */
const allowed = { low: 0.93, high: 0.97 } as const

const parts = ['germanium', 'silicon', 'germanium diode', 'silicon diode'] as const
const onTallow = ['h_FE', 'I_CEO', 'I_CBO', 'V_F']

describe.each(['larkfield', 'tallow'])('intervals on the tester %s', (tester) => {
  test.each(parts)(
    '%s: the truth lies inside in 93 to 97 of 100 runs',
    (name) => {
      const tallies = countCoverage(tester, name, runs)
      const symbols = symbolsOf(name).filter((s) => tester === 'larkfield' || onTallow.includes(s))
      expect(tallies.map((t) => t.symbol).sort()).toEqual([...symbols].sort())
      for (const t of tallies) {
        // a leaky part may go over the highest range once in a while
        expect(t.runs, t.symbol).toBeGreaterThan(0.99 * runs)
        expect(insideShare(t), t.symbol).toBeGreaterThanOrEqual(allowed.low)
        expect(insideShare(t), t.symbol).toBeLessThanOrEqual(allowed.high)
        // standard uncertainties are right by themselves: errors are as large as they say
        expect(Math.sqrt(t.squares / t.runs), t.symbol).toBeGreaterThan(0.93)
        expect(Math.sqrt(t.squares / t.runs), t.symbol).toBeLessThan(1.07)
      }
    },
    120_000,
  )
})

test('a needle on its stop cannot err downward: its interval holds a truth near zero at least as often', () => {
  const [tally] = countCoverage('larkfield', 'silicon as new', 500).filter((t) => t.symbol === 'I_CEO')
  expect(tally!.truths / tally!.runs).toBeLessThan(1e-9)
  expect(tally!.below).toBe(0)
  expect(insideShare(tally!)).toBeGreaterThanOrEqual(0.92)
}, 60_000)
