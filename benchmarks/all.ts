import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { median } from '#core/numeric'
import { solving, variations } from './circuit.ts'
import { correctedGain, firstOrder } from './corrected-gain.ts'
import { fitting } from './fit.ts'
import { drawnTolerance, largeMatching } from './large-matching.ts'
import { matching } from './matching.ts'
import { pageFigures } from './page.ts'
import { serving } from './serving.ts'
import { helpStart, importing, judging } from './whole-runs.ts'

/** Runs every benchmark and prints a Markdown table. The first argument is the folder of the project. */
const root = process.argv[2]!
const folder = mkdtempSync(join(tmpdir(), 'germane-bench-'))

interface Figure {
  readonly what: string
  readonly measured: string
  readonly wanted: string
}

const seconds = (s: number): string => (s < 1 ? `${(1000 * s).toFixed(0)} ms` : `${s.toFixed(2)} s`)
const milliseconds = (s: number): string => `${(1000 * s).toPrecision(2)} ms`
function numpySeconds(): { readonly seconds: number; readonly version: string } | undefined {
  const run = spawnSync('python3', [join(root, 'benchmarks/corrected-gain.py')], { encoding: 'utf8' })
  if (run.status !== 0) return undefined
  const said = JSON.parse(run.stdout) as { seconds: number[]; numpy: string }
  return { seconds: median(said.seconds), version: said.numpy }
}

const figures: Figure[] = []
const add = (what: string, measured: string, wanted: string): void => {
  figures.push({ what, measured, wanted })
  process.stderr.write(`${what}: ${measured}\n`)
}

try {
  const help = helpStart(root)
  add('`germane --help`, whole process', `${seconds(help.germane)} (bare node: ${seconds(help.node)})`, 'under 200 ms')
  const ours = correctedGain()
  const numpy = numpySeconds()
  add('corrected gain, 6 causes, 1,000,000 trials', seconds(median(ours.seconds)), 'under 0.3 s')
  add(
    'the same against numpy, in one run',
    numpy === undefined
      ? 'numpy is not on this machine'
      : `${(median(ours.seconds) / numpy.seconds).toFixed(2)} x numpy ${numpy.version} (${seconds(numpy.seconds)})`,
    'within 1.5 x',
  )
  add('first order, 100,000 corrected gains', seconds(firstOrder()), 'under 1 s')
  const judged = judging(root, folder)
  add(`judging a file of 10,000 readings, whole process`, seconds(judged.text), 'under 2 s')
  add('the same with every working, `--json`', seconds(judged.json), '')
  const kept = await importing(folder)
  add('importing 100,000 readings, durable', seconds(kept), 'under 5 s')
  const served = await serving(root, folder)
  add('filling a book with 100,000 parts, whole process', seconds(served.fill), 'under 60 s')
  add('`germane serve` on that book: from the command to the first answer', seconds(served.ready), 'under 1 s')
  for (const [what, first, later] of served.answers)
    add(`${what}: first, then`, `${seconds(first)}, ${seconds(later)}`, 'under 200 ms after the first')
  const page = await pageFigures(root, join(folder, 'large.germane'))
  for (const [what, ms] of page?.screens ?? [])
    add(`the screen ${what} in a browser, from the link`, `${ms.toFixed(0)} ms`, 'under 200 ms')
  if (page !== undefined) {
    add('a keystroke in the filter of the drawer, median', `${page.keystroke.toFixed(0)} ms`, 'under 50 ms')
    const [median, longest] = page.answer.map((ms) => ms.toFixed(0))
    add(
      'a letter of a reading of an unmarked part, to the answer',
      `${median} ms, at most ${longest} ms`,
      'under 50 ms',
    )
    const { framesPerSecond, late } = page.scroll
    add(
      'scrolling the drawer',
      `${framesPerSecond.toFixed(0)} frames a second, ${(100 * late).toFixed(0)} % late`,
      '60',
    )
  }
  for (const one of matching(root))
    add(
      `pairing ${one.parts} parts, proven, against LEMON on the sparse graph`,
      one.lemon === undefined
        ? `${seconds(one.ours)} (g++ or LEMON is not on this machine)`
        : `${(one.ours / one.lemon).toFixed(2)} x (${seconds(one.ours)}, LEMON ${seconds(one.lemon)})`,
      'within 2 x',
    )
  add('pairing 500 parts as a tolerance is drawn in', seconds(drawnTolerance()), 'under 200 ms')
  const large = await largeMatching(root, folder)
  add(
    'pairing a table of 100,000 parts, whole process',
    `${seconds(large.seconds)}, gap ${large.gap.toExponential(0)}${large.megabytes === undefined ? '' : `, ${large.megabytes.toFixed(0)} MB`}`,
    'under 60 s, gap under 1 %, under 1000 MB',
  )
  for (const one of fitting(root))
    add(
      `fitting ${one.what} (${one.readings} readings, ${one.parameters} parameters) against lmfit`,
      one.lmfit === undefined
        ? `${milliseconds(one.ours)} (lmfit is not on this machine)`
        : `${(one.lmfit / one.ours).toFixed(1)} times as fast (${milliseconds(one.ours)}, lmfit ${one.version} ${milliseconds(one.lmfit)})`,
      '5 times as fast',
    )
  for (const one of solving()) {
    add(
      `operating point of ${one.what}, from its netlist, against ngspice's whole process`,
      one.ngspice === undefined
        ? `${milliseconds(one.ours)} (ngspice is not on this machine)`
        : `${(one.ngspice / one.ours).toFixed(0)} times as fast (${milliseconds(one.ours)}, ngspice ${milliseconds(one.ngspice)})`,
      '',
    )
    add(
      `the same in a batch of ${variations} temperatures and parts, ${one.solved} solved`,
      `${Math.round(one.perSecond)} a second of one core`,
      'at least 20000 a second',
    )
  }
  process.stdout.write(
    [
      '| what | measured | wanted |',
      '|---|---|---|',
      ...figures.map((f) => `| ${f.what} | ${f.measured} | ${f.wanted} |`),
      '',
    ].join('\n'),
  )
} finally {
  rmSync(folder, { recursive: true, force: true })
}
