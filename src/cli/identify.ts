import type { Command } from 'commander'
import { onBench, partsOf } from '#bench'
import type { PartType } from '#core/device'
import { FaultError } from '#core/fault'
import {
  type AlsoKnown,
  type Candidates,
  candidateTypes,
  type Identity,
  identifyDefaults,
  identifyPart,
  type LeadReadings,
  leadReadingsExampleCsv,
  meters,
  readLeadReadings,
} from '#core/identify'
import { identityLines } from './identify-lines.ts'
import { benchOptions, choiceOption, namedInput, partOption, positiveOption, withBook, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'

interface IdentifyVerbOptions {
  readonly types?: boolean
  readonly gain?: string
  readonly leakage?: string
  readonly outline?: string
  readonly book?: string
  readonly meter?: string
  readonly leads?: string
  readonly sure?: string
  readonly json?: boolean
  readonly example?: boolean
}

/** A part and what it is. */
export type IdentifiedPart = { readonly part: string; readonly candidates?: Candidates } & Identity

export function define(command: Command): void {
  withJson(withBook(command).argument('[file]', 'readings between leads, JSON or CSV; - reads standard input'))
    .option('--meter <meter>', `what took the readings: ${meters.map((m) => m.name).join(' or ')} (default: digital)`)
    .option('--leads <count>', 'leads of the parts, 2 or 3, where the readings do not name all')
    .option('--sure <part>', 'how sure an answer must be before no further test is asked for (default: 99 %)')
    .option('--types', 'go on to the part types of catalog and book that each may be')
    .option('--gain <gain>', 'measured h_FE of the part, to rank them by')
    .option('--leakage <current>', 'measured I_CBO of the part, to rank them by')
    .option('--outline <outline>', 'its case, such as TO-5: only types in it')
    .option('--example', 'print a file of readings that works')
    .action(identify)
}

async function identify(file: string | undefined, o: IdentifyVerbOptions): Promise<void> {
  if (o.example === true) return void process.stdout.write(leadReadingsExampleCsv)
  const input = namedInput(file, 'file of readings')
  const name = choiceOption(
    '--meter',
    o.meter ?? meters[0]!.name,
    meters.map((m) => m.name),
  )
  const meter = meters.find((m) => m.name === name)!
  const leads = o.leads === undefined ? undefined : Number(choiceOption('--leads', o.leads, ['2', '3']))
  const sure = o.sure === undefined ? identifyDefaults.sure : partOption('--sure', o.sure)
  const read = readLeadReadings(input.text, { file: input.file, meter })
  if (!read.ok) throw new FaultError(read.faults)
  const known = (part: LeadReadings): { readonly leads?: number } => {
    const count = part.leads ?? leads
    return count === undefined ? {} : { leads: count }
  }
  const named = read.parts.map(
    (p): IdentifiedPart => ({ part: p.part, ...identifyPart(p.readings, { meter, sure, ...known(p) }) }),
  )
  const parts = wantsTypes(o) ? await withCandidates(named, o) : named
  if (o.json === true) printJson({ format: 'germane/identities/1', meter: name, sure, parts })
  else printLines(parts.flatMap(identityLines))
}

const wantsTypes = (o: IdentifyVerbOptions): boolean =>
  o.types === true || [o.gain, o.leakage, o.outline].some((given) => given !== undefined)

/** Adds the part types that the best answer of each part leaves. */
async function withCandidates(
  parts: readonly IdentifiedPart[],
  o: IdentifyVerbOptions,
): Promise<readonly IdentifiedPart[]> {
  const measured: AlsoKnown = {
    ...(o.gain === undefined ? {} : { gain: positiveOption('--gain', o.gain, '1') }),
    ...(o.leakage === undefined ? {} : { leakA: positiveOption('--leakage', o.leakage, 'A') }),
    ...(o.outline === undefined ? {} : { outline: o.outline }),
  }
  return onBench(benchOptions(o), async (bench) => {
    const held = bench.book === undefined ? [] : await partsOf(bench, {})
    const inDrawer = countedBy(held.flatMap((p) => p.type ?? []))
    const candidatesOf = ([best]: IdentifiedPart['hypotheses'], types: readonly PartType[]) =>
      best === undefined ? {} : { candidates: candidateTypes(best, types, { ...measured, inDrawer }) }
    return parts.map((p) => ({ ...p, ...candidatesOf(p.hypotheses, bench.types) }))
  })
}

function countedBy(names: readonly string[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1)
  return counts
}
