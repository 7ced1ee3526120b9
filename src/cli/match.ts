import type { Command } from 'commander'
import {
  type BenchOptions,
  gradedBy,
  type MatchChoice,
  matchDocument,
  matchWatched,
  type Needed,
  onBench,
  partsOfBook,
  partsOfTable,
} from '#bench'
import { FaultError } from '#core/fault'
import {
  type Grading,
  gradeParts,
  gradings,
  type MatchWant,
  matchExampleCsv,
  matchRequestSchema,
  matchWants,
  objectives,
} from '#core/match'
import { writeExample } from './example.ts'
import { readInput } from './input.ts'
import { gradeLines, matchLines, requestText, wantLines } from './match-lines.ts'
import { listed, type RequestOptions, requestOf } from './match-request.ts'
import { badOption, benchOptions, choiceOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { untilStopped } from './until-stopped.ts'

interface MatchOptions extends RequestOptions {
  readonly book?: string
  readonly lot?: string
  readonly type?: string
  readonly grades?: string
  readonly how?: string
  readonly wants?: boolean
  readonly printRequest?: boolean
  readonly json?: boolean
  readonly example?: boolean
}

export function define(command: Command): void {
  withJson(command.argument('[file]', 'parts as CSV with a column of tags; - reads standard input'))
    .option('--book <file>', 'take the parts from a book instead')
    .option('--lot <lot>', 'only parts of this lot of the book')
    .option('--type <type>', 'only parts of this type of the book')
    .option('--size <count>', 'how many parts make a set (default: 2)')
    .option('--sets <count>', 'how many sets; as many as there can be where left out')
    .option('--by <list>', 'columns, or parameters, and what counts as one in each: ln_hfe:0.05,vbe_mV:5')
    .option('--within <list>', 'how far apart a set may be at most: vbe_mV:5, hfe:10%, or hfe:x1.2 for a ratio')
    .option('--between <list>', 'only parts in this window: hfe:80..160')
    .option('--same <list>', 'columns in which the parts of a set must agree, such as type')
    .option('--across <column>', 'complementary pairs: a column in which the two differ, such as polarity')
    .option('--together <tags>', 'parts that stay together: OP-1+OP-6; as many as a set has are a set already')
    .option(
      '--objective <name>',
      `what is least in total: ${Object.keys(objectives).join(', ')} (default: pair-distance)`,
    )
    .option('--exclude <tags>', 'parts that are not used')
    .option('--reserve <tags>', 'parts that are kept for something else')
    .option('--seed <number>', 'where there is a search: the same seed gives the same sets (default: 1)')
    .option('--want <name>', `a common want to start from: ${matchWants.map((w) => w.name).join(', ')}`)
    .option('--wants', 'list the common wants, with why and where from')
    .option('--request <file>', 'a request in YAML or JSON; what other options say comes before it')
    .option('--print-request', 'print the request as a file to change, and match nothing')
    .option('--grades <codes>', 'split the lot into batches with these codes, lowest first: red,yellow,green')
    .option('--how <way>', `how to split it: ${Object.keys(gradings).join(', ')} (default: equal)`)
    .option('--example', 'print a file of parts that works')
    .action(match)
}

async function match(file: string | undefined, o: MatchOptions): Promise<void> {
  if (o.wants === true) return printWants(o)
  if (o.example === true) return writeExample(matchExampleCsv, 'csv', o)
  if (o.printRequest === true) return void process.stdout.write(requestText(requestOf(o)))
  if (file === undefined && bookWanted(o).bookFile === undefined) throw noPartsNamed
  if (o.grades !== undefined) return grade(file, o)
  const request = requestOf(o)
  const { parts, notes } = await choiceOf(file, o, request)
  const answer = await untilStopped((signal) =>
    matchWatched(parts, request, {
      signal,
      workerFile: new URL('./germane-match-worker.mjs', import.meta.url),
      ...(process.stderr.isTTY ? { onLeft: tell } : {}),
    }),
  )
  if (o.json === true) printJson(matchDocument(answer, request, notes))
  else printLines(matchLines(answer, request, notes))
}

/** The book the parts are taken from, where no file is named; that a lot or a type is named says that it is one. */
const bookWanted = (o: MatchOptions): BenchOptions => benchOptions(o, o.lot !== undefined || o.type !== undefined)

const noPartsNamed = new FaultError({
  code: 'usage',
  problem: 'No parts were named',
  mend: 'Name a file, give - for standard input or a book with --book, or see --example.',
})

function printWants(o: MatchOptions): void {
  if (o.json === true) printJson({ format: 'germane/wants/1', wants: matchWants.map(whole) })
  else printLines(wantLines())
}

/** A want with its request whole. */
const whole = (want: MatchWant) => ({ ...want, request: matchRequestSchema.parse(want.request) })

async function choiceOf(file: string | undefined, o: MatchOptions, needed: Needed): Promise<MatchChoice> {
  if (file === undefined)
    return onBench(bookWanted(o), (bench) => {
      const filter = {
        ...(o.lot === undefined ? {} : { lot: o.lot }),
        ...(o.type === undefined ? {} : { type: o.type }),
      }
      return partsOfBook(bench, filter, needed)
    })
  if (o.book === undefined) return partsOfTable(readInput(file), needed)
  throw new FaultError({ code: 'usage', problem: 'Both a file and a book were named', mend: 'Name one of them.' })
}

async function grade(file: string | undefined, o: MatchOptions): Promise<void> {
  const [name, ...more] = listed(o.by).map((one) => one.replace(/:[^:]*$/, ''))
  if (name === undefined || more.length > 0)
    throw badOption('--by', o.by ?? '', 'is not one parameter', 'A lot is graded by one: --by hfe.')
  const how = o.how === undefined ? 'equal' : choiceOption('--how', o.how, Object.keys(gradings) as Grading[])
  const codes = listed(o.grades)
  const { parts, notes } = await choiceOf(file, o, { by: [{ name }], same: [] })
  const graded = gradedBy(parts, name)
  const grades = gradeParts(graded, codes, how)
  const has = new Set(graded.map((one) => one.tag))
  const leftOver = parts.flatMap(({ tag }) => (has.has(tag) ? [] : [{ tag, why: `no ${name}` }]))
  if (o.json === true) printJson({ format: 'germane/grades/1', by: name, how, grades, leftOver, notes })
  else printLines(gradeLines(name, grades, leftOver, how, notes))
}

/** Tells on a terminal how much is left. */
const tell = (left: number): void =>
  void process.stderr.write(`\r${left} left to settle; Ctrl-C ends with the best so far. `)
