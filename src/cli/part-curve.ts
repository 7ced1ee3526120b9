import { type Command, Option } from 'commander'
import {
  type Bench,
  type BookCurve,
  chosenCurves,
  curvesOfPart,
  type Drawn,
  drawCurves,
  drawingBytes,
  drawingKind,
  keepCurve,
  keptCurveCsv,
  onBench,
  partCurvesDocument,
  seenCurves,
} from '#bench'
import { type View, views } from '#core/curve'
import { FaultError } from '#core/fault'
import { fitKinds } from '#core/fit'
import { columnPairs, curveKind } from './curve-files.ts'
import { readInput } from './input.ts'
import { badOption, benchOptions, deviceTemperature, gather, timeOption, withOut } from './options.ts'
import { printJson, printLines } from './output.ts'
import { tableLines } from './table.ts'
import { writeOut } from './write-out.ts'

interface KeepOptions {
  readonly book?: string
  readonly json?: boolean
  readonly kind?: string
  readonly column?: readonly string[]
  readonly temperature?: string
  readonly taken?: string
  readonly note?: string
  readonly again?: boolean
}

interface ShowOptions {
  readonly book?: string
  readonly json?: boolean
  readonly number?: string
  readonly plot?: View
  readonly out?: string
  readonly csv?: boolean
}

/** The verbs of `germane part` that keep and show curves. */
export function defineCurves(verb: (name: string, description: string) => Command): void {
  verb('curve', 'Keep a curve of a part; a part that is not in the book yet is added.')
    .argument('<tag>', 'tag of the part')
    .argument('<file>', 'its curve as CSV; - reads standard input')
    .option('--kind <kind>', `what the part is: ${fitKinds.join(', ')} (default: by the names of the columns)`)
    .option('--column <header=symbol>', 'what a column with another header holds; may stand again', gather)
    .option('--temperature <temperature>', 'of the part during the sweep, such as 25')
    .option('--taken <time>', 'when it was taken, such as 2026-04-30 or 2026-04-30T18:00')
    .option('--note <note>', 'anything to remember')
    .option('--again', 'keep a file that was kept for this part before')
    .action(keep)
  const curves = verb('curves', 'List the curves of parts; draw the newest of each over each other.')
  withOut(curves, 'write the drawing (.svg, .png)', 'write')
    .argument('<tags...>', 'tags of the parts')
    .option('--number <number>', 'this curve, by the number it is listed with')
    .addOption(new Option('--plot <view>', 'how to look at them; without --out printed as SVG').choices(views))
    .option('--csv', 'print the newest curve as a table that reads again')
    .action(show)
}

async function keep(tag: string, file: string, o: KeepOptions): Promise<void> {
  const temperatureC =
    o.temperature === undefined ? undefined : deviceTemperature('--temperature', o.temperature, 'part')
  const input = {
    ...readInput(file),
    part: tag,
    columns: columnPairs(o.column),
    ...(o.kind === undefined ? {} : { kind: curveKind(o.kind) }),
    ...(temperatureC === undefined ? {} : { temperatureC }),
    ...(o.taken === undefined ? {} : { takenAt: timeOption('--taken', o.taken) }),
    ...(o.note === undefined ? {} : { note: o.note }),
    ...(o.again === undefined ? {} : { again: o.again }),
  }
  await onBench(benchOptions(o, true), async (bench) => {
    const kept = await keepCurve(bench, input)
    if (o.json === true) printJson(partCurvesDocument([kept]))
    else printLines([`${tag}: curve ${kept.id} is kept, ${kept.curve.points.length} rows of a ${kept.curve.kind}.`])
  })
}

async function show(tags: readonly string[], o: ShowOptions): Promise<void> {
  const number = numberOf(tags, o)
  if (o.out !== undefined) drawingKind(o.out)
  const isDrawn = o.plot !== undefined || o.out !== undefined
  await onBench(benchOptions(o, true), async (bench) => {
    const isChosen = isDrawn || o.csv === true || number !== undefined
    const kept = isChosen ? await chosenCurves(bench, tags, number) : await allCurves(bench, tags)
    if (o.csv === true) return void process.stdout.write(keptCurveCsv(kept[0]!))
    const drawn = isDrawn ? await draw(kept, o) : {}
    if (o.json === true) return printJson(partCurvesDocument(kept, drawn))
    if (drawn.svg !== undefined) return void process.stdout.write(drawn.svg)
    printLines([
      ...(kept.length === 0 ? noneLines(tags) : keptLines(kept)),
      ...(drawn.file === undefined ? [] : ['', `${drawn.file} is written.`]),
    ])
  })
}

async function allCurves(bench: Bench, tags: readonly string[]): Promise<readonly BookCurve[]> {
  const found: BookCurve[] = []
  for (const tag of tags) found.push(...(await curvesOfPart(bench, tag)))
  return found
}

/** Draws curves over each other, into the file that was named. */
async function draw(kept: readonly BookCurve[], o: ShowOptions): Promise<Drawn> {
  const seen = seenCurves(
    kept.map((k) => k.curve),
    o.plot,
  )
  const bytes = await drawingBytes(drawCurves(seen), o.out ?? 'drawing.svg')
  if (o.out === undefined) return { svg: Buffer.from(bytes).toString() }
  writeOut(o.out, bytes)
  return { file: o.out }
}

const noneLines = (tags: readonly string[]): readonly string[] => [
  `No curve of ${tags.join(', ')} is kept. Keep one with: germane part curve ${tags[0]} FILE`,
]

const keptLines = (kept: readonly BookCurve[]): readonly string[] =>
  tableLines(
    ['>curve', 'part', 'kind', '>rows', '>at', 'taken', 'file', 'note'],
    kept.map(({ id, curve, temperatureC, takenAt, file, note }) => [
      String(id),
      curve.name,
      curve.kind,
      String(curve.points.length),
      temperatureC === undefined ? '' : `${temperatureC} °C`,
      takenAt ?? '',
      file,
      note ?? '',
    ]),
  )

function numberOf(tags: readonly string[], o: ShowOptions): number | undefined {
  if ((o.number !== undefined || o.csv === true) && tags.length > 1)
    throw new FaultError({
      code: 'usage',
      problem: `${o.csv === true ? '--csv' : '--number'} is for one part, and ${tags.length} were named`,
      mend: 'Name one of them.',
    })
  if (o.number === undefined) return undefined
  const id = Number(o.number)
  if (Number.isSafeInteger(id) && id >= 1) return id
  throw badOption('--number', o.number, 'is no number of a curve', '"germane part curves TAG" shows the numbers.')
}
