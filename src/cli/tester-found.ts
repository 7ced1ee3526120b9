import { type Command, Option } from 'commander'
import { type Bench, type KnownTester, keepFound, onBench, upkeepOf } from '#bench'
import { FaultError } from '#core/fault'
import { printMeasured, printPlain } from '#core/quantity'
import { combinationText, type ESeries, eSeriesNames } from '#core/resistor'
import type { Tester } from '#core/tester'
import {
  asFound,
  cautionsFor,
  type Found,
  type FoundPart,
  type FoundRange,
  type FoundValue,
  foundDefaults,
  foundExampleCsv,
  foundSheet,
  foundState,
  keptValues,
  type Mend,
  type Resistances,
  readFound,
  shouldBe,
  type TesterPart,
  testerExposure,
} from '#core/upkeep'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import {
  badOption,
  benchOptions,
  choiceOption,
  chosenTester,
  clashFault,
  dateOption,
  namedInput,
  partOption,
  withBook,
  withExample,
  withJson,
} from './options.ts'
import { printJson, printLines } from './output.ts'
import { block, cautionLines, percent, verdictText } from './say.ts'
import { tableLines, wrapped } from './table.ts'

interface FoundVerbOptions {
  readonly sheet?: boolean
  readonly series?: string
  readonly tolerance?: string
  readonly sure?: string
  readonly keep?: boolean
  readonly kept?: boolean
  readonly date?: string
  readonly note?: string
  readonly json?: boolean
  readonly book?: string
}

/** Adds `germane tester found`. */
export function defineFound(group: Command): void {
  const command = group
    .command('found')
    .description('Judge the parts of a tester as found, say what they do to its ranges, and what mends them.')
    .argument('<tester>', 'id of a sample or of one in the book, or a description file')
    .argument('[file]', 'CSV with part, measured and accuracy; - reads standard input')
  withBook(
    withJson(
      withExample(command, 'print a sheet filled in for the Larkfield sample', (o) =>
        writeExample(foundExampleCsv, 'csv', o),
      ),
    ),
  )
    .option('--sheet', 'print the empty sheet of the tester: every part, and what it should be')
    .addOption(
      new Option('--series <series>', `series of the resistors at hand: ${eSeriesNames.join(', ')}`).default('E24'),
    )
    .option('--tolerance <part>', 'limit of error of the resistors at hand (default: 1 %)')
    .option('--sure <part>', 'how sure a verdict must be (default: 95 %)')
    .option('--keep', 'keep what was measured in the book')
    .option('--kept', 'of the book: judge what it keeps, the newest value of each part')
    .option('--date <date>', 'day of the measuring, such as 2024-05-12 (default: today); with --kept up to that day')
    .option('--note <text>', 'anything worth knowing, kept with it')
    .action((tester: string, file: string | undefined, o: FoundVerbOptions) => found(tester, file, o))
}

async function found(named: string, file: string | undefined, o: FoundVerbOptions): Promise<void> {
  const options = { ...benchOptions(o, o.keep === true || o.kept === true), create: o.keep === true }
  await onBench(options, async (bench) => {
    const known = chosenTester(bench, named)
    const { tester } = known
    if (o.sheet === true) return printEmptySheet(tester, file, o)
    const series = choiceOption('--series', o.series ?? foundDefaults.series, eSeriesNames)
    const tolerance = o.tolerance === undefined ? foundDefaults.tolerance : partOption('--tolerance', o.tolerance)
    const measured = await measuredOf(bench, tester, file, o)
    const done = asFound(tester, measured.values, { series, tolerance, probability: sureOf(o.sure) })
    const cautions = cautionsFor(testerExposure(tester))
    const kept = o.keep === true ? await keep(bench, known, measured.values, o) : undefined
    const document = { format: 'germane/found/1', tester: tester.id, series, tolerance, ...documentOf(done), cautions }
    if (o.json === true) printJson({ ...document, ...(kept === undefined ? {} : { record: kept.id }) })
    else
      printLines([
        ...foundLines(tester, done, series),
        ...measured.notes.flatMap((n) => ['', ...wrapped(n, '- ')]),
        ...cautionLines(cautions),
        ...(kept === undefined ? [] : ['', `The book keeps it as record ${kept.id} of ${tester.name}.`]),
      ])
    if (done.parts.some((p) => p.word === 'does not conform')) process.exitCode = exitCodes.notConforming
  })
}

/** What was measured, of the file or of the book, and where it comes from. */
interface Measured {
  readonly values: readonly FoundValue[]
  readonly notes: readonly string[]
}

async function measuredOf(
  bench: Bench,
  tester: Tester,
  file: string | undefined,
  o: FoundVerbOptions,
): Promise<Measured> {
  if (o.kept !== true) {
    const { text, file: name } = namedInput(file, 'sheet')
    return { values: readFound(text, name, tester), notes: [] }
  }
  if (file !== undefined) throw clashFault('A file', '--kept')
  if (o.keep === true) throw clashFault('--keep', '--kept')
  const on = o.date === undefined ? undefined : dateOption('--date', o.date)
  const { found } = await upkeepOf(bench, tester.id)
  const { values, unknown } = foundState(tester, found, on)
  if (values.length === 0)
    throw new FaultError({
      code: 'not-found',
      what: 'record of its parts in the book',
      name: tester.name,
      near: [],
      mend: 'Keep one with --keep.',
    })
  const days = [...new Set(values.map((v) => v.day))].sort()
  return {
    values,
    notes: [
      `Measured on ${days.join(', ')}; of each part the newest value counts.`,
      ...(unknown.length === 0 ? [] : [`No part of it as it is described now, and left out: ${unknown.join(', ')}.`]),
    ],
  }
}

const keep = (bench: Bench, known: KnownTester, values: readonly FoundValue[], o: FoundVerbOptions) =>
  keepFound(bench, known, {
    day: o.date === undefined ? bench.now().slice(0, 10) : dateOption('--date', o.date),
    ...(o.note === undefined ? {} : { note: o.note }),
    parts: keptValues(values),
  })

function printEmptySheet(tester: Tester, file: string | undefined, o: FoundVerbOptions): void {
  if (file !== undefined) throw clashFault('A file', '--sheet')
  if (o.json === true) throw clashFault('--json', '--sheet')
  process.stdout.write(foundSheet(tester))
}

function sureOf(text: string | undefined): number {
  if (text === undefined) return foundDefaults.probability
  const sure = partOption('--sure', text)
  if (sure >= 0.5 && sure < 1) return sure
  throw badOption('--sure', text, 'is no such probability', 'Give one from 50 % to below 100 %.')
}

const partDocument = (p: TesterPart) => ({
  part: p.id,
  kind: p.kind,
  unit: p.unit,
  ...(p.nominal === undefined ? {} : { nominal: p.nominal }),
  allowed: p.allowed,
})

const mendDocument = ({ say, take, place, after }: Mend) => ({
  say,
  ...(take && { take, place }),
  ...(after && { after: after.value, afterU: after.u }),
})

const documentOf = (f: Found) => ({
  parts: f.parts.map((p) => ({
    ...partDocument(p.part),
    value: p.value,
    u: p.u,
    accepted: p.accepted,
    inside: p.inside,
    verdict: p.word,
    effects: p.effects,
    ...(p.mend && { mend: mendDocument(p.mend) }),
  })),
  unmeasured: f.unmeasured.map(partDocument),
  ranges: f.ranges.map((r) => ({ range: r.range.id, before: r.before, after: r.after })),
  resistances: f.resistances.map(({ range, ...r }) => ({ range: range.id, ...r })),
})

function foundLines(t: Tester, f: Found, series: ESeries): readonly string[] {
  const count = (word: FoundPart['word']): number => f.parts.filter((p) => p.word === word).length
  const moving = f.parts.filter((p) => p.word !== 'conforms' || Math.abs(p.effects[0]?.error ?? 0) >= worthSaying)
  return [
    `${t.name}, as found: ${count('conforms')} of ${f.parts.length} parts conform, ${count('does not conform')} do not, ${count('undecided')} undecided.`,
    '',
    ...tableLines(['part', '>found', 'should be', 'verdict', '>inside', '>most on', ''], f.parts.map(partRow)),
    ...block('What it does to the ranges', moving.flatMap(effectLines)),
    ...block(
      'Mends',
      f.parts.flatMap((p) => (p.mend === undefined ? [] : mendLines(p, p.mend, series))),
    ),
    ...(f.ranges.length === 0
      ? []
      : ['', ...tableLines(['at full scale', '>as found', '>doubt', '>mended', '>doubt'], f.ranges.map(rangeRow))]),
    ...(f.resistances.length === 0
      ? []
      : [
          '',
          ...tableLines(
            ['contacts and leads', '>contact now', '>each 1 mohm more', '>leads lose'],
            f.resistances.map(resistanceRow),
          ),
        ]),
    ...remarks(f),
  ]
}

/** An effect of a part that conforms is listed from here on, as a part of full scale. */
const worthSaying = 1e-3

const signed = (part: number): string => (part > 0 ? `+${percent(part)}` : percent(part))

function partRow(p: FoundPart): readonly string[] {
  const [worst] = p.effects
  return [
    p.part.id,
    printMeasured(p.value, p.u, p.part.unit),
    shouldBe(p.part),
    verdictText(p.word),
    p.inside > 0.999 ? '>99.9 %' : p.inside < 0.001 ? '<0.1 %' : percent(p.inside),
    worst === undefined ? '' : signed(worst.error),
    worst === undefined ? '' : worst.range,
  ]
}

function effectLines({ part, effects }: FoundPart): readonly string[] {
  if (effects.length === 0) return wrapped(`${part.id}: moves no reading.`, '  ')
  const shown = effects.slice(0, 4).map((e) => `${e.range} ${signed(e.error)}`)
  const more = effects.length > 4 ? `, and less on ${effects.length - 4} more` : ''
  return wrapped(`${part.id}: ${shown.join(', ')}${more}.`, '  ')
}

function mendLines({ part }: FoundPart, m: Mend, series: ESeries): readonly string[] {
  const with_ = m.take === undefined ? '' : ` ${combinationText(m.take)}, ${series}.`
  const after = m.after === undefined ? '' : ` Then it has ${printMeasured(m.after.value, m.after.u, part.unit)}.`
  return wrapped(`${part.id}: ${m.say}${with_}${after}`, '  ')
}

const rangeRow = ({ range, before, after }: FoundRange): readonly string[] => [
  range.id,
  signed(before.error),
  `± ${percent(before.expanded)}`,
  signed(after.error),
  `± ${percent(after.expanded)}`,
]

const resistanceRow = ({ range, byContact, perMilliohm, leadV }: Resistances): readonly string[] => [
  range.id,
  byContact === undefined ? '' : signed(byContact),
  perMilliohm === undefined ? '' : signed(perMilliohm),
  leadV === undefined ? '' : printPlain(leadV, 'V', { digits: 2 }),
]

function remarks({ parts, unmeasured }: Found): readonly string[] {
  const taken = parts.filter((p) => p.u === 0).map((p) => p.part.id)
  const left = unmeasured.map((p) => p.id)
  return [
    ...(taken.length === 0
      ? []
      : [
          '',
          ...wrapped(`No accuracy of the meter is given, and the value taken as exact: ${taken.join(', ')}.`, '- '),
        ]),
    ...(left.length === 0
      ? []
      : ['', ...wrapped(`Not measured, and counted with its tolerance: ${left.join(', ')}.`, '- ')]),
  ]
}
