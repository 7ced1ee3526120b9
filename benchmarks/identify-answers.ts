import {
  digitalMeter,
  identifyPart,
  type LeadReading,
  type Meter,
  needleMeter,
  readLeadReadings,
  simulatedPart,
} from '#core/identify'
import { pairsOf } from '../src/core/identify/lead-curve.ts'
import oracle from '../src/core/identify/lead-pairs.ref.json'

/**
 * How long an answer about an unmarked part takes after each reading: `node scripts/bench.mjs identify-answers [parts]`.
 * Over every beginning of the readings in the reference, and of simulated parts as they are named by the tests offered
 * and by all pairs, as Markdown.
 */
const count = Number(process.argv[3] ?? 60)
const seed = 3
const mostTests = 12
const twoLeadsEach = 5
const needleEach = 4

/** Times of answers, ms. */
const times = new Map<string, number[]>()

function answer(what: string, readings: readonly LeadReading[], meter: Meter, leads: 2 | 3) {
  const start = performance.now()
  const identity = identifyPart(readings, { meter, leads })
  times.set(what, [...(times.get(what) ?? []), performance.now() - start])
  return identity
}

const beginnings = <T>(all: readonly T[]): readonly (readonly T[])[] => all.map((_, n) => all.slice(0, n + 1))

answer('the first of all', [], digitalMeter, 3)

const reference = readLeadReadings(JSON.stringify(oracle), { file: 'reference', meter: digitalMeter })
if (!reference.ok) throw new Error('The readings of the reference do not read.')
for (const { readings } of reference.parts)
  for (const some of beginnings(readings)) answer('readings of the reference', some, digitalMeter, 3)

for (let n = 0; n < count; n++) {
  const leads = n % twoLeadsEach === 0 ? 2 : 3
  const meter = n % needleEach === 0 ? needleMeter : digitalMeter
  const part = simulatedPart(seed, n, leads, meter)
  const offered: LeadReading[] = []
  for (;;) {
    const { next } = answer('tests offered', offered, meter, leads)
    if (next === undefined || offered.length >= mostTests) break
    offered.push(part.read({ ...next, plus: next.plus - 1, minus: next.minus - 1 }))
  }
  if (meter === needleMeter) continue
  const all = pairsOf(leads).map(([plus, minus]) => part.read({ plus, minus }))
  for (const some of beginnings(all)) answer('all pairs', some, meter, leads)
}

const at = (sorted: readonly number[], p: number): string => sorted[Math.ceil(p * sorted.length) - 1]!.toFixed(1)
process.stdout.write(
  '| answers | count | median, ms | nine in ten | 99 in 100 | longest |\n|---|---|---|---|---|---|\n',
)
for (const [what, all] of times) {
  const sorted = [...all].sort((a, b) => a - b)
  const told = [0.5, 0.9, 0.99, 1].map((p) => at(sorted, p)).join(' | ')
  process.stdout.write(`| ${what} | ${all.length} | ${told} |\n`)
}
