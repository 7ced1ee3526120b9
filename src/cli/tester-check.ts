import type { Command } from 'commander'
import { examine, healthDocument, onBench, testerFromText } from '#bench'
import type { Tester } from '#core/tester'
import { exitCodes } from './exit.ts'
import { readInput } from './input.ts'
import { badOption, benchOptions, chosenTester, gather, isTesterFile, withBook, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { printSheet } from './sheet.ts'

interface CheckOptions {
  readonly standard?: readonly string[]
  readonly out?: string
  readonly json?: boolean
  readonly book?: string
}

/** Adds `germane tester check`: of a description file its form, of a known tester its health. */
export function defineCheck(group: Command, linesOf: (tester: Tester) => readonly string[]): void {
  const command = group
    .command('check')
    .description('Check a description file, or say what a known tester is worth today.')
    .argument(
      '<tester>',
      'description, YAML or JSON, - for standard input; or the id of a sample or of one in the book',
    )
  withBook(withJson(command))
    .option(
      '--standard <tag:symbol>',
      'of the book: a check standard read on it, such as CS-1:h_FE; may stand again',
      gather,
    )
    .option('--out <file>', 'of a known tester: page to write')
    .action((named: string, o: CheckOptions) =>
      isTesterFile(named) ? checkFile(named, o, linesOf) : checkHealth(named, o),
    )
}

function checkFile(path: string, o: CheckOptions, linesOf: (tester: Tester) => readonly string[]): void {
  const { text, file } = readInput(path)
  const { tester } = testerFromText(text, file)
  if (o.json === true) printJson({ format: 'germane/check/1', file, ok: true, tester })
  else printLines([`${file}: a good description of ${tester.name}.`, '', ...linesOf(tester)])
}

async function checkHealth(named: string, o: CheckOptions): Promise<void> {
  const standards = (o.standard ?? []).map(standardOf)
  await onBench(benchOptions(o, standards.length > 0), async (bench) => {
    const examined = await examine(bench, chosenTester(bench, named), standards)
    await printSheet(examined.sheet, () => healthDocument(examined), o)
    if (examined.health.word === 'not trusted') process.exitCode = exitCodes.notConforming
  })
}

function standardOf(text: string): { readonly part: string; readonly symbol: string } {
  const [part = '', symbol = 'h_FE', more] = text.split(':')
  if (part !== '' && symbol !== '' && more === undefined) return { part, symbol }
  throw badOption('--standard', text, 'is not a tag and a symbol', 'Write it as CS-1:h_FE.')
}
