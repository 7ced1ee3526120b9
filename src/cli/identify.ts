import type { Command } from 'commander'
import { FaultError } from '#core/fault'
import {
  type Identity,
  identifyDefaults,
  identifyPart,
  type LeadReadings,
  leadReadingsExampleCsv,
  meters,
  readLeadReadings,
} from '#core/identify'
import { identityLines } from './identify-lines.ts'
import { choiceOption, namedInput, partOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'

interface IdentifyVerbOptions {
  readonly meter?: string
  readonly leads?: string
  readonly sure?: string
  readonly json?: boolean
  readonly example?: boolean
}

/** A part and what it is. */
export type IdentifiedPart = { readonly part: string } & Identity

export function define(command: Command): void {
  withJson(command.argument('[file]', 'readings between leads, JSON or CSV; - reads standard input'))
    .option('--meter <meter>', `what took the readings: ${meters.map((m) => m.name).join(' or ')} (default: digital)`)
    .option('--leads <count>', 'leads of the parts, 2 or 3, where the readings do not name all')
    .option('--sure <part>', 'how sure an answer must be before no further test is asked for (default: 99 %)')
    .option('--example', 'print a file of readings that works')
    .action(identify)
}

function identify(file: string | undefined, o: IdentifyVerbOptions): void {
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
  const parts = read.parts.map(
    (p): IdentifiedPart => ({ part: p.part, ...identifyPart(p.readings, { meter, sure, ...known(p) }) }),
  )
  if (o.json === true) printJson({ format: 'germane/identities/1', meter: name, sure, parts })
  else printLines(parts.flatMap(identityLines))
}
