import { existsSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { type Command, Option } from 'commander'
import {
  type DrawerFile,
  drawFit,
  drawingBytes,
  drawingKind,
  type FittedDrawer,
  type FitWishes,
  fitDocument,
  fitDrawer,
} from '#bench'
import { curveKindOf } from '#core/curve'
import { type Fault, FaultError } from '#core/fault'
import { type CurveFit, curveExampleCsv, type FitKind, fitCard, fitKinds } from '#core/fit'
import { columnPairs, curveKind, drawerFiles } from './curve-files.ts'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import { drawerLines, fitLines } from './fit-lines.ts'
import { boundsOf, fixedValues, type HandOptions, handOf, partOf, statedTemperature } from './fit-options.ts'
import { badOption, gather, withJson, withOut } from './options.ts'
import { printJson, printLines, reportFailure } from './output.ts'
import { untilStopped } from './until-stopped.ts'
import { writeOut } from './write-out.ts'

interface FitOptions extends HandOptions {
  readonly temperature?: string
  readonly relative?: string
  readonly fix?: readonly string[]
  readonly column?: readonly string[]
  readonly card?: string
  readonly out?: string
  readonly workers?: string
  readonly progress?: boolean
  readonly json?: boolean
  readonly example?: boolean
}

export function define(command: Command): void {
  command
    .argument('[kind]', `what the part is: ${fitKinds.join(', ')}; a diode and a bjt are known by their columns`)
    .argument('[files...]', 'curves as CSV, or folders of them; - reads standard input')
  withOut(withJson(command), 'draw readings, law with its interval, and residuals (.svg, .png)', 'plot')
    .option('--temperature <temperature>', 'of the part during the sweep, such as 25')
    .addOption(
      new Option('--space <space>', 'hold currents, or their logarithms, against the law').choices(['linear', 'log']),
    )
    .addOption(new Option('--robust <rule>', 'let readings far off pull less').choices(['none', 'huber', 'tukey']))
    .option('--relative <part>', 'uncertainty of a current as a part of it, such as 1 %; else by the scatter')
    .option('--fix <symbol=value>', 'hold a parameter; may stand again', gather)
    .option('--bound <symbol=low:high>', 'keep a parameter between two values; may stand again', gather)
    .option('--hand', 'a few readings by hand: count every error, also of voltages, and say what can be told')
    .option('--common <part>', 'with --hand: what all currents are wrong by together, such as 1.5 %')
    .option('--column <header=symbol>', 'what a column with another header holds; may stand again', gather)
    .option('--card <file>', 'write .model cards')
    .option('--workers <count>', 'threads for many files (default: as many as the machine has cores)')
    .option('--progress', 'tell on stderr how far it is, also where that is no terminal')
    .option('--example', 'print a curve that works')
    .action((first: string | undefined, more: readonly string[], o: FitOptions) => {
      if (o.example === true) return writeExample(curveExampleCsv[curveKind(first ?? 'diode')], 'csv', o)
      const isFile = first === undefined || first === '-' || /\.csv$/i.test(first) || existsSync(first)
      return isFile
        ? fitNamed(undefined, first === undefined ? [] : [first, ...more], o)
        : fitNamed(curveKind(first), more, o)
    })
}

/** The kind of the parts, by the columns of the first file; a field-effect transistor is not told by them. */
function kindOf([file]: readonly DrawerFile[], o: FitOptions): FitKind {
  if (file === undefined || !('text' in file)) throw noKind
  const kind = curveKindOf(file.text, file.file, columnPairs(o.column))
  if (kind === 'diode' || kind === 'bjt') return kind
  throw noKind
}

const noKind = new FaultError({
  code: 'usage',
  problem: 'No kind of part was named',
  mend: `Write one of ${fitKinds.join(', ')} before the file.`,
})

async function fitNamed(typed: FitKind | undefined, named: readonly string[], o: FitOptions): Promise<void> {
  if (o.out !== undefined) drawingKind(o.out)
  const files = drawerFiles(named)
  const kind = typed ?? kindOf(files, o)
  const wishes = wishesOf(kind, o)
  refuseManyPlots(files.length, o)
  const drawer = await untilStopped((signal) =>
    fitDrawer({
      files,
      wishes,
      signal,
      workers: workersOf(o.workers),
      workerFile: new URL('./germane-fit-worker.mjs', import.meta.url),
      ...(process.stderr.isTTY || o.progress === true ? { onDone: tell } : {}),
    }),
  )
  const fits = drawer.outcomes.flatMap((one) => ('fits' in one ? one.fits : []))
  const faults = drawer.outcomes.flatMap((one) => ('faults' in one ? one.faults : []))
  if (fits.length === 0 && faults.length > 0) throw new FaultError(faults)
  if (o.card !== undefined) writeCards(o.card, fits)
  const [first] = files
  if (o.out !== undefined && first !== undefined && 'text' in first)
    writeOut(o.out, await drawingBytes(drawFit(first, wishes, fits), o.out))
  if (o.json === true) printJson(fitDocument(drawer))
  else printFits(drawer, fits, faults, o)
  if (faults.length > 0 || drawer.isStopped) process.exitCode = exitCodes.notConforming
}

/** How the curves are to be fitted, as the options say. */
function wishesOf(kind: FitKind, o: FitOptions): FitWishes {
  const fixed = fixedValues(o.fix ?? [])
  const temperature = o.temperature === undefined ? undefined : statedTemperature(o.temperature)
  const doubts = handOf(o, fixed, temperature)
  return {
    kind,
    columns: columnPairs(o.column),
    bounds: boundsOf(o.bound ?? []),
    fix: Object.fromEntries(Object.entries(fixed).map(([s, q]) => [s, q.value])),
    ...(temperature === undefined ? {} : { temperatureC: temperature.value }),
    ...(o.space === undefined ? {} : { space: o.space }),
    ...(o.robust === undefined ? {} : { robust: o.robust }),
    ...(o.relative === undefined ? {} : { relative: partOf('--relative', o.relative) }),
    ...(doubts === undefined ? {} : { hand: doubts }),
  }
}

function refuseManyPlots(count: number, o: FitOptions): void {
  if (o.out === undefined || count < 2) return
  throw new FaultError({
    code: 'usage',
    problem: `--out names one drawing, and ${count} files are to be fitted`,
    mend: 'Draw them one by one.',
  })
}

const mostWorkers = 64

/** Threads to fit with: as many as the machine has cores where none were named. */
function workersOf(text: string | undefined): number {
  if (text === undefined) return availableParallelism()
  const count = Number(text)
  if (Number.isInteger(count) && count >= 1 && count <= mostWorkers) return count
  throw badOption('--workers', text, 'is no number of threads', `Give a whole number from 1 to ${mostWorkers}.`)
}

function printFits(drawer: FittedDrawer, fits: readonly CurveFit[], faults: readonly Fault[], o: FitOptions): void {
  const isOne = drawer.of === 1 && fits.length === 1
  const plotted = o.out === undefined ? [] : ['', `${o.out} is written.`]
  printLines([...(isOne ? fitLines(fits[0]!, o.temperature !== undefined) : drawerLines(fits)), ...plotted])
  if (faults.length > 0) reportFailure(new FaultError(faults), false)
  if (drawer.isStopped) process.stderr.write(`Stopped: ${drawer.outcomes.length} of ${drawer.of} files are done.\n`)
}

/** Tells on a terminal how far it is. */
function tell(done: number, of: number): void {
  if (of > 20 && (done % 10 === 0 || done === of))
    process.stderr.write(`\r${done} of ${of} files${done === of ? '\n' : ''}`)
}

/** A card for each fit, in one file. */
function writeCards(file: string, fits: readonly CurveFit[]): void {
  const date = new Date().toISOString().slice(0, 10)
  const cards = fits.map((f, i) => fitCard(f, cardName(f.name, i), date))
  writeOut(file, cards.join('\n'))
}

/** A name as cards take it: letters and figures, a letter first. */
function cardName(name: string, index: number): string {
  const plain = name
    .replace(/^.*[/\\]/, '')
    .replace(/\.csv$/i, '')
    .replaceAll(/[^a-z0-9]+/gi, '_')
    .replaceAll(/^_+|_+$/g, '')
  return plain === '' ? `part${index + 1}` : /^[a-z]/i.test(plain) ? plain : `x${plain}`
}
