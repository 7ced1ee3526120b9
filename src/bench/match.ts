import {
  type MatchOffers,
  matchOffers,
  newestParameters,
  type PartParameters,
  partsChosen,
  usableStatuses,
} from '#book'
import { FaultError } from '#core/fault'
import {
  badParameterName,
  type Graded,
  type MatchAnswer,
  type MatchPart,
  type MatchRequest,
  parameterMeant,
  quantityTaken,
  readMatchParts,
  wantedValue,
} from '#core/match'
import { leaf, type Quantity, term, type Unit } from '#core/quantity'
import { type Bench, bookOf, noParts } from './bench.ts'

/** Parts to choose from, and what was understood of where they come from. */
export interface MatchChoice {
  readonly parts: readonly MatchPart[]
  readonly notes: readonly string[]
  /** How many parts fit, where they are more than were to be given at most: then none is given. */
  readonly tooMany?: number
}

/** What of a request says which numbers and labels it needs. */
export type Needed = Pick<MatchRequest, 'same'> & {
  readonly by: readonly { readonly name: string }[]
  readonly across?: string | undefined
}

const labelsOf = ({ same, across }: Needed): readonly string[] => [...same, ...(across === undefined ? [] : [across])]

/** Reads the parts of a table that a request needs. @throws {FaultError} every fault of the table */
export function partsOfTable(input: { readonly text: string; readonly file: string }, needed: Needed): MatchChoice {
  const numbers = needed.by.map((one) => one.name)
  const read = readMatchParts(input.text, { file: input.file, numbers, labels: labelsOf(needed) })
  if (!read.ok) throw new FaultError(read.faults)
  return read
}

/** What of a part of the book a label can be. */
const bookLabels = ['type', 'lot', 'place', 'polarity', 'material'] as const

/**
 * Parts of the book with the parameters a request names, from the newest run of each, with their budgets: what readings
 * on one tester share cancels between them. Parts that are bad, used or gone are no choice.
 *
 * @param most parts to be given at most; where more fit, only their number is
 * @throws {FaultError} `bad-input` for a name or a label that is none; `not-found` where no part fits
 */
export async function partsOfBook(
  bench: Bench,
  filter: { readonly lot?: string; readonly type?: string },
  needed: Needed,
  most?: number,
): Promise<MatchChoice> {
  const fit = most === undefined ? 0 : await partsChosen(bookOf(bench), filter)
  if (most !== undefined && fit > most) return { parts: [], notes: [], tooMany: fit }
  const wanted = needed.by.map(({ name }) => ({ name, ...wantedValue(name) }))
  for (const { name, of } of wanted) refuseName(name, of)
  for (const label of labelsOf(needed)) refuseLabel(label)
  const symbols = [...new Set(wanted.map(({ of }) => of.split('@')[0]!.trim()))]
  const found = await newestParameters(bookOf(bench), { symbols, ...filter })
  if (found.length === 0) throw noParts(filter)
  const chosen = found.filter((part) => usableStatuses.includes(part.status))
  const known = new Map(bench.types.map((t) => [t.type, t]))
  const parts = chosen.map((part): MatchPart => {
    const quantities: Record<string, Quantity> = {}
    for (const { name, of, log } of wanted) {
      const meant = parameterMeant(part.parameters, of)?.quantity ?? inShort(part, of)
      const taken = meant === undefined ? undefined : quantityTaken(meant, log)
      if (taken !== undefined) quantities[name] = taken
    }
    const type = part.type === undefined ? undefined : known.get(part.type)
    const all = { ...part, polarity: type?.polarity, material: type?.material }
    const labels = Object.fromEntries(labelsOf(needed).map((l) => [l, all[l as (typeof bookLabels)[number]] ?? '']))
    const values = Object.fromEntries(Object.entries(quantities).map(([name, q]) => [name, q.value]))
    return { tag: part.tag, values, quantities, labels }
  })
  const out = found.length - chosen.length
  const notes = out === 0 ? [] : [`${out} ${out === 1 ? 'part is' : 'parts are'} bad, used or gone, and no choice.`]
  return { parts, notes }
}

/** A value the book has in short alone: its doubt is taken as the part's own. */
export function inShort({ tag, figures }: PartParameters, of: string): Quantity | undefined {
  const figure = figures[of]
  if (figure === undefined) return undefined
  const [unit, value, u] = figure
  return leaf(value, unit as Unit, { kind: 'stated', what: of }, [term(`short/${tag}/${of}`, { label: of, u })])
}

function refuseName(name: string, of: string): void {
  const problem = badParameterName(of)
  if (problem === undefined) return
  const mend = 'Write a symbol such as h_FE, h_FE@10mA, I_CBO@25C or ln(h_FE).'
  throw new FaultError({ code: 'bad-input', place: { field: 'by' }, value: name, problem, mend })
}

function refuseLabel(label: string): void {
  if ((bookLabels as readonly string[]).includes(label)) return
  const mend = `In a book parts have ${bookLabels.join(', ')}.`
  throw new FaultError({
    code: 'bad-input',
    place: { field: 'same' },
    value: label,
    problem: 'is no label of parts',
    mend,
  })
}

/** What the parts of the book can be chosen and matched by. */
export const offersOf = (bench: Bench): Promise<MatchOffers> => matchOffers(bookOf(bench))

/** Parts with the one value they are graded by; those without it are left out. */
export const gradedBy = (parts: readonly MatchPart[], name: string): readonly Graded[] =>
  parts.flatMap(({ tag, values }) => (values[name] === undefined ? [] : [{ tag, value: values[name] }]))

/** The document of sets, for scripts. */
export interface MatchDocument extends MatchAnswer {
  readonly format: 'germane/sets/1'
  /** The request that was answered, with all that was left to its defaults. */
  readonly request: MatchRequest
  /** How the table or the book was understood. */
  readonly notes: readonly string[]
}

export const matchDocument = (
  answer: MatchAnswer,
  request: MatchRequest,
  notes: readonly string[] = [],
): MatchDocument => ({ format: 'germane/sets/1', ...answer, request, notes })
