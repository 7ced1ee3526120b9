import type { Command } from 'commander'
import { type Bench, changePart, isUnknown, mendReading, onBench, partStory, partsOf, verdictsDocument } from '#bench'
import { findType } from '#core/device'
import { writeExample } from './example.ts'
import { badOption, benchOptions, withBook, withJson, withVerbs } from './options.ts'
import { printJson, printLines } from './output.ts'
import { defineCurves } from './part-curve.ts'
import { doubtLines, parameterLines, verdictLines, verdictReasons, workingLines } from './say.ts'
import { tableLines, wrapped } from './table.ts'

interface PartOptions {
  readonly book?: string
  readonly json?: boolean
  readonly lot?: string
  readonly place?: string
  readonly note?: string
  readonly status?: string
  readonly type?: string
  readonly working?: boolean
}

const tag = 'tag of the part'

const commandsExample = `germane demo --book demo.germane
germane part show OP-4 --book demo.germane
`

export function define(command: Command): void {
  withVerbs(command, 'print commands that work on the demo book', (o) => writeExample(commandsExample, 'text', o))
  const verb = (name: string, description: string): Command =>
    withJson(withBook(command.command(name).description(description)))
  verb('list', 'List the parts of a book.').option('--lot <lot>', 'only this lot').action(list)
  verb('show', 'Show a part: readings, parameters, verdicts, changes.')
    .argument('<tag>', tag)
    .option('--working', 'show the working of each number')
    .action(show)
  verb('edit', 'Change what is said of a part; what was said before is kept.')
    .argument('<tag>', tag)
    .option('--place <place>', 'drawer, bag, board')
    .option('--note <note>', 'anything to remember')
    .option('--lot <lot>', 'lot it belongs to')
    .option('--type <type>', 'part type')
    .option('--status <status>', 'kept, good, doubtful, bad, used, given away or scrapped')
    .option('--used-in <where>', 'where it is used now')
    .action(edit)
  verb('correct', 'Correct a reading by its number; the old one stays in the book.')
    .argument('<reading>', 'its number, as "germane part show" prints it')
    .argument('<shown>', 'what was shown: "7.3 div", "12.5 uA", 118')
    .action(correct)
  defineCurves(verb)
}

async function list(o: PartOptions): Promise<void> {
  await onBench(benchOptions(o, true), async (bench) => {
    const found = await partsOf(bench, o.lot === undefined ? {} : { lot: o.lot })
    if (o.json === true) return printJson({ format: 'germane/parts/1', parts: found })
    printLines([
      ...tableLines(
        ['tag', 'type', 'lot', 'place', 'status', 'note'],
        found.map((p) => [p.tag, p.type ?? '', p.lot ?? '', p.place ?? '', p.status, p.note ?? '']),
      ),
      '',
      `${found.length} ${found.length === 1 ? 'part' : 'parts'}.`,
    ])
  })
}

async function show(tag: string, o: PartOptions): Promise<void> {
  await onBench(benchOptions(o, true), async (bench) => {
    const story = await partStory(bench, tag)
    const kept = story.kept.at(-1)?.judged
    if (o.json === true)
      return printJson({
        format: 'germane/part/1',
        part: story.part,
        edits: story.edits,
        readings: story.readings,
        results: kept === undefined ? null : verdictsDocument(kept),
      })
    const { part } = story
    const rows = story.readings.map((r) => [
      String(r.id),
      r.reading.reads,
      r.reading.seen,
      r.reading.range ?? '',
      r.reading.at ?? r.enteredAt,
      r.replaces === undefined ? '' : `corrects ${r.replaces}`,
    ])
    printLines([
      [part.tag, part.type, part.lot, part.place, part.status].filter((x) => x !== undefined).join(', '),
      ...(part.note === undefined ? [] : [part.note]),
      '',
      ...tableLines(['>reading', 'reads', '>shown', 'range', 'at', ''], rows),
      ...(kept === undefined
        ? []
        : [
            '',
            ...parameterLines(kept),
            '',
            ...verdictLines(kept),
            '',
            ...verdictReasons(kept),
            ...doubtLines(kept),
            ...(o.working === true ? ['', ...workingLines(kept)] : []),
          ]),
      ...story.edits.map((e) => `${e.at}: ${e.field} was ${e.old ?? 'empty'}, is ${e.new ?? 'empty'}`),
    ])
  })
}

async function edit(tag: string, o: PartOptions): Promise<void> {
  await onBench(benchOptions(o, true), async (bench) => {
    const part = await changePart(bench, tag, { ...o })
    if (o.json === true) printJson({ format: 'germane/parts/1', parts: [part] })
    else printLines([`${part.tag}: changed.`, ...unknownTypeLines(bench, o.type)])
  })
}

/** What follows where a part is said to be of a type there is no record of. */
function unknownTypeLines({ types }: Bench, type: string | undefined): readonly string[] {
  if (type === undefined || type === '' || isUnknown(type)) return []
  const { found, near } = findType(types, type)
  if (found !== undefined) return []
  const guess = near.length === 0 ? '' : ` Near it: ${near.join(', ')}.`
  return wrapped(`No record of a part type called ${type}: it is measured but not judged.${guess}`)
}

async function correct(reading: string, shown: string, o: PartOptions): Promise<void> {
  const id = Number(reading)
  if (!Number.isSafeInteger(id) || id < 1)
    throw badOption('reading', reading, 'is no number of a reading', '"germane part show TAG" shows the numbers.')
  await onBench(benchOptions(o, true), async (bench) => {
    const mended = await mendReading(bench, id, shown)
    if (o.json === true) printJson({ format: 'germane/correction/1', ...mended })
    else printLines([`${mended.kept.reading.part}: ${mended.echo}. The old reading stays in the book.`])
  })
}
