import { type StageVerdict, type StageWord, stageVerdict } from './answer.ts'
import type { PartNumbers } from './part-numbers.ts'
import type { Parts, Position } from './position.ts'
import { polarityAt } from './stage-circuit.ts'
import { makeStage, type StagePoint, stageAt } from './stage-point.ts'
import { numbersAtC } from './transistor-device.ts'

/** A part of a drawer, tried in a position. */
export interface RankedPart {
  readonly part: PartNumbers
  readonly verdict: StageVerdict
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
 * one with most to spare of its tightest limit first.
 *
 * @param others what stands in the other places
 */
export function rankParts(position: Position, others: Parts, drawer: readonly PartNumbers[]): Ranking {
  const place = position.template.places.find((p) => p.ref === position.place)!
  const wanted = place.kind === 'D' ? 'diode' : polarityAt(position, place)
  const kindOf = (n: PartNumbers): string => (n.kind === 'diode' ? 'diode' : n.polarity)
  const fitting = drawer.filter((n) => kindOf(n) === wanted)
  const ranked = fitting.map((part) => tried(position, others, part)).sort(better)
  const strange = drawer.filter((n) => kindOf(n) !== wanted)
  return { ranked, leftOut: strange.map((n) => ({ name: n.name, why: `it is ${kindOf(n)}, not ${wanted}` })) }
}

function tried(position: Position, others: Parts, part: PartNumbers): RankedPart {
  const parts = { ...others, [position.place]: part }
  const verdict = stageVerdict(position, parts)
  const outcome = stageAt(makeStage(position, parts), numbersAtC)
  return outcome.kind === 'point' ? { part, verdict, point: outcome.point } : { part, verdict }
}

const better = (a: RankedPart, b: RankedPart): number =>
  order[a.verdict.word] - order[b.verdict.word] || b.verdict.margin - a.verdict.margin
