import { countCoverage, insideShare } from '../test/rehearsal/coverage.ts'
import { knownParts } from '../test/rehearsal/known-parts.ref.ts'

/**
 * How often 95 % intervals hold the truth: `node scripts/bench.mjs coverage [runs]`. Every sample tester whose insides or
 * limits are stated, every known part, as a Markdown table.
 */
const runs = Number(process.argv[3] ?? 10_000)
const testers = ['larkfield', 'marlpit', 'tallow', 'copperhill']

const figure = (x: number, unit: string): string => `${Number(x.toPrecision(2)).toExponential()} ${unit}`.trimEnd()
const unitOf = (symbol: string): string => (symbol.startsWith('h') ? '' : symbol.startsWith('V') ? 'V' : 'A')

process.stdout.write(
  '| tester | part | parameter | truth, mean | runs | truth inside | below | above | rms error / u | k |\n',
)
process.stdout.write('|---|---|---|---|---|---|---|---|---|---|\n')
for (const tester of testers)
  for (const name of Object.keys(knownParts) as (keyof typeof knownParts)[])
    for (const t of countCoverage(tester, name, runs)) {
      const truth = figure(t.truths / t.runs, unitOf(t.symbol))
      const inside = `${(100 * insideShare(t)).toFixed(1)} %`
      const rms = Math.sqrt(t.squares / t.runs).toFixed(2)
      const k = (t.factors / t.runs).toFixed(2)
      const cells = [tester, name, t.symbol, truth, t.runs, inside, t.below, t.above, rms, k]
      process.stdout.write(`| ${cells.join(' | ')} |\n`)
    }
