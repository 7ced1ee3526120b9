import { type Limit, mayCondemn, type PartType } from '#core/device'
import {
  contribution,
  printPlain,
  printValue,
  type Quantity,
  standardUncertainty,
  type Term,
  type Unit,
} from '#core/quantity'
import { type CauseKind, causeKind } from '#core/reduce'
import type { Tolerance } from './conformance.ts'

/** What would settle an undecided verdict. */
export interface Settling {
  readonly settle: string
  readonly needU: number
}

/**
 * What to do about an undecided verdict: how good the reading must be, which cause stands in the way, and what makes
 * that cause smaller.
 *
 * @param needU largest standard uncertainty that would decide, if the value stays
 */
export function settling(q: Quantity, limit: Limit & Tolerance, needU: number): Settling {
  const u = standardUncertainty(q)
  const unit = q.unit
  if (needU < 0.02 * u)
    return {
      settle: `The value lies so near the limit that hardly any reading will settle it; decide by what the part is for.`,
      needU,
    }
  const kinds = byKind(q)
  const [kind, share] = kinds[0] ?? ['other', 0]
  const percent = Math.round((100 * share ** 2) / u ** 2)
  const need = `The standard uncertainty must come down from ${figure(u, unit)} to ${figure(needU, unit)}.`
  const cause = percent >= 95 ? 'Nearly all of it comes from' : `Most of it (${percent} %) comes from`
  const largest = largestOf(q, kind)
  const rest = Math.sqrt(Math.max(0, u ** 2 - share ** 2))
  const mend = mendOf(kind, largest, limit, { share, rest, needU })
  const more = rest > needU && kinds.length > 1 ? ` Then see to ${kindNames[kinds[1]![0]]}.` : ''
  return { settle: `${need} ${cause} ${kindNames[kind]}: ${mend}${more}`, needU }
}

const figure = (x: number, unit: Unit): string => printValue(x, unit, { digits: 2 })

/** Sorts of cause and what they make together, largest first. */
function byKind(q: Quantity): readonly (readonly [CauseKind, number])[] {
  const squares = new Map<CauseKind, number>()
  for (const t of q.budget) {
    const kind = causeKind(t)
    squares.set(kind, (squares.get(kind) ?? 0) + contribution(t) ** 2)
  }
  return [...squares.entries()].map(([k, s]) => [k, Math.sqrt(s)] as const).sort((a, b) => b[1] - a[1])
}

function largestOf(q: Quantity, kind: CauseKind): Term | undefined {
  return q.budget.filter((t) => causeKind(t) === kind).sort((a, b) => contribution(b) - contribution(a))[0]
}

const kindNames: Readonly<Record<CauseKind, string>> = {
  resolution: 'how finely the scale can be read',
  scatter: 'readings that scatter',
  null: 'the sharpness of the null',
  movement: 'the class of the movement',
  range: 'the shunt or multiplier of the range',
  calibration: 'the calibration of the range',
  statement: 'the accuracy stated for the instrument',
  dial: 'the gain dial',
  supply: 'the supply voltage',
  temperature: 'the temperature',
  law: 'the law it was carried over by',
  other: 'causes without a name here',
}

interface Sizes {
  readonly share: number
  readonly rest: number
  readonly needU: number
}

/** What makes a cause smaller. There is no default: a new sort must be handled. */
function mendOf(kind: CauseKind, largest: Term | undefined, limit: Limit, sizes: Sizes): string {
  switch (kind) {
    case 'resolution':
      return `read on a finer range${repeats(sizes)}.`
    case 'scatter':
    case 'null':
      return `read it again${repeats(sizes)}.`
    case 'movement':
      return 'hold the movement against a better meter at this deflection, or read with that meter.'
    case 'range':
      return 'measure the shunt or multiplier of this range and write its value as found into the description of the tester.'
    case 'calibration':
      return 'calibrate the range again with a better reference and more readings.'
    case 'statement':
      return 'read with a better instrument.'
    case 'dial':
      return 'read I_C and I_B in place of the dial, or check the dial against known currents.'
    case 'supply':
      return 'measure the supply voltage while the part is in.'
    case 'temperature':
      return 'let the part lie until it is as warm as the room, and read the room with a better thermometer.'
    case 'law':
      return lawMend(largest, limit)
    case 'other':
      return `make this smaller: ${largest?.label ?? 'unknown'}.`
  }
}

/** How often a reading must be repeated, where repeating can do it. */
function repeats({ share, rest, needU }: Sizes): string {
  const room = needU ** 2 - rest ** 2
  const n = room > 0 ? Math.ceil(share ** 2 / room) : Number.POSITIVE_INFINITY
  return n > 1 && n <= 25 ? `, or take ${n} readings and let the mean stand` : ''
}

const lawMends: readonly (readonly [start: string, mend: (limit: Limit) => string])[] = [
  ['law/doublings/', (l) => `measure it with room and part at ${celsius(l)}.`],
  ['law/gain-slope/', (l) => `measure it with room and part at ${celsius(l)}.`],
  ['law/voltage-slope/', (l) => `measure it with room and part at ${celsius(l)}.`],
  ['law/voltage-exponent/', (l) => `measure it at the voltage of the limit, ${atText(l, 'V')}.`],
  ['law/gain-voltage/', (l) => `measure it at the voltage of the limit, ${atText(l, 'V')}.`],
  ['law/gain-current/', (l) => `measure it at the current of the limit, ${atText(l, 'I')}.`],
  ['law/ideality/', (l) => `measure it at the current of the limit, ${atText(l, 'I')}.`],
]

const lawMend = (largest: Term | undefined, limit: Limit): string =>
  lawMends.find(([start]) => largest?.cause.startsWith(start))?.[1](limit) ??
  `measure it at the conditions of the limit, ${atText(limit, '')}.`

const celsius = (l: Limit): string => printPlain(l.at.T ?? 25, 'degC')

function atText(limit: Limit, first: 'V' | 'I' | ''): string {
  const all = Object.entries(limit.at).filter(([k]) => k !== 'T' && k.startsWith(first))
  return all.map(([k, v]) => `${k} = ${printPlain(v, k.startsWith('V') ? 'V' : 'A')}`).join(', ')
}

/** Why a record of low confidence fails nothing. */
export const lowConfidence = (type: PartType): string | undefined =>
  mayCondemn(type)
    ? undefined
    : `The record of ${type.type} is of low confidence and fails no part: find the maker's datasheet.`
