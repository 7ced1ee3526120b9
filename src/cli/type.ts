import type { Command } from 'commander'
import { keepType, markAvailability, onBench, typeNamed } from '#bench'
import {
  contradictionsIn,
  explainTypeNumber,
  leadOrderDoubt,
  type Material,
  type PartType,
  type Polarity,
  partTypeExample,
  partTypeSchema,
  provenanceText,
  readPartTypes,
  searchTypes,
} from '#core/device'
import { printPlain, type Unit } from '#core/quantity'
import { availabilityWords } from '#core/standin'
import { writeExample } from './example.ts'
import { readInput } from './input.ts'
import {
  badOption,
  benchOptions,
  bookWords,
  choiceOption,
  materialNamed,
  outlineNamed,
  withBook,
  withJson,
  withVerbs,
} from './options.ts'
import { printJson, printLines } from './output.ts'
import { conditionsText, limitText } from './say.ts'
import { tableLines, wrapped } from './table.ts'

interface TypeOptions {
  readonly book?: string
  readonly json?: boolean
  readonly polarity?: string
  readonly material?: string
  readonly outline?: string
}

const types = 'part types, YAML or JSON; - reads standard input'

export function define(command: Command): void {
  withVerbs(command, 'print a file of part types that works', (o) => writeExample(partTypeExample, 'yaml', o))
  const verb = (name: string, description: string): Command =>
    withJson(withBook(command.command(name).description(description)))
  verb('find', 'Find part types by number, use, outline.')
    .argument('[text]', 'part of a number, or words; all types where left out')
    .option('--polarity <polarity>', 'NPN or PNP; N or P for the channel of a field-effect transistor')
    .option('--material <material>', 'Ge, Si or GaAs')
    .option('--outline <outline>', 'case outline, such as TO-5')
    .action(find)
  verb('show', 'Show a part type: ratings, limits at their conditions, where they come from.')
    .argument('<type>', 'type number')
    .action(show)
  withJson(command.command('explain').description('Say what a type number tells and what it does not.'))
    .argument('<number>', 'type number as it stands on the part')
    .action(explainNumber)
  withJson(command.command('check').description('Check a file of part types.')).argument('<file>', types).action(check)
  verb('add', 'Put part types into the book; they go before those of the catalog.')
    .argument('<file>', types)
    .action(add)
  verb('mark', 'Mark how well a type can be had; stand-ins show it.')
    .argument('<type>', 'type number')
    .argument('<how>', `${availabilityWords.join(', ')}; none takes the mark away`)
    .action(mark)
  withJson(command.command('schema').description('Print the JSON Schema of part-type files.')).action(() =>
    printJson(partTypeSchema()),
  )
}

const polarities: readonly Polarity[] = ['NPN', 'PNP', 'N', 'P']
const materials: readonly Material[] = ['Ge', 'Si', 'GaAs']

async function find(text: string | undefined, o: TypeOptions): Promise<void> {
  const query = {
    ...(text === undefined ? {} : { text }),
    ...(o.polarity === undefined ? {} : { polarity: choiceOption('--polarity', o.polarity, polarities) }),
    ...(o.material === undefined ? {} : { material: choiceOption('--material', materialNamed(o.material), materials) }),
    ...(o.outline === undefined ? {} : { outline: outlineNamed(o.outline) }),
  }
  await onBench(benchOptions(o), ({ types }) => {
    const found = searchTypes(types, query)
    if (o.json === true) return printJson({ format: 'germane/types/1', types: found })
    printLines([
      ...tableLines(
        ['type', 'kind', 'material', 'outline', 'use'],
        found.map((t) => [t.type, t.polarity ?? t.family, t.material ?? '', t.outline ?? '', t.use ?? '']),
      ),
      '',
      found.length === 0
        ? `None of ${types.length} part types fits. Write less of the number, or leave an option out.`
        : `${found.length} of ${types.length} part types.`,
    ])
  })
}

async function show(name: string, o: TypeOptions): Promise<void> {
  await onBench(benchOptions(o), (bench) => {
    const type = typeNamed(bench, name)
    if (o.json === true) printJson({ format: 'germane/types/1', types: [type] })
    else printLines(typeLines(type))
  })
}

async function mark(name: string, how: string, o: TypeOptions): Promise<void> {
  const word = choiceOption('how', how, [...availabilityWords, 'none'] as const)
  const availability = word === 'none' ? undefined : word
  await onBench(benchOptions(o, true), async (bench) => {
    const { type } = await markAvailability(bench, name, availability)
    if (o.json === true) printJson({ format: 'germane/availability/1', type, ...(availability && { availability }) })
    else printLines([availability === undefined ? `${type} has no mark.` : `${type} is marked as ${availability}.`])
  })
}

function explainNumber(number: string, o: TypeOptions): void {
  if (number.trim() === '') throw badOption('number', number, 'is empty', 'Write a type number, such as AC128.')
  const readings = explainTypeNumber(number)
  if (o.json === true) printJson({ format: 'germane/type-number/1', number, readings })
  else printLines(numberLines(number, readings))
}

function numberLines(number: string, readings: ReturnType<typeof explainTypeNumber>): readonly string[] {
  if (readings.length === 0)
    return [`${number} follows no scheme known here; it may be a maker's or an equipment maker's own number.`]
  return readings.flatMap((r) => [
    `${number} read as ${r.name}${r.sure ? '' : ' (perhaps)'}`,
    ...r.says.flatMap((s) => wrapped(s, '  says: ')),
    ...r.doesNotSay.flatMap((s) => wrapped(s, '  does not say: ')),
    ...wrapped(r.source, '  source: '),
    '',
  ])
}

function check(path: string, o: TypeOptions): void {
  const { text, file } = readInput(path)
  const types = readPartTypes(text, { file })
  const doubts = types.map(doubtsOf)
  if (o.json === true) printJson({ format: 'germane/check/1', file, ok: true, types, doubts: doubts.flat() })
  else
    printLines([
      `${file}: ${types.length === 1 ? 'a good part type' : `${types.length} good part types`}.`,
      '',
      ...types.flatMap((t, n) => [...typeLines(t), ...doubtLines(doubts[n]!)]),
    ])
}

/** What a record says against itself. */
const doubtsOf = (t: PartType) => contradictionsIn(t).map((says) => ({ type: t.type, says }))

const doubtLines = (doubts: ReturnType<typeof doubtsOf>): readonly string[] =>
  doubts.length === 0
    ? []
    : [
        ...wrapped(`${doubts[0]!.type} says against itself (look at the sheet again):`, '  '),
        ...doubts.flatMap((d) => wrapped(d.says, '  - ')),
        '',
      ]

async function add(path: string, o: TypeOptions): Promise<void> {
  const { text, file } = readInput(path)
  const types = readPartTypes(text, { file })
  const options = benchOptions(o, true)
  const book = bookWords(options)
  await onBench({ ...options, create: true }, async (bench) => {
    const saved = []
    for (const t of types) saved.push({ type: t.type, ...(await keepType(bench, t)) })
    if (o.json === true) printJson({ format: 'germane/saved/1', types: saved })
    else
      printLines([
        ...saved.map((s) => `${s.type} is in ${book} as version ${s.version}${s.isNew ? '' : ', unchanged'}.`),
        ...types.flatMap((t) => doubtLines(doubtsOf(t))),
      ])
  })
}

const ratingUnit = (symbol: string): Unit =>
  symbol.startsWith('V')
    ? 'V'
    : symbol.startsWith('I')
      ? 'A'
      : symbol.startsWith('R')
        ? 'K/W'
        : symbol.startsWith('T')
          ? 'degC'
          : '1'

/** A part type for people: each limit at its condition, and where the record comes from. */
export function typeLines(t: PartType): readonly string[] {
  const doubt = leadOrderDoubt(t)
  const { power, other, ...plain } = t.ratings
  const ratings = [
    ...Object.entries(plain).map(([s, v]) => `${s} ${printPlain(v as number, ratingUnit(s), { digits: 4 })}`),
    ...power.map((p) => `P_tot ${printPlain(p.powerW, 'W', { digits: 4 })} at ${p.of} ${p.atC} °C`),
    ...Object.entries(other ?? {}).map(([s, v]) => `${s} ${v}`),
  ]
  return [
    [t.type, t.material, t.polarity ?? t.family, t.construction, t.outline].filter((x) => x !== undefined).join(', '),
    ...(t.use === undefined ? [] : wrapped(t.use, '  use: ')),
    ...wrapped(ratings.join(', '), '  ratings: '),
    ...(t.leads === undefined ? [] : wrapped(`${t.leads.order}, ${t.leads.view}`, '  leads: ')),
    ...(doubt === undefined ? [] : wrapped(doubt, '  leads: ')),
    ...(t.trouble === undefined ? [] : wrapped(t.trouble, '  known trouble: ')),
    ...wrapped(provenanceText(t.provenance), '  source: '),
    ...(t.provenance.note === undefined ? [] : wrapped(t.provenance.note, '  note: ')),
    ...limitLines(t.limits),
    '',
  ]
}

function limitLines(limits: PartType['limits']): readonly string[] {
  if (limits.length === 0) return ['  No limits are known for it.']
  const rows = limits.map((l) => [
    l.symbol,
    l.min === undefined && l.max === undefined ? '' : limitText(l),
    l.typ === undefined ? '' : printPlain(l.typ, l.unit as Unit, { digits: 4 }),
    conditionsText(l.at),
  ])
  return ['', ...tableLines(['parameter', '>limit', '>typical', 'at'], rows)]
}
