import { nameByAllPairs, nameByOffers } from '../test/identify/named-parts.ts'

/**
 * How well unmarked parts are named: `node scripts/bench.mjs identify [parts] [parts named by tests offered]`. Simulated
 * parts, none of those in the shipped table, read by a meter with its errors, as Markdown.
 */
const count = Number(process.argv[3] ?? 5000)
const clock = (): number => performance.now()
const percent = (part: number, of: number): string => `${((100 * part) / of).toFixed(1)} %`
const say = (line: string): void => void process.stdout.write(`${line}\n`)

const s = nameByAllPairs(count, clock)
say(
  `${s.parts} parts, all pairs read (${s.meanPairs.toFixed(1)} in the mean): an answer takes ${s.msAnswer.toFixed(1)} ms`,
)
say(
  `part, fault and leads right ${percent(s.right, s.parts)}; kind and fault right ${percent(s.rightKind, s.parts)}; 99 % sure ${percent(s.sure, s.parts)}\n`,
)
say('| stated | answers | mean stated | right |')
say('|---|---|---|---|')
for (const b of s.bins)
  say(
    `| ${b.from} to ${Math.min(1, b.to)} | ${b.count} | ${(b.stated / b.count).toFixed(3)} | ${(b.right / b.count).toFixed(3)} |`,
  )

const o = nameByOffers(Number(process.argv[4] ?? count), clock)
say(
  `\n${o.parts} parts by the tests offered, each chosen in ${o.msOffer.toFixed(1)} ms: 99 % sure ${percent(o.sure, o.parts)}, after ${o.meanTests.toFixed(2)} tests in the mean; right of these ${percent(o.rightWhenSure, o.sure)}`,
)
say(
  `the ${o.both} of them that all pairs settle as well: ${o.bothOffered.toFixed(2)} tests against ${o.bothPairs.toFixed(2)}`,
)
