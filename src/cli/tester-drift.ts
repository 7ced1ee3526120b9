import { type Command, Option } from 'commander'
import {
  onBench,
  type Steadied,
  type SteadinessWishes,
  steadinessDocument,
  steadinessOfFile,
  steadinessOfKept,
  testerNamed,
} from '#bench'
import { FaultError } from '#core/fault'
import type { Unit } from '#core/quantity'
import { chartRules, checkStandardExampleCsv, type DriftBounds, type RuleSet } from '#core/upkeep'
import { exitCodes } from './exit.ts'
import {
  badOption,
  benchOptions,
  clashFault,
  namedInput,
  optionValue,
  withBook,
  withExample,
  withJson,
} from './options.ts'
import { outText, printSheet } from './sheet.ts'

interface DriftVerbOptions {
  readonly tester?: string
  readonly part?: string
  readonly symbol: string
  readonly rules: RuleSet
  readonly spread: 'range' | 'sd'
  readonly baseline?: string
  readonly ewma?: string
  readonly low?: string
  readonly high?: string
  readonly out?: string
  readonly json?: boolean
  readonly book?: string
}

/** Adds `germane tester drift`. */
export function defineDrift(group: Command): void {
  const command = group
    .command('drift')
    .description('Chart a stable part read now and then, and say whether the tester holds.')
    .argument('[file]', 'CSV with date, part and reading; - reads standard input; left out, the book is asked')
  withBook(
    withJson(withExample(command, 'print a table that works', () => process.stdout.write(checkStandardExampleCsv))),
  )
    .option('--tester <tester>', 'of the book: tester the part was read on')
    .option('--part <tag>', 'of the book: the check standard')
    .option('--symbol <symbol>', 'of the book: what is followed', 'h_FE')
    .addOption(
      new Option('--rules <set>', 'patterns that raise an alarm')
        .choices(Object.keys(chartRules))
        .default('western-electric'),
    )
    .addOption(
      new Option('--spread <by>', 'what tells the spread within a day').choices(['range', 'sd']).default('range'),
    )
    .option('--baseline <count>', 'the limits come from so many first days; left out, from all')
    .option('--ewma <weight>', 'draw a moving average with this weight of the newest, such as 0.2')
    .option('--low <value>', 'lower bound the reading should keep')
    .option('--high <value>', 'upper bound the reading should keep')
    .option('--out <file>', outText)
    .action((file: string | undefined, o: DriftVerbOptions) => drift(file, o))
}

async function drift(file: string | undefined, o: DriftVerbOptions): Promise<void> {
  const steadied = await found(file, o)
  await printSheet(steadied.sheet, () => steadinessDocument(steadied), o)
  if (steadied.standards.some((s) => s.word === 'out of control')) process.exitCode = exitCodes.notConforming
}

function found(file: string | undefined, o: DriftVerbOptions): Promise<Steadied> | Steadied {
  const wishes = wishesOf(o)
  const { tester, part, symbol } = o
  if (file !== undefined && part !== undefined) throw clashFault('A file', '--part')
  if (part === undefined) return steadinessOfFile(namedInput(file, 'table'), wishes)
  if (tester === undefined)
    throw new FaultError({ code: 'usage', problem: 'No tester was named', mend: 'Add --tester with its id.' })
  return onBench(benchOptions(o, true), (bench) =>
    steadinessOfKept(bench, { tester: testerNamed(bench, tester).tester.id, part, symbol }, wishes),
  )
}

const wishesOf = (o: DriftVerbOptions): SteadinessWishes => ({
  options: {
    rules: o.rules,
    spread: o.spread,
    ...(o.baseline === undefined ? {} : { baseline: wholeFrom('--baseline', o.baseline, 3) }),
    ...(o.ewma === undefined ? {} : { weight: weightOf(o.ewma) }),
  },
  bounds: (unit) => boundsOf(o, unit),
})

function boundsOf(o: DriftVerbOptions, unit: Unit): DriftBounds {
  const bounds = {
    ...(o.low === undefined ? {} : { low: optionValue('--low', o.low, unit).value }),
    ...(o.high === undefined ? {} : { high: optionValue('--high', o.high, unit).value }),
  }
  if (bounds.low !== undefined && bounds.high !== undefined && !(bounds.low < bounds.high))
    throw badOption('--low', o.low!, 'is not below --high', 'Give the lower bound first.')
  return bounds
}

function wholeFrom(option: string, text: string, least: number): number {
  const value = Number(text)
  if (Number.isInteger(value) && value >= least) return value
  throw badOption(option, text, 'is no such count', `Give a whole number, ${least} or more.`)
}

function weightOf(text: string): number {
  const value = Number(text)
  if (value > 0 && value <= 1) return value
  throw badOption('--ewma', text, 'is no weight', 'Give a number above 0 and up to 1, such as 0.2.')
}
