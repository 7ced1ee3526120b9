import type { Command } from 'commander'
import {
  drawingBytes,
  drawingKind,
  drawLeads,
  onBench,
  positionFromText,
  type StandInsFound,
  type StandInWish,
  standInPlaces,
  standInsAt,
  standInsDocument,
  standInsForType,
} from '#bench'
import { plainTypeName } from '#core/device'
import { FaultError } from '#core/fault'
import { stageExampleYaml } from '#core/stage'
import type { StandIn } from '#core/standin'
import { nearNames } from '#core/text'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import { readInput } from './input.ts'
import {
  badOption,
  benchOptions,
  choiceOption,
  deviceTemperature,
  positiveOption,
  withBook,
  withJson,
  withOut,
} from './options.ts'
import { printJson, printLines } from './output.ts'
import { candidateLines, standInLines } from './standin-lines.ts'
import { writeOut } from './write-out.ts'

interface StandInOptions {
  readonly position?: string
  readonly book?: string
  readonly from?: string
  readonly ambient?: string
  readonly voltage?: string
  readonly current?: string
  readonly power?: string
  readonly frequency?: string
  readonly count?: string
  readonly with?: string
  readonly out?: string
  readonly json?: boolean
  readonly example?: boolean
}

export function define(command: Command): void {
  command.argument('[type]', 'the type that is dead or no longer made; with --position, in place of the one it names')
  withOut(
    withBook(withJson(command)),
    'draw how its leads go where the others went (.svg, .png); of the best without --with',
    'plot',
  )
    .option('--position <file>', 'the place it stood in, as YAML or JSON; - reads standard input')
    .option('--from <where>', `where to look: ${standInPlaces.join(', ')} (default: both)`)
    .option('--ambient <temperature>', 'hottest air (default: that of the position, else 50 C)')
    .option('--voltage <voltage>', 'what it has to stand, in place of what is published')
    .option('--current <current>', 'what it has to carry, and where its gain counts')
    .option('--power <power>', 'what it has to get rid of')
    .option('--frequency <frequency>', 'up to where the stage needs its gain')
    .option('--count <candidates>', 'how many to show (default: 10)')
    .option('--with <candidate>', 'show one candidate with every margin and reason')
    .option('--example', 'print a position that works')
    .action(standIn)
}

async function standIn(type: string | undefined, o: StandInOptions): Promise<void> {
  if (o.example === true) return writeExample(stageExampleYaml, 'yaml', o)
  if (o.out !== undefined) drawingKind(o.out)
  const count = o.count === undefined ? shownDefault : countOf(o.count)
  const { from, ...wish } = wishOf(o)
  await onBench(benchOptions(o, from === 'drawer'), async (bench) => {
    const found = await (o.position === undefined
      ? standInsForType(bench, neededType(type), { ...wish, from })
      : standInsAt(bench, readPosition(o.position), { ...wish, from }, type))
    const one = o.with === undefined ? undefined : named(found, o.with)
    if (o.out !== undefined) {
      const drawn = drawLeads(found, one ?? best(found))
      writeOut(o.out, await drawingBytes(drawn, o.out))
    }
    if (o.json === true) printJson(standInsDocument(found))
    else printLines(one === undefined ? standInLines(found, count) : candidateLines(found, one))
    const isRefused = one === undefined ? found.result.taken.length === 0 : one.standing === 'refused'
    if (isRefused) process.exitCode = exitCodes.notConforming
  })
}

/** Candidates shown where nothing is said. */
const shownDefault = 10

function countOf(text: string): number {
  const count = Number(text)
  if (text.trim() !== '' && Number.isInteger(count) && count >= 0) return count
  throw badOption('--count', text, 'is not a whole number', 'Write how many candidates to show, such as 20.')
}

function neededType(type: string | undefined): string {
  if (type !== undefined && (type === '-' || /\.(ya?ml|json)$/i.test(type)))
    throw new FaultError({
      code: 'usage',
      problem: `${type} is a file, and a type number was wanted`,
      mend: `Write --position ${type} for the place it stood in.`,
    })
  if (type !== undefined) return type
  throw new FaultError({
    code: 'usage',
    problem: 'Nothing is said of what to find a stand-in for',
    mend: 'Give a type number, or a place in a circuit with --position; --example prints one.',
  })
}

function readPosition(path: string) {
  const { text, file } = readInput(path)
  return positionFromText(text, file)
}

function wishOf(o: StandInOptions): StandInWish & { readonly from: (typeof standInPlaces)[number] } {
  return {
    from: o.from === undefined ? 'both' : choiceOption('--from', o.from, standInPlaces),
    ...(o.ambient === undefined ? {} : { ambientC: deviceTemperature('--ambient', o.ambient, 'room') }),
    ...(o.voltage === undefined ? {} : { voltageV: positiveOption('--voltage', o.voltage, 'V') }),
    ...(o.current === undefined ? {} : { currentA: positiveOption('--current', o.current, 'A') }),
    ...(o.power === undefined ? {} : { powerW: positiveOption('--power', o.power, 'W') }),
    ...(o.frequency === undefined ? {} : { frequencyHz: positiveOption('--frequency', o.frequency, 'Hz') }),
  }
}

/** A candidate by name, taken or refused. @throws {FaultError} `not-found` with near names */
function named({ result }: StandInsFound, name: string): StandIn {
  const all = [...result.taken, ...result.notKnown, ...result.refused]
  const found = all.find((s) => plainTypeName(s.name) === plainTypeName(name))
  if (found !== undefined) return found
  const near = nearNames(
    name,
    all.map((s) => s.name),
  )
  throw new FaultError({ code: 'not-found', what: 'candidate', name, near })
}

function best({ result }: StandInsFound): StandIn {
  const [first] = result.taken
  if (first !== undefined) return first
  throw new FaultError({
    code: 'usage',
    problem: 'There is no candidate to draw',
    mend: 'Name one with --with, refused though it is.',
  })
}
