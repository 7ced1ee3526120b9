import type { Command } from 'commander'
import { type Bench, onBench, upkeepOf } from '#bench'
import { FaultError } from '#core/fault'
import type { Tester } from '#core/tester'
import {
  cautionsFor,
  type Diagnosis,
  diagnose,
  diagnoseExample,
  type FoundValue,
  foundState,
  type Playbook,
  playbook,
  readSaw,
  type Sight,
  type Suspect,
  type TesterCheck,
  testerChecks,
  testerExposure,
} from '#core/upkeep'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import { readInput } from './input.ts'
import {
  badOption,
  benchOptions,
  chosenTester,
  clashFault,
  gather,
  withBook,
  withExample,
  withJson,
} from './options.ts'
import { printJson, printLines } from './output.ts'
import { block, cautionLines, percent } from './say.ts'
import { tableLines, wrapped } from './table.ts'

interface DiagnoseOptions {
  readonly saw?: readonly string[]
  readonly checks?: boolean
  readonly kept?: boolean
  readonly json?: boolean
  readonly book?: string
}

/** Adds `germane tester diagnose`. */
export function defineDiagnose(group: Command): void {
  const command = group
    .command('diagnose')
    .description('Find what is wrong with a needle tester from what it shows.')
    .argument('<tester>', 'id of a sample or of one in the book, or a description file')
    .argument('[file]', 'text with what was seen, a line each, as after --saw; - reads standard input')
  withBook(withJson(withExample(command, 'print lines that work', (o) => writeExample(diagnoseExample, 'text', o))))
    .option('--saw <where: what>', 'what was seen: "10 mA: none", "all: -8 %", "rest: +2 div"; may stand again', gather)
    .option('--kept', 'of the book: count its parts as found as well')
    .option('--checks', 'print what to look at, and what should be shown there')
    .action((tester: string, file: string | undefined, o: DiagnoseOptions) => find(tester, file, o))
}

async function find(named: string, file: string | undefined, o: DiagnoseOptions): Promise<void> {
  await onBench(benchOptions(o, o.kept === true), async (bench) => {
    const { tester } = chosenTester(bench, named)
    if (tester.movement === undefined)
      throw badOption(
        'tester',
        named,
        'has no needle movement',
        'Name a needle tester: the insides of others are not described.',
      )
    const cautions = cautionsFor(testerExposure(tester))
    if (o.checks === true) {
      if (file !== undefined || o.saw !== undefined) throw clashFault('--checks', 'what was seen')
      const checks = testerChecks(tester)
      if (o.json === true)
        return printJson({ format: 'germane/tester-checks/1', tester: tester.id, checks: checks.map(checkDocument) })
      return printLines([...checkLines(checks), ...cautionLines(cautions)])
    }
    const saw = readSaw(sightsOf(file, o), tester)
    const book = playbook(tester)
    const measured = o.kept === true ? await measuredOf(bench, tester) : []
    const found = diagnose(book, saw, measured)
    const counted = measured.map((m) => m.part.id)
    const document = documentOf(tester, saw, found, book)
    if (o.json === true) printJson({ ...document, ...(o.kept === true ? { counted } : {}), cautions })
    else
      printLines([
        ...diagnosisLines(tester, saw, found, book),
        ...(counted.length === 0 ? [] : ['', ...wrapped(`Counted as measured: ${counted.join(', ')}.`, '- ')]),
        ...cautionLines(cautions),
      ])
    if (found.isPoor) process.exitCode = exitCodes.notConforming
  })
}

/** Parts of the tester as the book keeps them. */
async function measuredOf(bench: Bench, tester: Tester): Promise<readonly FoundValue[]> {
  const { found } = await upkeepOf(bench, tester.id)
  return foundState(tester, found).values
}

/** What was seen, from the options and the file together; lines that begin with # are notes. */
function sightsOf(file: string | undefined, o: DiagnoseOptions): readonly string[] {
  const lines = file === undefined ? [] : readInput(file).text.split(/\r?\n/)
  const all = [...(o.saw ?? []), ...lines.map((l) => l.trim()).filter((l) => l !== '' && !l.startsWith('#'))]
  if (all.length > 0) return all
  throw new FaultError({
    code: 'usage',
    problem: 'Nothing is said of what was seen',
    mend: 'Add --saw "10 mA: none"; "--checks" lists where to look.',
  })
}

/** Suspects that are shown: those with some chance, and no more than a person can go through. */
const shown = { chance: 0.01, most: 10 } as const

const shownOf = (d: Diagnosis): readonly Suspect[] =>
  d.suspects.filter((s, i) => i === 0 || s.chance >= shown.chance).slice(0, shown.most)

const sayOf = (s: Suspect): string => s.fault.say(s.size)

const checkDocument = ({ id, say, seen, u }: TesterCheck) => ({ check: id, say, seen, u })

const documentOf = (t: Tester, saw: readonly Sight[], d: Diagnosis, book: Playbook) => ({
  format: 'germane/diagnosis/1',
  tester: t.id,
  saw: saw.map((s) => ({ check: s.check.id, seen: s.seen })),
  suspects: shownOf(d).map((s) => ({
    fault: s.fault.id,
    say: sayOf(s),
    place: s.place,
    chance: s.chance,
    shows: s.shows.map((x) => ({ check: x.check.id, value: x.value, unsteady: x.isLoose })),
  })),
  sound: d.sound,
  poor: d.isPoor,
  ...(d.next && {
    next: {
      ...checkDocument(d.next.check),
      shows: d.next.shows.map(({ fault, value, isLoose }) => ({ fault: fault.id, value, unsteady: isLoose })),
    },
  }),
  hidden: book.hidden.map((f) => f.id),
})

const valueText = (c: TesterCheck, value: number): string => {
  if (c.seen === 'divisions') return `${value > 0 ? '+' : ''}${Number(value.toFixed(1))} div`
  if (value >= c.stopAt) return 'pegged'
  return value < 0.05 ? 'none' : Math.abs(value - 1) < 5e-4 ? 'right' : `${value > 1 ? '+' : ''}${percent(value - 1)}`
}

const seenText = ({ check, seen }: Sight): string => (typeof seen === 'number' ? valueText(check, seen) : seen)

const checkLines = (checks: readonly TesterCheck[]): readonly string[] =>
  checks.flatMap((c) => wrapped(`${c.id}: ${c.say}`, '- '))

function diagnosisLines(t: Tester, saw: readonly Sight[], d: Diagnosis, book: Playbook): readonly string[] {
  const all = shownOf(d)
  const isTie = (s: Suspect): boolean => d.suspects.filter((other) => other.place === s.place).length > 1
  return [
    ...wrapped(`${t.name}. Seen: ${saw.map((s) => `${s.check.id} ${seenText(s)}`).join(', ')}.`),
    '',
    ...tableLines(
      ['>place', '>chance', 'what may be wrong'],
      all.map((s) => [isTie(s) ? `${s.place} tie` : `${s.place}`, percent(s.chance), sayOf(s)]),
    ),
    '',
    ...conclusions(d, book).flatMap((line) => wrapped(line, '- ')),
    ...block('Next', nextLines(d)),
  ]
}

function conclusions(d: Diagnosis, book: Playbook): readonly string[] {
  const tied = d.suspects.filter((s) => s.place === 1).length
  return [
    ...(d.isPoor
      ? ['No single fault shows all this: look again, or there are two, or one that no description holds.']
      : []),
    ...(d.sound > soundBeyond ? ['A sound tester may show this too: nothing speaks clearly for a fault.'] : []),
    ...(tied > 1 ? [`The first ${tied} are a tie: what was seen cannot tell them apart.`] : []),
    'Chances are among single faults, each as likely as the next before anything was seen.',
    ...(book.hidden.length === 0
      ? []
      : [`These show at no check and must be measured: ${book.hidden.map((f) => f.id).join(', ')}.`]),
  ]
}

/** A sound tester is worth a word where it reproduces what was seen at least so well, beside the best suspect. */
const soundBeyond = 0.3

function nextLines({ next }: Diagnosis): readonly string[] {
  if (next === undefined) return []
  const would = new Map<string, string[]>()
  for (const { fault, value, isLoose } of next.shows) {
    const text = `${valueText(next.check, value)}${isLoose ? ', unsteady' : ''}`
    would.set(text, [...(would.get(text) ?? []), fault.id])
  }
  return [
    ...wrapped(`Look at ${next.check.id}. ${next.check.say}`, '  '),
    ...[...would].flatMap(([text, faults]) => wrapped(`${text}: ${faults.join(', ')}`, '  - ')),
  ]
}
