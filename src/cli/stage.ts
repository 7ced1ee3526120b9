import type { Command } from 'commander'
import {
  drawingBytes,
  drawingKind,
  drawStage,
  onBench,
  positionFromText,
  rankStage,
  reBiasDocument,
  reBiasStage,
  seeStage,
  stageDocument,
  stageRankingDocument,
} from '#bench'
import { type ESeries, eSeriesNames } from '#core/resistor'
import { netlistExampleYaml, type PositionRead, positionFileSchema, stageExampleYaml, templates } from '#core/stage'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import {
  badOption,
  benchOptions,
  choiceOption,
  clashFault,
  namedInput,
  needsFault,
  withBook,
  withJson,
  withOut,
} from './options.ts'
import { printJson, printLines } from './output.ts'
import { rankingLines, reBiasLines } from './stage-drawer-lines.ts'
import { stageLines } from './stage-lines.ts'
import { tableLines } from './table.ts'
import { writeOut } from './write-out.ts'

interface StageOptions {
  readonly part?: string
  readonly type?: string
  readonly book?: string
  readonly count?: string
  readonly seed?: string
  readonly rank?: boolean
  readonly lot?: string
  readonly reBias?: boolean
  readonly series?: string
  readonly templates?: boolean
  readonly schema?: boolean
  readonly out?: string
  readonly json?: boolean
  readonly example?: string | boolean
}

export function define(command: Command): void {
  command.argument('[file]', 'position as YAML or JSON; - reads standard input')
  withOut(
    withBook(withJson(command)),
    'draw the stage with its values, voltages and currents at 25 °C (.svg, .png)',
    'drawing',
  )
    .option('--part <tag>', 'look at this part of the book in the place')
    .option('--type <type>', 'look at this published type; with --part, what the part is')
    .option('--count <stages>', 'stages of the spread, 0 for none (default: 500)')
    .option('--seed <number>', 'the same seed gives the same spread (default: 1)')
    .option('--rank', 'try every part of the book in the place, best first; with --type, those of the type')
    .option('--lot <lot>', 'with --rank, only parts of this lot')
    .option('--re-bias', 'find the least change of resistors for the part of --type or --part')
    .option(
      '--series <series>',
      `with --re-bias, the series of new resistors: ${eSeriesNames.join(', ')} (default: E24)`,
    )
    .option('--templates', 'list the stages there are, with their resistors')
    .option('--schema', 'print the JSON Schema of position files')
    .option('--example [form]', 'print a position that works; netlist: one with a circuit of its own')
    .action(stage)
}

async function stage(file: string | undefined, o: StageOptions): Promise<void> {
  if (o.example !== undefined) return writeExample(exampleOf(o.example), 'yaml', o)
  if (o.templates === true) return printTemplates(o)
  if (o.schema === true) return printJson(positionFileSchema())
  const { text, file: name } = namedInput(file, 'position')
  const read = positionFromText(text, name)
  if (o.rank === true && o.reBias === true) throw clashFault('--rank', '--re-bias')
  if (o.lot !== undefined && o.rank !== true) throw needsFault('--lot', '--rank')
  if (o.series !== undefined && o.reBias !== true) throw needsFault('--series', '--re-bias')
  refuseDrawing(o)
  if (o.rank === true) return rank(read, o)
  if (o.reBias === true) return reBias(read, o)
  const seen = await onBench(benchOptions(o, o.part !== undefined), (bench) => seeStage(bench, read, wishOf(o)))
  if (o.out !== undefined) writeOut(o.out, await drawingBytes(drawStage(seen), o.out))
  if (o.json === true) printJson(stageDocument(seen))
  else printLines([...stageLines(seen), ...(o.out === undefined ? [] : ['', `${o.out} is written.`])])
  if (seen.answer.verdict.word === 'will not') process.exitCode = exitCodes.notConforming
}

/** One drawing shows one part in its place; its name is looked at before anything is computed. */
function refuseDrawing({ out, rank: isRank, reBias: isReBias }: StageOptions): void {
  if (out === undefined) return
  if (isRank === true) throw clashFault('--rank', '--out')
  if (isReBias === true) throw clashFault('--re-bias', '--out')
  drawingKind(out)
}

/** A position that works, of the form that is asked for. */
function exampleOf(form: string | boolean): string {
  if (form === true) return stageExampleYaml
  return { template: stageExampleYaml, netlist: netlistExampleYaml }[
    choiceOption('--example', String(form), ['template', 'netlist'])
  ]
}

const wishOf = (o: StageOptions) => ({
  ...(o.part === undefined ? {} : { part: o.part }),
  ...(o.type === undefined ? {} : { type: o.type }),
  ...whole('--count', 'count', o.count, 100_000),
  ...whole('--seed', 'seed', o.seed, Number.MAX_SAFE_INTEGER),
})

async function rank(read: PositionRead, o: StageOptions): Promise<void> {
  if (o.part !== undefined) throw clashFault('--rank', '--part')
  const filter = { ...(o.lot === undefined ? {} : { lot: o.lot }), ...(o.type === undefined ? {} : { type: o.type }) }
  const ranking = await onBench(benchOptions(o, true), (bench) => rankStage(bench, read, filter))
  if (o.json === true) printJson(stageRankingDocument(read.position, ranking))
  else printLines(rankingLines(read.position, ranking))
}

async function reBias(read: PositionRead, o: StageOptions): Promise<void> {
  const series: ESeries = o.series === undefined ? 'E24' : choiceOption('--series', o.series, eSeriesNames)
  const done = await onBench(benchOptions(o, o.part !== undefined), (bench) =>
    reBiasStage(bench, read, wishOf(o), { series }),
  )
  if (o.json === true) printJson(reBiasDocument(done))
  else printLines(reBiasLines(done, series))
  if (done.result.changes === undefined) process.exitCode = exitCodes.notConforming
}

function whole(option: string, key: string, text: string | undefined, most: number): Readonly<Record<string, number>> {
  if (text === undefined) return {}
  const value = Number(text)
  if (text.trim() !== '' && Number.isInteger(value) && value >= 0 && value <= most) return { [key]: value }
  throw badOption(option, text, 'is not a whole number that can be used', `Write one from 0 to ${most}.`)
}

function printTemplates(o: StageOptions): void {
  if (o.json === true) printJson(templatesDocument())
  else printLines(templateLines())
}

const templatesDocument = () => ({
  format: 'germane/stage-templates/1',
  templates: templates.map(({ id, title, says, supplyV, resistors, thermistors, places }) => ({
    id,
    title,
    says,
    supply: supplyV,
    resistors: [...resistors, ...thermistors].map(({ ref, ohm, role, absent }) => ({
      ref,
      ohm,
      role,
      needed: absent === undefined,
    })),
    places: places.map(({ ref, kind, role, isOpposite = false }) => ({ ref, kind, role, opposite: isOpposite })),
  })),
})

const templateLines = (): readonly string[] =>
  tableLines(
    ['stage', 'resistors, [may be left out]', 'parts', 'what it is'],
    templates.map((t) => [
      t.id,
      [...t.resistors, ...t.thermistors].map((r) => (r.absent === undefined ? r.ref : `[${r.ref}]`)).join(' '),
      t.places.map((p) => p.ref).join(' '),
      t.title,
    ]),
  )
