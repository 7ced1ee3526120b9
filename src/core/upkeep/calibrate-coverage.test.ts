import { expect, test } from 'vitest'
import { normalQuantile, Random } from '#core/numeric'
import { readTester, seenAtPart, testerExample } from '#core/tester'
import { interval95 } from '#core/uncertainty'
import { calibrate } from './index.ts'

const read = readTester(testerExample)
if (!read.ok) throw new Error('the example does not read')
const { tester } = read

const fullScale = 10e-3
const divisions = 50

/** A standard normal value, by its quantile. */
const normal = (random: Random): number => normalQuantile(Math.min(1 - 1e-12, Math.max(1e-12, random.uniform())))

/** A range with an error of its own: what it shows for a true current, read to a fifth of a division. */
function rangeOf(random: Random) {
  const [slope, offset] = [0.02 * normal(random), 0.2 * normal(random)]
  const repeats = 0.05 + 0.2 * random.uniform()
  return (trueA: number): number => {
    const needle = (trueA / fullScale) * divisions * (1 + slope) + offset + repeats * normal(random)
    return Math.round(needle * 5) / 5
  }
}

/** Ten readings up and down, then one new reading: whether its corrected 95 % interval holds the true current. */
function isHeld(random: Random, count: number): boolean {
  const showing = rangeOf(random)
  const settings = Array.from({ length: count }, (_, i) => fullScale * (0.15 + (0.75 * (i % 5)) / 4))
  const points = settings.map((reference) => ({ reference, shown: (showing(reference) / divisions) * fullScale }))
  const { calibration } = calibrate(tester, [{ range: '10 mA', points }], { date: '2024-01-01', ambientC: 20 }, 'line')
  const ranges = calibration.ranges.map((r) => ({ ...r, trust: 'with corrections' as const }))
  const truth = fullScale * (0.2 + 0.65 * random.uniform())
  const seen = seenAtPart(
    { ...tester, movement: { ...tester.movement!, copperPerK: 0 }, calibrations: [{ ...calibration, ranges }] },
    {
      part: 'P',
      reads: 'I_C',
      shown: { kind: 'deflection', divisions: showing(truth) },
      seen: '',
      range: '10 mA',
      point: 1,
    },
  )
  if (!seen.ok) throw new Error(JSON.stringify(seen.faults))
  const [low, high] = interval95(seen.quantity)
  return low <= truth && truth <= high
}

const runs = 2000

test.each([5, 10])(
  'after %i readings the interval of a corrected one holds the truth 95 times in 100',
  (count) => {
    const random = new Random(count)
    let held = 0
    for (let i = 0; i < runs; i++) if (isHeld(random, count)) held++
    // chance alone moves it by 1 % in 2000 runs, two standard deviations
    expect(held / runs).toBeGreaterThan(0.94)
    // five readings: the resolution is the least that repeats are taken to be, which errs on the safe side
    expect(held / runs).toBeLessThan(0.975)
  },
  120_000,
)
