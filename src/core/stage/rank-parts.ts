import { type StageVerdict, type StageWord, verdictOf } from './answer.ts'
import { overTemperature } from './over-temperature.ts'
import type { PartNumbers } from './part-numbers.ts'
import type { Parts, Position } from './position.ts'
import { polarityAt } from './stage-circuit.ts'
import { makeStage, type StagePoint, stageAt } from './stage-point.ts'
import { numbersAtC } from './transistor-device.ts'

/** A part of a drawer, tried in a position. */
export interface RankedPart {
  readonly part: PartNumbers
  readonly verdict: StageVerdict
  /** What is spare of each limit, least first. */
  readonly spares: readonly number[]
  /** Where it stands at 25 degC; left out where it has no point there. */
  readonly point?: StagePoint
}

/** A drawer tried in a position: the parts that can stand there, best first, and those that cannot with the reason. */
export interface Ranking {
  readonly ranked: readonly RankedPart[]
  readonly leftOut: readonly { readonly name: string; readonly why: string }[]
}

const order: Readonly<Record<StageWord, number>> = { works: 0, 'works but drifts': 1, 'will not': 2 }

/**
 * Tries every part in a position: those that work before those that drift before those that will not, and in each the
 * one with most to spare of its tightest limit first, then of the next.
 *
 * @param others what stands in the other places
 */
export function rankParts(position: Position, others: Parts, drawer: readonly PartNumbers[]): Ranking {
  const place = position.template.places.find((p) => p.ref === position.place)!
  const wanted = place.kind === 'D' ? 'diode' : polarityAt(position, place)
  const kindOf = (n: PartNumbers): string => (n.kind === 'diode' ? 'diode' : n.polarity)
  const wrong = (n: PartNumbers): string =>
    `it is ${n.kind === 'diode' ? 'a diode' : n.polarity}, and ${wanted} is wanted`
  const fitting = drawer.filter((n) => kindOf(n) === wanted)
  const ranked = fitting.map((part) => tried(position, others, part)).sort(betterRanked)
  const strange = drawer.filter((n) => kindOf(n) !== wanted)
  return { ranked, leftOut: strange.map((n) => ({ name: n.name, why: wrong(n) })) }
}

function tried(position: Position, others: Parts, part: PartNumbers): RankedPart {
  const s = makeStage(position, { ...others, [position.place]: part })
  const over = overTemperature(s, true)
  const verdict = verdictOf(over, position)
  const spares = over.limits.map((l) => l.spare)
  const outcome = stageAt(s, numbersAtC)
  return { part, verdict, spares, ...(outcome.kind === 'point' ? { point: outcome.point } : {}) }
}

/** Two spares nearer than this are the same. */
const sameSpare = 1e-3

/**
 * Order of two tried parts, better first. Where the tightest limit is the same for both, as that of the hot air often is,
 * the next one tells.
 */
export function betterRanked(a: RankedPart, b: RankedPart): number {
  const byWord = order[a.verdict.word] - order[b.verdict.word]
  if (byWord !== 0) return byWord
  const k = a.spares.findIndex((spare, i) => Math.abs(spare - (b.spares[i] ?? 1)) > sameSpare)
  return k < 0 ? 0 : (b.spares[k] ?? 1) - a.spares[k]!
}
