import { contribution, type Quantity, type Term } from '#core/quantity'

/** What sort of thing a cause is, and so what would make it smaller. */
export type CauseKind =
  /** What the eye or the last digit leaves open. */
  | 'resolution'
  /** Readings that scatter. */
  | 'scatter'
  | 'null'
  | 'movement'
  /** Shunts, multipliers, contacts, coil. */
  | 'range'
  /** What a calibration leaves open. */
  | 'calibration'
  /** An accuracy that a maker states, or that is taken for granted. */
  | 'statement'
  | 'dial'
  | 'supply'
  /** Room thermometer and own heat. */
  | 'temperature'
  /** A law of physics known only roughly. */
  | 'law'
  | 'other'

/** How cause names tell what they are; the first that fits counts. */
const signs: readonly (readonly [sign: RegExp, kind: CauseKind])[] = [
  [/^(law|ideality)\//, 'law'],
  [/^(warm|rth)\/|(^|\/)thermometer$/, 'temperature'],
  [/\/scatter$/, 'scatter'],
  [/^reading\/.*\/(resolution|counts)(#\d+)?$/, 'resolution'],
  [/^reading\/.*\/null(#\d+)?$/, 'null'],
  [/\/calibration\//, 'calibration'],
  [/\/movement\//, 'movement'],
  [/\/range\/.+\/(gain|offset|assumed)$/, 'statement'],
  [/\/range\/|\/ring$|\/coil$/, 'range'],
  [/\/gain\//, 'dial'],
  [/\/supply\//, 'supply'],
]

/** Sort of a cause. */
export const causeKind = (t: Term): CauseKind => signs.find(([sign]) => sign.test(t.cause))?.[1] ?? 'other'

/** Part of the standard uncertainty that causes of one sort make together, in the quantity's unit. */
export const shareOf = (q: Quantity, kind: CauseKind): number =>
  Math.hypot(...q.budget.filter((t) => causeKind(t) === kind).map(contribution))
