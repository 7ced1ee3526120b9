import {
  type LeadReading,
  digitalMeter as meter,
  type Posterior,
  simulatedPart,
  type Trial,
  weigh,
} from '#core/identify'
import { Random } from '#core/numeric'
import { onScale } from '../src/core/identify/forecast.ts'
import { simulatedPair } from '../src/core/identify/hypothesis.ts'
import { carriers } from '../src/core/identify/next-test.ts'
import { predict } from '../src/core/identify/prediction.ts'
import { orderText } from '../src/core/identify/say-reading.ts'
import { testWorth } from '../src/core/identify/test-worth.ts'
import { untried } from '../src/core/identify/untried.ts'

/**
 * How many parts of three leads the best order of tests could settle in two and in three, by looking that far ahead:
 * `node scripts/bench.mjs identify-ahead [parts] [outcomes]`, some minutes for each first test. After a first test of
 * simulated parts each of the ten best second ones is tried on outcomes drawn by what is likely then, and of the third
 * the one that settles most is counted. The best of several means is a little too large; choosing by one half of the
 * outcomes and counting by the other is a little too small.
 */
const [parts, outcomes] = [Number(process.argv[3] ?? 40), Number(process.argv[4] ?? 16)]
const [seed, sure, seconds] = [11, 0.99, 10]

const sumOf = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0)
const mean = (all: readonly number[]): number => sumOf(all) / all.length
const isSure = (p: Posterior): boolean => (p.ranked[0]?.probability ?? 0) >= sure
const tests = (p: Posterior): readonly Trial[] =>
  untried(p, meter).filter((t) => t.test === undefined && t.warmed === undefined)

function rated(p: Posterior) {
  const by = carriers(p.ranked)
  return tests(p).map((test) => ({ test, ...testWorth(by, { seen: p.seen, trial: onScale(test), meter, sure }) }))
}

const mostSettled = (p: Posterior): number => (isSure(p) ? 1 : Math.max(0, ...rated(p).map((r) => r.settles)))

/** Place of a number drawn by the weights; the last where rounding leaves none. */
function drawn(weights: ArrayLike<number>, random: Random): number {
  let left = random.uniform() * sumOf(Array.from(weights))
  for (let n = 0; n < weights.length; n++) {
    left -= weights[n]!
    if (left < 0) return n
  }
  return weights.length - 1
}

/** What a test shows on an imagined part, drawn by what is likely after the readings so far. */
function outcome(p: Posterior, test: Trial, random: Random): LeadReading {
  const { hypothesis, likelihood } =
    p.ranked[
      drawn(
        p.ranked.map((w) => w.probability),
        random,
      )
    ]!
  const n = drawn(likelihood.shares, random)
  const { chance, y } = predict(hypothesis.condition, simulatedPair(hypothesis, test), onScale(test), meter)
  const { range, joined } = test
  const leads = { plus: test.plus + 1, minus: test.minus + 1, ...(joined === undefined ? {} : { joined }) }
  if (random.uniform() > chance[n]!)
    return { ...leads, shows: { kind: 'open', ...(range === undefined ? {} : { range }) } }
  if (range !== undefined) return { ...leads, shows: { kind: 'ohms', ohm: 10 ** y[n]!, range } }
  return { ...leads, shows: { kind: 'volts', volts: Math.min(meter.diode.openAboveV - 1e-3, y[n]!) } }
}

/** What a first test leads to on one part: chance that two tests settle it, and three, from above and from below. */
function lookedAhead(first: Trial, n: number) {
  const random = new Random(seed, `outcomes ${n}`)
  const read = simulatedPart(seed, n, 3, meter).read(first)
  const after = weigh([read], meter, 3)
  const all = rated(after)
  const best = [...all].sort((a, b) => b.bits + 2 * b.settles - a.bits - 2 * a.settles).slice(0, seconds)
  const settled = best.map(({ test }) =>
    Array.from({ length: outcomes }, () => mostSettled(weigh([read, outcome(after, test, random)], meter, 3))),
  )
  const half = outcomes / 2
  const chosen = settled.reduce((a, b) => (mean(b.slice(0, half)) > mean(a.slice(0, half)) ? b : a))
  return {
    two: Math.max(...all.map((r) => r.settles)),
    most: Math.max(...settled.map(mean)),
    least: mean(chosen.slice(half)),
  }
}

const percent = (share: number): string => `${(100 * share).toFixed(0)} %`
process.stdout.write('| first test | settled by two | by three, at most | by three, at least |\n|---|---|---|---|\n')
for (const first of tests(weigh([], meter, 3))) {
  const ahead = Array.from({ length: parts }, (_, n) => lookedAhead(first, n))
  const told = (['two', 'most', 'least'] as const).map((what) => percent(mean(ahead.map((a) => a[what]))))
  process.stdout.write(`| ${orderText(first)} | ${told.join(' | ')} |\n`)
}
