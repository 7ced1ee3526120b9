import { type Command, Option } from 'commander'
import {
  compareCurves,
  curveComparisonDocument,
  curvesCsv,
  curvesDocument,
  type Drawn,
  drawCurves,
  drawingBytes,
  drawingKind,
  resampleCurves,
  type SeenCurves,
  seeCurves,
} from '#bench'
import { type Grid, type View, views, viewWords } from '#core/curve'
import { FaultError } from '#core/fault'
import { curveExampleCsv, fitKinds } from '#core/fit'
import { columnPairs, curveFiles, curveKind } from './curve-files.ts'
import { comparisonLines, curveLines } from './curve-lines.ts'
import { writeExample } from './example.ts'
import { badOption, gather, needsFault, optionValue, withJson, withOut } from './options.ts'
import { printJson, printLines } from './output.ts'
import { writeOut } from './write-out.ts'

interface CurveOptions {
  readonly kind?: string
  readonly plot?: View
  readonly out?: string
  readonly look?: 'screen' | 'light' | 'dark' | 'print'
  readonly compare?: boolean
  readonly points?: string
  readonly spacing: Grid['spacing']
  readonly from?: string
  readonly to?: string
  readonly column?: readonly string[]
  readonly json?: boolean
  readonly example?: boolean
}

export function define(command: Command): void {
  withJson(command.argument('[files...]', 'curves as CSV, or folders of them; - reads standard input'))
  withOut(command, 'write the drawing (.svg, .png) or the resampled curves (.csv)', 'write')
    .addOption(
      new Option(
        '--plot <view>',
        `${views.map((v) => `${v}: ${viewWords[v]}`).join('; ')}; without --out the drawing is printed as SVG`,
      ).choices(views),
    )
    .addOption(
      new Option('--look <look>', 'colours of the drawing (default: as the screen is set)').choices([
        'screen',
        'light',
        'dark',
        'print',
      ]),
    )
    .option('--compare', 'hold the curves against the first of them, on the places all of them share')
    .option('--points <count>', 'give the curves at so many places, by a monotone curve through the readings')
    .addOption(
      new Option('--spacing <spacing>', 'even steps of the places, or of their logarithm')
        .choices(['linear', 'log'])
        .default('linear'),
    )
    .option('--from <value>', 'first place; without it where the readings begin')
    .option('--to <value>', 'last place; without it where the readings end')
    .option('--kind <kind>', `what the parts are: ${fitKinds.join(', ')} (default: by the names of the columns)`)
    .option('--column <header=symbol>', 'what a column with another header holds; may stand again', gather)
    .option('--example', 'print a curve that works')
    .action(look)
}

async function look(named: readonly string[], o: CurveOptions): Promise<void> {
  if (o.example === true) return writeExample(curveExampleCsv.bjt, 'csv', o)
  const isTable = o.out !== undefined && /\.csv$/i.test(o.out)
  if (o.out !== undefined && !isTable) drawingKind(o.out)
  if (isTable && o.points === undefined)
    throw new FaultError({
      code: 'usage',
      problem: `${o.out} is to be a table of resampled curves, and no number of places was given`,
      mend: 'Add --points, or write a drawing: a name that ends in .svg or .png.',
    })
  const seen = seeCurves({
    files: curveFiles(named),
    columns: columnPairs(o.column),
    ...(o.kind === undefined ? {} : { kind: curveKind(o.kind) }),
    ...(o.plot === undefined ? {} : { view: o.plot }),
  })
  if (o.compare === true) return compare(seen, o)
  if (o.points === undefined) {
    if (o.from !== undefined) throw needsFault('--from', '--points')
    if (o.to !== undefined) throw needsFault('--to', '--points')
    return show(seen, o)
  }
  const grid = gridOf(seen, o)
  const made = resampleCurves(seen, grid)
  if (isTable || (o.out === undefined && o.plot === undefined && o.json !== true)) return table(made, grid, o)
  return show(made, o, grid)
}

/** Says what the curves hold, and draws them where that was asked. */
async function show(seen: SeenCurves, o: CurveOptions, grid?: Grid): Promise<void> {
  const drawn = await draw(drawCurves(seen), o)
  if (o.json === true) return printJson(curvesDocument(seen, { ...drawn, ...(grid === undefined ? {} : { grid }) }))
  if (drawn.svg !== undefined) return void process.stdout.write(drawn.svg)
  printLines([...curveLines(seen), ...written(drawn)])
}

const comparedPoints = 50

async function compare(seen: SeenCurves, o: CurveOptions): Promise<void> {
  refuseEnds(o)
  const points = o.points === undefined ? comparedPoints : countOf(o.points)
  const found = compareCurves(seen, { points, spacing: o.spacing })
  const drawn = await draw(drawCurves(seen, found), o)
  if (o.json === true) return printJson(curveComparisonDocument(seen, found, drawn))
  if (drawn.svg !== undefined) return void process.stdout.write(drawn.svg)
  printLines([...comparisonLines(seen, found), ...written(drawn)])
}

function refuseEnds(o: CurveOptions): void {
  if (o.from === undefined && o.to === undefined) return
  throw new FaultError({
    code: 'usage',
    problem: 'Curves are compared where all of them were read, and an end was given',
    mend: 'Leave out --from and --to, or --compare.',
  })
}

/** Prints or writes resampled curves as a table. */
function table(made: SeenCurves, grid: Grid, o: CurveOptions): void {
  const steps = grid.spacing === 'log' ? 'even steps of the logarithm' : 'even steps'
  const names = made.curves.map((c) => c.name).join(', ')
  const said = `Resampled from ${names}: ${grid.points} places, ${steps}; a monotone curve through the readings.`
  const csv = curvesCsv(made, [said.replaceAll(/\s+/g, ' ')])
  if (o.out === undefined) return void process.stdout.write(csv)
  writeOut(o.out, csv)
  if (o.json === true) printJson(curvesDocument(made, { file: o.out, grid }))
  else printLines([`${o.out} is written.`])
}

/** Writes a drawing where it is to go; the drawing itself where it is to be printed. */
async function draw(svg: string, o: CurveOptions): Promise<Drawn> {
  if (o.out !== undefined) {
    writeOut(o.out, await drawingBytes(svg, o.out, o.look))
    return { file: o.out }
  }
  return o.plot === undefined ? {} : { svg: Buffer.from(await drawingBytes(svg, 'x.svg', o.look)).toString() }
}

const written = ({ file }: Drawn): readonly string[] => (file === undefined ? [] : ['', `${file} is written.`])

const mostPoints = 100_000

function countOf(text: string): number {
  const count = Number(text)
  if (Number.isInteger(count) && count >= 2 && count <= mostPoints) return count
  throw badOption('--points', text, 'is no number of places', `Give a whole number from 2 to ${mostPoints}.`)
}

/** The grid that was asked for; its ends are values of what runs along the axis. */
function gridOf(seen: SeenCurves, o: CurveOptions): Grid {
  const along = [...new Set(seen.curves.flatMap((c) => c.sweeps.map((s) => s.x)))]
  const unit = along[0]!.startsWith('I') ? 'A' : 'V'
  if (along.length > 1 && (o.from !== undefined || o.to !== undefined))
    throw new FaultError({
      code: 'usage',
      problem: `The view ${seen.view} runs along ${along.join(' and ')}, so an end is not clear`,
      mend: 'Choose another view with --plot, or leave out --from and --to.',
    })
  return {
    points: countOf(o.points!),
    spacing: o.spacing,
    ...(o.from === undefined ? {} : { from: optionValue('--from', o.from, unit).value }),
    ...(o.to === undefined ? {} : { to: optionValue('--to', o.to, unit).value }),
  }
}
