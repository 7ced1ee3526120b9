import { existsSync, statSync } from 'node:fs'
import { type Command, CommanderError, Option } from 'commander'
import { type Bench, type BenchOptions, type KnownTester, testerFromText, testerNamed } from '#bench'
import { FaultError } from '#core/fault'
import { dayOf } from '#core/numeric'
import { parseValue, type Unit } from '#core/quantity'
import type { ExampleOptions } from './example.ts'
import { type InputText, readInput } from './input.ts'
import { notAmong } from './words.ts'

/** Options many verbs take, declared once so that they read the same everywhere. */
export const withJson = (c: Command): Command => c.option('--json', 'print one JSON document on stdout')

export const withTester = (c: Command): Command =>
  c.option('--tester <tester>', 'description file of the tester, or the id of a sample or of one in the book')

export const withType = (c: Command): Command =>
  c.option('--type <type>', 'part type, where the readings do not say it; "unknown" for an unmarked part')

export const withAmbient = (c: Command): Command =>
  c.option('--ambient <temperature>', 'temperature at the bench, with its doubt if you know it: "21 C", "21 +- 2 C"')

export const withBook = (c: Command): Command =>
  c.option('--book <file>', 'the book to use (default: $GERMANE_BOOK, else bench.germane)')

/** Examples of verbs that have one of their own beside that of their group. */
const ownExamples = new WeakMap<Command, PrintExample>()

type PrintExample = (o: ExampleOptions) => void

/** Gives a verb of a group an example of its own: `germane tester compare --example`. */
export function withExample(command: Command, description: string, example: PrintExample): Command {
  ownExamples.set(command, example)
  return command.option('--example', description)
}

/**
 * Makes a command one of several verbs, `germane tester show`; by itself it prints its help, and anywhere its example.
 * Options of the group are its own wherever they stand on the line, so that `--json` is handed on.
 */
export function withVerbs(command: Command, description: string, example: PrintExample): Command {
  return command
    .configureHelp({ subcommandTerm: (verb) => verb.name() })
    .option('--json', 'print one JSON document on stdout')
    .option('--example', description)
    .addHelpText('after', `\n"germane ${command.name()} VERB --help" shows what a verb takes.`)
    .hook('preSubcommand', (group, verb) => {
      const o = group.opts<VerbsOptions>()
      if (o.json === true) verb.setOptionValue('json', true)
      if (o.example !== true) return
      const print = ownExamples.get(verb) ?? example
      print(o)
      throw new CommanderError(0, 'germane.example', 'The example is printed.')
    })
    .action((o: VerbsOptions) => {
      if (o.example === true) return example(o)
      if (o.json !== true) return command.outputHelp()
      const verbs = command.commands.map((c) => c.name()).join(', ')
      throw new FaultError({
        code: 'usage',
        problem: `No verb of ${command.name()} was named`,
        mend: `Name one: ${verbs}.`,
      })
    })
}

interface VerbsOptions extends ExampleOptions {
  readonly example?: boolean
}

/** What a bench needs: the book where one was named, and the time. */
export function benchOptions(o: { readonly book?: string }, needsBook = false): BenchOptions {
  const named = o.book ?? process.env.GERMANE_BOOK
  const file = named ?? (needsBook ? 'bench.germane' : undefined)
  const now = (): string => new Date().toISOString()
  return file === undefined ? { now } : { bookFile: file, now }
}

/** The book that is used, with a word where there was none of that name: a slip of the hand makes a book as well. */
export const bookWords = ({ bookFile }: BenchOptions): string =>
  bookFile === undefined || existsSync(bookFile) ? String(bookFile) : `${bookFile} (a new book)`

/** The tester named by `--tester`: a file where there is one of that name, else a known id. */
export function chosenTester(bench: Bench, named: string | undefined): KnownTester {
  if (named === undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'No tester was named',
      mend: 'Add --tester with a description file or an id; "germane tester list" shows the samples.',
    })
  if (isFile(named, bench)) {
    const { text, file } = readInput(named)
    return testerFromText(text, file)
  }
  return testerNamed(bench, named)
}

/** Whether a name is that of a description file: standard input, a name that ends as one, or a file that is there. */
export const isTesterFile = (named: string): boolean =>
  looksLikeFile(named) || statSync(named, { throwIfNoEntry: false })?.isFile() === true

const looksLikeFile = (named: string): boolean => named === '-' || /\.(ya?ml|json)$/i.test(named)

/** A folder that happens to have the name of a tester does not stand in its way. */
function isFile(named: string, bench: Bench): boolean {
  if (looksLikeFile(named)) return true
  const there = statSync(named, { throwIfNoEntry: false })
  return there !== undefined && !(there.isDirectory() && bench.testers.some((t) => t.tester.id === named))
}

/** A day typed after an option. @throws {FaultError} naming option, value and mend */
export function dateOption(option: string, text: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text) && Number.isFinite(dayOf(text))) return text
  throw badOption(option, text, 'is not a date', 'Write it as 2024-05-12.')
}

/** A day, or a day and its time, typed after an option. @throws {FaultError} naming option, value and mend */
export function timeOption(option: string, text: string): string {
  if (Number.isFinite(dayOf(text.slice(0, 10))) && !Number.isNaN(Date.parse(text))) return text
  throw badOption(option, text, 'is not a date or a time', 'Write it as 2024-05-12 or 2024-05-12T14:30.')
}

/** The file a verb was given. @throws {FaultError} `usage` where none was named */
export function namedInput(file: string | undefined, what: string): InputText {
  if (file !== undefined) return readInput(file)
  throw new FaultError({
    code: 'usage',
    problem: `No ${what} was named`,
    mend: 'Name a file, give - for standard input, or see --example.',
  })
}

/** Gives a command `--out`, the file it writes; a name the option had before is still understood, and not shown. */
export function withOut(c: Command, description: string, former: string): Command {
  return c
    .option('--out <file>', description)
    .addOption(new Option(`--${former} <file>`, 'former name of --out').hideHelp())
    .on(`option:${former}`, (file: string) => c.setOptionValue('out', file))
}

/** Gathers an option that may stand more than once. */
export const gather = (one: string, before: readonly string[] = []): readonly string[] => [...before, one]

/** What is wrong with what an option, or an argument, was given. */
export const badOption = (field: string, value: string, problem: string, mend: string): FaultError =>
  new FaultError({ code: 'bad-input', place: { field }, value, problem, mend })

/** A value typed after an option, in SI units. @throws {FaultError} naming the option, the value and the mend */
export function optionValue(option: string, text: string, unit: Unit): { value: number; u?: number } {
  const parsed = parseValue(text, { unit })
  if (parsed.ok) return parsed
  throw badOption(option, text, parsed.problem, parsed.mend)
}

/** A value typed after an option that makes sense above 0 alone, in SI units. @throws {FaultError} */
export function positiveOption(option: string, text: string, unit: Unit): number {
  const { value } = optionValue(option, text, unit)
  if (value > 0) return value
  throw badOption(option, text, 'is not above 0', 'Give a value above 0.')
}

/** A part of a whole typed after an option, above 0 and at most 1: `5 %`, `0.05`. @throws {FaultError} */
export function partOption(option: string, text: string): number {
  const part = positiveOption(option, text, '1')
  if (part <= 1) return part
  throw badOption(option, text, 'is more than the whole', 'Write it in percent, or as a number up to 1.')
}

/** Lowest and highest temperature at the bench, degC, where either may be left out. @throws {FaultError} */
export function temperatureSpan(
  o: { readonly from?: string; readonly to?: string },
  [low, high]: readonly [number, number],
): readonly [low: number, high: number] {
  const from = o.from === undefined ? low : deviceTemperature('--from', o.from, 'bench')
  const to = o.to === undefined ? high : deviceTemperature('--to', o.to, 'bench')
  if (from <= to) return [from, to]
  throw badOption('--from', String(from), `is above the ${to} of --to`, 'Give the lower temperature first.')
}

/** An accuracy class, in percent with or without the sign. @throws {FaultError} */
export function classOption(option: string, text: string): number {
  const value = positiveOption(option, text, '1')
  const percent = text.includes('%') ? value * 100 : value
  if (percent <= 20) return percent
  throw badOption(option, text, 'is no accuracy class', 'Give it in percent, such as 2.5.')
}

/** One of several words typed after an option, whatever its case. @throws {FaultError} that lists them */
export function choiceOption<T extends string>(option: string, text: string, words: readonly T[]): T {
  const found = words.find((w) => w.toLowerCase() === text.trim().toLowerCase())
  if (found !== undefined) return found
  throw new FaultError(notAmong(option, text, words))
}

/** The material a person names, by its symbol or in full. */
export const materialNamed = (text: string): string =>
  ({ germanium: 'Ge', silicon: 'Si' })[text.trim().toLowerCase()] ?? text

/** A case outline as it is written in the catalog, its letters and its number apart: `TO5` is `TO-5`. */
export const outlineNamed = (text: string): string => text.trim().replace(/^([a-z]+)\s*(?=\d)/i, '$1-')

/** The fault of an option that says something only of another, which was not given. */
export const needsFault = (option: string, other: string): FaultError =>
  new FaultError({
    code: 'usage',
    problem: `${option} goes with ${other}`,
    mend: `Add ${other}, or leave ${option} out.`,
  })

/** The fault of two options that cannot stand together. */
export const clashFault = (one: string, other: string): FaultError =>
  new FaultError({ code: 'usage', problem: `${one} and ${other} were both given`, mend: 'Leave one of them out.' })

/** A temperature a device may have, degC. `what` has it, for the sentence. @throws {FaultError} */
export function deviceTemperature(option: string, text: string, what: string): number {
  const { value } = optionValue(option, text, 'degC')
  if (value >= -200 && value <= 300) return value
  throw badOption(option, text, `is no temperature of a ${what}`, 'Give it in degrees Celsius, between -200 and 300.')
}

/** Ambient temperature and its standard uncertainty, where they were given. */
export function optionAmbient(text: string | undefined): { ambientC?: number; ambientU?: number } {
  if (text === undefined) return {}
  const { value, u } = optionValue('--ambient', text, 'degC')
  if (value < -60 || value > 100)
    throw badOption(
      '--ambient',
      text,
      'is no temperature of a bench',
      'Give it in degrees Celsius, between -60 and 100.',
    )
  return u === undefined ? { ambientC: value } : { ambientC: value, ambientU: u }
}
