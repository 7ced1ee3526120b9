import type { StageWord } from './answer.ts'
import { type Spare, sparesOf } from './limits.ts'
import { type Stage, type StageOutcome, stageAt } from './stage-point.ts'
import type { State } from './template.ts'
import { numbersAtC } from './transistor-device.ts'

/** Where a stage is looked at for a moment. */
export interface GlanceAt {
  /** Temperature of the air, degC. */
  readonly ambientC: number
  /** Supply, V, a magnitude; that of the position where left out. */
  readonly supplyV?: number
  /** Current that drift is counted from, of `referenceCurrent`; solved for where left out. */
  readonly referenceA?: number
}

/** Current at 25 degC with the supply of the position, A; NaN where the stage has no point there. */
export function referenceCurrent(s: Stage): number {
  const reference = stageAt(s, numbersAtC)
  return reference.kind === 'point' ? reference.point.ic : Number.NaN
}

/** What a stage does at one temperature and one supply. */
export interface StageGlance {
  readonly word: StageWord
  /** The limit with least to spare of those that decide, and what is spare of it. */
  readonly limit: string
  readonly margin: number
  /** A sentence. */
  readonly why: string
  /** Every limit in every state, the one with least to spare first. */
  readonly limits: readonly Spare[]
  readonly points: readonly { readonly state: string; readonly outcome: StageOutcome }[]
}

/**
 * One temperature and one supply alone: what a slider asks, in a few milliseconds. Whether the stage works over all its
 * temperatures is for `stageVerdict` and `stageAnswer`.
 *
 * Drift is counted from the current at 25 degC with the supply of the position.
 *
 * @param s made once by `makeStage`, and used for every move of the slider
 */
export function stageGlance(s: Stage, at: GlanceAt): StageGlance {
  const { ambientC, supplyV = s.position.supplyV, referenceA = referenceCurrent(s) } = at
  const { states } = s.position.template
  const fed: Stage = { ...s, position: { ...s.position, supplyV } }
  const seen = states.map((state: State) => ({ state, outcome: stageAt(fed, ambientC, state) }))
  const limits = seen
    .flatMap(({ state, outcome }) => sparesOf(fed, outcome, state, referenceA))
    .sort((a, b) => a.spare - b.spare)
  const points = seen.map(({ state, outcome }) => ({ state: state.name, outcome }))
  return { ...wordOf(limits), limits, points }
}

function wordOf(limits: readonly Spare[]): Pick<StageGlance, 'word' | 'limit' | 'margin' | 'why'> {
  const said = (word: StageWord, l: Spare, why: string) => ({ word, limit: l.limit, margin: l.spare, why })
  const isPassed = (l: Spare): boolean => l.spare < 0
  const fails = limits.find((l) => isPassed(l) && l.isSoft !== true)
  if (fails !== undefined) return said('will not', fails, `Here ${fails.says}.`)
  const drifts = limits.find(isPassed)
  if (drifts !== undefined) return said('works but drifts', drifts, `Here ${drifts.says}.`)
  return said('works', limits[0]!, 'It holds here.')
}
