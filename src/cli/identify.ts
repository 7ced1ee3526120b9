import type { Command } from 'commander'
import { type Bench, heldTypes, onBench } from '#bench'
import { FaultError } from '#core/fault'
import {
  type AlsoKnown,
  type Candidates,
  candidateTypes,
  type ExtraTest,
  extraTests,
  type Identity,
  identifyDefaults,
  identifyPart,
  type LeadReadings,
  leadReadingsExampleCsv,
  measuredIn,
  meters,
  readLeadReadings,
} from '#core/identify'
import { writeExample } from './example.ts'
import { identityLines } from './identify-lines.ts'
import { planCommands } from './identify-plan.ts'
import {
  benchOptions,
  choiceOption,
  chosenTester,
  namedInput,
  outlineNamed,
  partOption,
  positiveOption,
  withBook,
  withJson,
} from './options.ts'
import { printJson, printLines } from './output.ts'

interface IdentifyVerbOptions {
  readonly types?: boolean
  readonly gain?: string
  readonly leakage?: string
  readonly outline?: string
  readonly marking?: string
  readonly also?: string
  readonly tester?: string
  readonly book?: string
  readonly meter?: string
  readonly leads?: string
  readonly sure?: string
  readonly json?: boolean
  readonly example?: boolean
}

/** A part and what it is, which types it may be, and the commands that plan a run sheet for it. */
export type IdentifiedPart = {
  readonly part: string
  readonly candidates?: Candidates
  readonly plan?: readonly string[]
} & Identity

export function define(command: Command): void {
  withJson(withBook(command).argument('[file]', 'readings between leads, JSON or CSV; - reads standard input'))
    .option('--meter <meter>', `what took the readings: ${meters.map((m) => m.name).join(' or ')} (default: digital)`)
    .option('--leads <count>', 'leads of the parts, 2 or 3, where the readings do not name all')
    .option('--sure <part>', 'how sure an answer must be before no further test is asked for (default: 99 %)')
    .option('--also <tests>', 'tests you can make beside those of the meter: gain, breakdown, or both with a comma')
    .option('--types', 'go on to the part types of catalog and book that each may be')
    .option('--gain <gain>', 'measured h_FE of the part, to rank them by')
    .option('--leakage <current>', 'measured I_CBO of the part, to rank them by')
    .option('--outline <outline>', 'its case, such as TO-5: only types in it')
    .option('--marking <marking>', 'what stands on it, or is left of it: explained by scheme, and to rank them by')
    .option(
      '--tester <tester>',
      'tester to plan its run sheet on (default: the first of the book, else the first sample)',
    )
    .option('--example', 'print a file of readings that works')
    .action(identify)
}

async function identify(file: string | undefined, o: IdentifyVerbOptions): Promise<void> {
  if (o.example === true) return writeExample(leadReadingsExampleCsv, 'csv', o)
  const input = namedInput(file, 'file of readings')
  const name = choiceOption(
    '--meter',
    o.meter ?? meters[0]!.name,
    meters.map((m) => m.name),
  )
  const meter = meters.find((m) => m.name === name)!
  const leads = o.leads === undefined ? undefined : Number(choiceOption('--leads', o.leads, ['2', '3']))
  const sure = o.sure === undefined ? identifyDefaults.sure : partOption('--sure', o.sure)
  const options = { meter, sure, also: alsoOf(o.also) }
  const read = readLeadReadings(input.text, { file: input.file, meter })
  if (!read.ok) throw new FaultError(read.faults)
  const leadsOf = (part: LeadReadings): { readonly leads?: number } => {
    const count = part.leads ?? leads
    return count === undefined ? {} : { leads: count }
  }
  const parts = await onBench(benchOptions(o), async (bench) => {
    const asked = wantsTypes(o) ? await askedTypes(bench, o) : undefined
    const tester = o.tester === undefined ? bench.testers[0]! : chosenTester(bench, o.tester)
    return read.parts.map((p): IdentifiedPart => {
      const identity = identifyPart(p.readings, { ...options, ...leadsOf(p) })
      const candidates = asked?.(identity, p)
      const plan = planCommands(identity, { tester: o.tester ?? tester.tester.id, candidates, book: o.book })
      return {
        part: p.part,
        ...identity,
        ...(candidates === undefined ? {} : { candidates }),
        ...(plan.length === 0 ? {} : { plan }),
      }
    })
  })
  if (o.json === true) printJson({ format: 'germane/identities/1', meter: name, sure, parts })
  else printLines(parts.flatMap(identityLines))
}

const alsoOf = (text: string | undefined): readonly ExtraTest[] =>
  (text ?? '')
    .split(',')
    .filter((word) => word.trim() !== '')
    .map((word) => choiceOption('--also', word.trim(), extraTests))

const wantsTypes = (o: IdentifyVerbOptions): boolean =>
  o.types === true || [o.gain, o.leakage, o.outline, o.marking].some((given) => given !== undefined)

/** The part types that the best answer of a part leaves, by what its readings and the options say of it. */
async function askedTypes(bench: Bench, o: IdentifyVerbOptions) {
  const said: AlsoKnown = {
    ...(o.gain === undefined ? {} : { gain: positiveOption('--gain', o.gain, '1') }),
    ...(o.leakage === undefined ? {} : { leakA: positiveOption('--leakage', o.leakage, 'A') }),
    ...(o.outline === undefined ? {} : { outline: outlineNamed(o.outline) }),
    ...(o.marking === undefined ? {} : { marking: o.marking }),
    inDrawer: await heldTypes(bench),
  }
  return ({ hypotheses: [best] }: Identity, { readings }: LeadReadings): Candidates | undefined =>
    best === undefined ? undefined : candidateTypes(best, bench.types, { ...measuredIn(best, readings), ...said })
}
