import { digitalMeter, identifyPart, type LeadReading, type Meter, needleMeter, simulatedPart } from '#core/identify'
import oracle from '../src/core/identify/lead-pairs.ref.json'

/**
 * How long an answer about an unmarked part takes after each reading: `node scripts/bench.mjs identify-answers [parts]`.
 * Over every beginning of the readings in the reference, and of simulated parts as they are named by the tests offered
 * and by all pairs, as Markdown.
 */
const count = Number(process.argv[3] ?? 60)
const seed = 3
const mostTests = 12

type Row = readonly [plus: number, minus: number, v: number, i: number, state: string]

/** Times of answers, ms. */
const times: Record<string, number[]> = {}

function answer(what: string, readings: readonly LeadReading[], meter: Meter, leads: 2 | 3) {
  const start = performance.now()
  const identity = identifyPart(readings, { meter, leads })
  ;(times[what] ??= []).push(performance.now() - start)
  return identity
}

const beginnings = <T>(all: readonly T[]): readonly (readonly T[])[] => all.map((_, n) => all.slice(0, n + 1))

answer('the first of all', [], digitalMeter, 3)

for (const c of oracle.cases) {
  const readings = c.readings.flatMap((at) =>
    (at.rows as unknown as readonly Row[]).map(
      ([plus, minus, v, i, state]): LeadReading => ({
        plus,
        minus,
        temperatureC: at.temperature_degC,
        shows: state === 'compliance' ? { kind: 'leak', amperes: i, volts: v } : { kind: 'volts', volts: v },
      }),
    ),
  )
  for (const some of beginnings(readings)) answer('readings of the reference', some, digitalMeter, 3)
}

for (const [n, meter] of Array.from(
  { length: count },
  (_, k) => [k, k % 4 === 0 ? needleMeter : digitalMeter] as const,
)) {
  const leads = n % 5 === 0 ? 2 : 3
  const part = simulatedPart(seed, n, leads, meter)
  const readings: LeadReading[] = []
  for (;;) {
    const { next } = answer('tests offered', readings, meter, leads)
    if (next === undefined || readings.length >= mostTests) break
    readings.push(part.read({ ...next, plus: next.plus - 1, minus: next.minus - 1 }))
  }
  if (meter === needleMeter) continue
  const pairs =
    leads === 2
      ? [
          [0, 1],
          [1, 0],
        ]
      : [
          [0, 1],
          [1, 0],
          [0, 2],
          [2, 0],
          [1, 2],
          [2, 1],
        ]
  const all = pairs.map(([plus, minus]) => part.read({ plus: plus!, minus: minus! }))
  for (const some of beginnings(all)) answer('all pairs', some, meter, leads)
}

const at = (sorted: readonly number[], p: number): string => `${sorted[Math.ceil(p * sorted.length) - 1]!.toFixed(1)}`
process.stdout.write(
  '| answers | count | median, ms | nine in ten | 99 in 100 | longest |\n|---|---|---|---|---|---|\n',
)
for (const [what, all] of Object.entries(times)) {
  const sorted = [...all].sort((a, b) => a - b)
  process.stdout.write(`| ${what} | ${all.length} | ${[0.5, 0.9, 0.99, 1].map((p) => at(sorted, p)).join(' | ')} |\n`)
}
