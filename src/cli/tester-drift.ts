import { type Command, Option } from 'commander'
import {
  type Bench,
  dropStandard,
  keepStandard,
  onBench,
  type Steadied,
  type SteadinessWishes,
  steadinessDocument,
  steadinessOfFile,
  steadinessOfKept,
  steadinessOfNamed,
  testerNamed,
  upkeepOf,
} from '#bench'
import { letterSymbols } from '#core/device'
import { FaultError } from '#core/fault'
import type { Unit } from '#core/quantity'
import { chartRules, checkStandardExampleCsv, type DriftBounds, type RuleSet } from '#core/upkeep'
import { writeExample } from './example.ts'
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
import { printJson, printLines } from './output.ts'
import { outText, printSheet } from './sheet.ts'

interface DriftVerbOptions {
  readonly tester?: string
  readonly part?: string
  readonly symbol: string
  readonly keep?: boolean
  readonly forget?: boolean
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
    withJson(withExample(command, 'print a table that works', (o) => writeExample(checkStandardExampleCsv, 'csv', o))),
  )
    .option('--tester <tester>', 'of the book: tester the part was read on')
    .option('--part <tag>', 'of the book: the check standard (default: all that the book names for the tester)')
    .option('--symbol <symbol>', 'of the book: what is followed', 'h_FE')
    .option('--keep', 'name the part as a check standard of the tester, with the bounds given')
    .option('--forget', 'name it no longer')
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
  if (o.keep === true || o.forget === true) return nameStandard(file, o)
  const steadied = await found(file, o)
  await printSheet(steadied.sheet, () => steadinessDocument(steadied), o)
  if (steadied.standards.some((s) => s.word === 'out of control')) process.exitCode = exitCodes.notConforming
}

function found(file: string | undefined, o: DriftVerbOptions): Promise<Steadied> | Steadied {
  const wishes = wishesOf(o)
  const { tester, part, symbol } = o
  if (file !== undefined && part !== undefined) throw clashFault('A file', '--part')
  if (part === undefined && (tester === undefined || file !== undefined))
    return steadinessOfFile(namedInput(file, 'table'), wishes)
  const named = needTester(o)
  return onBench(benchOptions(o, true), (bench) => {
    const { id } = testerNamed(bench, named).tester
    if (part === undefined) return steadinessOfNamed(bench, id, wishes)
    return steadinessOfKept(bench, { tester: id, part, symbol }, wishes)
  })
}

function needTester({ tester }: DriftVerbOptions): string {
  if (tester !== undefined) return tester
  throw new FaultError({ code: 'usage', problem: 'No tester was named', mend: 'Add --tester with its id.' })
}

/** Names a part as a check standard, or names it no longer. */
async function nameStandard(file: string | undefined, o: DriftVerbOptions): Promise<void> {
  if (file !== undefined) throw clashFault('A file', o.keep === true ? '--keep' : '--forget')
  if (o.keep === true && o.forget === true) throw clashFault('--keep', '--forget')
  const { part, symbol } = o
  if (part === undefined)
    throw new FaultError({ code: 'usage', problem: 'No part was named', mend: 'Add --part with its tag.' })
  const named = needTester(o)
  await onBench(benchOptions(o, true), async (bench) => {
    const known = testerNamed(bench, named)
    const { id, name } = known.tester
    if (o.keep === true) await keepStandard(bench, known, { part, symbol, ...boundsOf(o, unitOf(symbol)) })
    else await dropStandard(bench, await standardNamed(bench, id, part, symbol))
    if (o.json === true)
      return printJson({
        format: 'germane/check-standards/1',
        tester: id,
        standards: (await upkeepOf(bench, id)).standards,
      })
    const done = o.keep === true ? 'is' : 'is no longer'
    printLines([`${symbol} of ${part} ${done} a check standard of ${name}.`])
  })
}

const unitOf = (symbol: string): Unit => letterSymbols[symbol]?.unit ?? '1'

async function standardNamed(bench: Bench, tester: string, part: string, symbol: string): Promise<number> {
  const { standards } = await upkeepOf(bench, tester)
  const found = standards.find((s) => s.part === part && s.symbol === symbol)
  if (found !== undefined) return found.id
  throw new FaultError({
    code: 'not-found',
    what: 'check standard of the tester',
    name: `${symbol} of ${part}`,
    near: standards.map((s) => `${s.symbol} of ${s.part}`),
  })
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
