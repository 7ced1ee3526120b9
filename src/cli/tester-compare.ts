import type { Command } from 'commander'
import {
  agreementDocument,
  type ComparedTesters,
  type CompareWishes,
  compareTestersFile,
  compareTestersKept,
  onBench,
  testerNamed,
} from '#bench'
import type { Unit } from '#core/quantity'
import { compareExampleCsv, type Purpose } from '#core/upkeep'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import {
  badOption,
  benchOptions,
  clashFault,
  namedInput,
  positiveOption,
  withBook,
  withExample,
  withJson,
} from './options.ts'
import { outText, printSheet } from './sheet.ts'

interface CompareVerbOptions {
  readonly testers?: string
  readonly symbol: string
  readonly book?: string
  readonly ratio?: boolean
  readonly within?: string
  readonly max?: string
  readonly min?: string
  readonly out?: string
  readonly json?: boolean
}

/** Adds `germane tester compare`. */
export function defineCompare(group: Command): void {
  const command = group
    .command('compare')
    .description('Compare two testers by parts read on both.')
    .argument(
      '[file]',
      'CSV with the part and a column for each tester; - reads standard input; left out, the book is asked',
    )
  withBook(withJson(withExample(command, 'print a table that works', (o) => writeExample(compareExampleCsv, 'csv', o))))
    .option('--testers <first,second>', 'of the book: the two testers')
    .option('--symbol <symbol>', 'of the book: what was read on both', 'h_FE')
    .option('--ratio', 'compare by ratio: where differences grow with the value')
    .option('--within <difference>', 'difference that does no harm: "2 uA"; "5 %" compares by ratio')
    .option('--max <limit>', 'upper limit that parts are held against, such as "50 uA"')
    .option('--min <limit>', 'lower limit that parts are held against')
    .option('--out <file>', outText)
    .action((file: string | undefined, o: CompareVerbOptions) => compare(file, o))
}

async function compare(file: string | undefined, o: CompareVerbOptions): Promise<void> {
  if (o.max !== undefined && o.min !== undefined) throw clashFault('--max', '--min')
  const isPart = o.within?.includes('%') === true
  const compared = await found(file, o, {
    options: { scale: o.ratio === true || isPart ? 'ratio' : 'difference' },
    purpose: (unit) => purposeOf(o, unit),
  })
  await printSheet(compared.sheet, () => agreementDocument(compared), o)
  if (compared.answer.word === 'no') process.exitCode = exitCodes.notConforming
}

function found(
  file: string | undefined,
  o: CompareVerbOptions,
  wishes: CompareWishes,
): Promise<ComparedTesters> | ComparedTesters {
  if (o.testers === undefined) return compareTestersFile(namedInput(file, 'table'), wishes)
  if (file !== undefined) throw clashFault('A file', '--testers')
  const [first, second, more] = o.testers.split(',').map((name) => name.trim())
  if (first === undefined || second === undefined || more !== undefined)
    throw badOption('--testers', o.testers, 'are not two testers', 'Write both ids with a comma: larkfield,marlpit.')
  return onBench(benchOptions(o, true), (bench) => {
    const id = (name: string): string => testerNamed(bench, name).tester.id
    return compareTestersKept(bench, { testers: [id(first), id(second)], symbol: o.symbol }, wishes)
  })
}

function purposeOf(o: CompareVerbOptions, unit: Unit): Purpose {
  const isPart = o.within?.includes('%') === true
  if (o.ratio === true && o.within !== undefined && !isPart)
    throw badOption('--within', o.within, 'is no part of a value, which --ratio needs', 'Write it in percent: "5 %".')
  const kind = o.max === undefined ? 'min' : 'max'
  const limit = o.max ?? o.min
  return {
    ...(o.within === undefined ? {} : { within: positiveOption('--within', o.within, isPart ? '1' : unit) }),
    ...(limit === undefined ? {} : { limit: { kind, value: positiveOption(`--${kind}`, limit, unit) } }),
  }
}
