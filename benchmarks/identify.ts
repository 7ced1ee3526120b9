import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { nameByAllPairs, nameByOffers, type Race } from '../test/identify/named-parts.ts'
import { reliabilityPicture } from './reliability.ts'

/**
 * How well unmarked parts are named: `node scripts/bench.mjs identify [parts] [parts named by tests offered]`. Simulated
 * parts, none of those in the shipped table, read by a meter with its errors, as Markdown. Draws `docs/pictures/reliability.svg` anew.
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

writeFileSync(join(process.argv[2] ?? '.', 'docs/pictures/reliability.svg'), reliabilityPicture(s))

const ratio = (r: Race): string =>
  `${r.parts} parts: ${r.offered.toFixed(2)} tests against ${r.other.toFixed(2)}, ${percent(r.offered, r.other)}`
for (const also of [[], ['gain']] as const) {
  const o = nameByOffers(Number(process.argv[4] ?? count), clock, also)
  say(
    `\n${o.parts} parts by the tests offered${also.length === 0 ? '' : ', gain among them'}, each chosen in ${o.msOffer.toFixed(1)} ms: 99 % sure ${percent(o.sure, o.parts)}, after ${o.meanTests.toFixed(2)} tests in the mean; right of these ${percent(o.rightWhenSure, o.sure)}`,
  )
  say(`three leads, against all six pairs and then the tests offered: ${ratio(o.three)}`)
  say(`three leads that the six pairs alone settle: ${ratio(o.sixAlone)}`)
  say(`three leads, against all six pairs in one way after another: ${ratio(o.inOrder)}`)
  say(`two leads, against both pairs and then the tests offered: ${ratio(o.two)}`)
}
