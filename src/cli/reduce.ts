import { type Command, Option } from 'commander'
import { evidenceAgainst, type layBench, onBench, parametersDocument, type Reduced, reduceFile } from '#bench'
import { FaultError } from '#core/fault'
import { readingsExampleCsv, readingsExampleJson } from '#core/tester'
import { readInput } from './input.ts'
import {
  benchOptions,
  chosenTester,
  optionAmbient,
  withAmbient,
  withBook,
  withJson,
  withTester,
  withType,
} from './options.ts'
import { printJson, printLines } from './output.ts'
import { block, doubtLines, parameterLines, workingLines } from './say.ts'

export interface ReadingsOptions {
  readonly tester?: string
  readonly type?: string
  readonly ambient?: string
  readonly book?: string
  readonly json?: boolean
  readonly working?: string | boolean
  readonly example?: boolean
  readonly all?: boolean
}

/** Options of the verbs that take a file of readings. */
export function takesReadings(command: Command): Command {
  command.argument('[file]', 'readings as CSV or JSON; - reads standard input')
  for (const add of [withTester, withType, withAmbient, withBook, withJson]) add(command)
  return command
    .addOption(new Option('--working [part]', 'show the working of each number, or of one part'))
    .option('--all', 'print everything that was worked out, and every limit')
    .option('--example', 'print a file of readings that works')
}

/** What the file and the options say, and what the book knows against the tester, for a use case. */
export async function readingsInput(bench: Awaited<ReturnType<typeof layBench>>, file: string, o: ReadingsOptions) {
  const known = chosenTester(bench, o.tester)
  return {
    ...(await evidenceAgainst(bench, known.tester)),
    ...readInput(file),
    known,
    tester: known.tester,
    ...(o.type === undefined ? {} : { typeName: o.type }),
    ...optionAmbient(o.ambient),
  }
}

export function define(command: Command): void {
  takesReadings(command).action(async (file: string | undefined, o: ReadingsOptions) => {
    if (o.example === true || file === undefined) return printExample(o)
    await onBench(benchOptions(o), async (bench) => {
      const reduced = reduceFile(bench, await readingsInput(bench, file, o))
      if (o.json === true) printJson(parametersDocument(reduced))
      else printLines(reducedLines(reduced, o))
    })
  })
}

/** The example file, as a table or as JSON; without a file name a person is told how to name one. */
export function printExample(o: ReadingsOptions): void {
  if (o.example !== true) throw noReadings(o)
  process.stdout.write(o.json === true ? readingsExampleJson : readingsExampleCsv)
}

function noReadings({ working }: ReadingsOptions): FaultError {
  if (typeof working === 'string')
    return new FaultError({
      code: 'usage',
      problem: `"${working}" was taken for the part whose working is wanted, so no file of readings is left`,
      mend: `Write the file first: ${working} --working.`,
    })
  return new FaultError({
    code: 'usage',
    problem: 'No file of readings was named',
    mend: 'Name one, give - for standard input, or see --example.',
  })
}

export function reducedLines(reduced: Reduced, o: ReadingsOptions): readonly string[] {
  return [...parameterLines(reduced, o), ...block('To know:', doubtLines(reduced)), ...workingBlock(reduced, o)]
}

/** The working, where it was asked for: of all parts or of one. */
export function workingBlock(reduced: Reduced, o: Pick<ReadingsOptions, 'working'>): readonly string[] {
  if (o.working === undefined) return []
  const part = typeof o.working === 'string' ? o.working : undefined
  if (part !== undefined && !reduced.results.some((r) => r.part === part))
    throw new FaultError({ code: 'not-found', what: 'part in these readings', name: part, near: [] })
  return block('Working:', workingLines(reduced, part))
}
