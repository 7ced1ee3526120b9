import type { Command } from 'commander'
import { matchDocument, matchFile } from '#bench'
import { FaultError } from '#core/fault'
import { type MatchAnswer, type MatchRequest, matchExampleCsv, matchRequestSchema, objectives } from '#core/match'
import { checkWith, dataDocument } from '#core/text'
import { readInput } from './input.ts'
import { badOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { tableLines, wrapped } from './table.ts'

interface MatchOptions {
  readonly size: string
  readonly sets?: string
  readonly by?: string
  readonly within?: string
  readonly same?: string
  readonly across?: string
  readonly objective: string
  readonly exclude?: string
  readonly reserve?: string
  readonly seed: string
  readonly json?: boolean
  readonly example?: boolean
}

export function define(command: Command): void {
  withJson(command.argument('[file]', 'parts as CSV with a column of tags; - reads standard input'))
    .option('--size <count>', 'how many parts make a set', '2')
    .option('--sets <count>', 'how many sets; as many as there can be where left out')
    .option('--by <list>', 'columns and what counts as one in each: ln_hfe:0.05,vbe_mV:5')
    .option('--within <list>', 'how far apart a set may be at most: vbe_mV:5, hfe:10%, or hfe:x1.2 for a ratio')
    .option('--same <list>', 'columns in which the parts of a set must agree, such as type')
    .option('--across <column>', 'complementary pairs: a column in which the two differ, such as polarity')
    .option('--objective <name>', `what is least in total: ${Object.keys(objectives).join(', ')}`, 'pair-distance')
    .option('--exclude <tags>', 'parts that are not used')
    .option('--reserve <tags>', 'parts that are kept for something else')
    .option('--seed <number>', 'where there is a search: the same seed gives the same sets', '1')
    .option('--example', 'print a file of parts that works')
    .action((file: string | undefined, o: MatchOptions) => {
      if (o.example === true || file === undefined) return void process.stdout.write(matchExampleCsv)
      const request = requestOf(o)
      const answer = matchFile(readInput(file), request)
      if (o.json === true) printJson(matchDocument(answer))
      else printLines(answerLines(answer, request))
    })
}

const listed = (text: string | undefined): readonly string[] =>
  text === undefined ? [] : text.split(',').flatMap((one) => (one.trim() === '' ? [] : [one.trim()]))

/** The request the options make. @throws {FaultError} for what cannot be used */
function requestOf(o: MatchOptions): MatchRequest {
  if (o.by === undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'Nothing was named to match by',
      mend: 'Add for example --by ln_hfe:0.05,vbe_mV:5.',
    })
  const within = new Map(listed(o.within).map((one) => [nameOf(one), limitOf(one)]))
  const named = listed(o.by).map(nameOf)
  for (const name of within.keys()) if (!named.includes(name)) throw wrong('--within', name, 'is not named in --by')
  const by = listed(o.by).map((one) => {
    const limit = within.get(nameOf(one))
    return { name: nameOf(one), scale: numberOf('--by', one), ...(limit === undefined ? {} : { within: limit }) }
  })
  const data = {
    size: Number(o.size),
    ...(o.sets === undefined ? {} : { sets: Number(o.sets) }),
    by,
    objective: o.objective,
    same: listed(o.same),
    ...(o.across === undefined ? {} : { across: o.across }),
    exclude: listed(o.exclude),
    reserve: listed(o.reserve),
    seed: Number(o.seed),
  }
  const checked = checkWith(matchRequestSchema, dataDocument(data))
  if (!checked.ok) throw new FaultError(checked.faults)
  return checked.data
}

const nameOf = (one: string): string => one.replace(/:[^:]*$/, '')

function numberOf(option: string, one: string): number {
  const text = one.includes(':') ? one.slice(one.lastIndexOf(':') + 1) : '1'
  const value = Number(text)
  if (text.trim() !== '' && Number.isFinite(value) && value > 0) return value
  throw wrong(option, one, 'has no number above 0 after the colon')
}

function limitOf(one: string) {
  const text = one.slice(one.lastIndexOf(':') + 1).trim()
  const number = numberOf('--within', `:${text.replace(/^x/i, '').replace(/%$/, '')}`)
  if (text.endsWith('%')) return { percent: number }
  return /^x/i.test(text) ? { ratio: number } : { absolute: number }
}

const wrong = (option: string, value: string, problem: string): FaultError =>
  badOption(option, value, problem, 'Write a column and a number: vbe_mV:5.')

function answerLines(answer: MatchAnswer, { by }: MatchRequest): readonly string[] {
  const digits = (x: number): string => Number(x.toPrecision(4)).toString()
  const rows = answer.sets.map((one, i) => [
    String(i + 1),
    one.tags.join(', '),
    digits(one.cost),
    ...by.map(({ name }) => digits(one.spread[name]!)),
  ])
  const head = ['>set', 'parts', '>mismatch', ...by.map(({ name }) => `>spread of ${name}`)]
  const over = answer.leftOver.map(({ tag, why }) => [tag, why])
  return [
    ...tableLines(head, rows),
    ...(over.length === 0 ? [] : ['', ...tableLines(['left over', 'why'], over)]),
    '',
    ...wrapped(`Mismatch in total ${digits(answer.totalCost)}: ${objectives[answer.objective]}, over all sets.`),
    ...wrapped(answer.proof.say),
  ]
}
