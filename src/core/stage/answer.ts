import { type Case, casesOf, type LeakageEffect, leakageEffect } from './cases.ts'
import { isHeld, type LimitOver, type Over, overTemperature } from './over-temperature.ts'
import type { Parts, Position } from './position.ts'
import { type Spread, spreadDefaults, stageSpread } from './spread.ts'
import { type StabilityFactor, stability } from './stability.ts'
import { makeStage, type Stage, type StagePoint, stageAt } from './stage-point.ts'
import type { State } from './template.ts'
import { numbersAtC } from './transistor-device.ts'

export type StageWord = 'works' | 'works but drifts' | 'will not'

/** Whether a part will work in a position, and what tells it. */
export interface StageVerdict {
  readonly word: StageWord
  /** The limit that fails first, or that has least to spare; and the temperature nearest to 25 degC where it is passed. */
  readonly limit: string
  readonly failsAtC?: number
  /** What is spare of the limit that fails first: 1 is all, below 0 it is passed. Parts are ranked by it. */
  readonly margin: number
  /** A sentence. */
  readonly why: string
}

/** What one part does in one position. */
export interface StageAnswer {
  readonly position: Position
  readonly parts: Parts
  readonly verdict: StageVerdict
  readonly limits: readonly LimitOver[]
  /** Points over temperature, in each state; a temperature without a point is left out. */
  readonly table: readonly { readonly state: string; readonly point: StagePoint }[]
  readonly cases: readonly { readonly name: Case['name']; readonly says: string; readonly verdict: StageVerdict }[]
  readonly stability: readonly StabilityFactor[]
  readonly leakage: readonly LeakageEffect[]
  readonly spread?: Spread
}

/** What to leave out or to choose. */
export interface StageWishes {
  /** Stages of the spread; 0 leaves it out. */
  readonly count?: number
  readonly seed?: number
}

/**
 * Will it work there? Computes a position with its parts over temperature, with a low supply and with aged resistors.
 *
 * @throws {FaultError} as `stageCircuit`
 */
export function stageAnswer(position: Position, parts: Parts, wishes: StageWishes = {}): StageAnswer {
  const s = makeStage(position, parts)
  const over = overTemperature(s)
  const cases = casesOf(s).map(({ name, says, position: strained }) => ({
    name,
    says,
    verdict: verdictOf(overTemperature(makeStage(strained, parts), true), position),
  }))
  const { fromC, toC } = position.demands
  const ends = [...new Set([fromC, numbersAtC, toC])].sort((a, b) => a - b)
  const { count = spreadDefaults.count, seed = spreadDefaults.seed } = wishes
  const hasRooms = position.template.rooms.length > 0
  return {
    position,
    parts,
    verdict: underStrain(verdictOf(over, position), cases),
    limits: over.limits,
    table: tableOf(s),
    cases,
    stability: stability(s),
    leakage: hasRooms ? leakageEffect(s, parts, ends) : [],
    ...(count > 0 && hasRooms ? { spread: stageSpread(position, parts, ends, { count, seed }) } : {}),
  }
}

/** The verdict alone, at the usual supply and values: quick enough for a whole drawer. */
export const stageVerdict = (position: Position, parts: Parts): StageVerdict =>
  verdictOf(overTemperature(makeStage(position, parts), true), position)

/** Whether the verdict is not `will not`: quick enough for a search of the numbers a stage works with. */
export const doesWork = (position: Position, parts: Parts): boolean => isHeld(makeStage(position, parts))

const away = (t: number): number => Math.abs(t - numbersAtC)

/** The verdict of a stage that was run over its temperatures. */
export function verdictOf({ limits }: Over, { demands }: Position): StageVerdict {
  const isInside = ({ failsAtC: t }: LimitOver): boolean => t !== undefined && t >= demands.fromC && t <= demands.toC
  const first = (all: readonly LimitOver[]): LimitOver | undefined =>
    all.reduce<LimitOver | undefined>(
      (a, b) => (a === undefined || away(b.failsAtC!) < away(a.failsAtC!) ? b : a),
      undefined,
    )
  const hard = limits.filter((l) => l.isSoft !== true)
  const fails = first(hard.filter(isInside))
  if (fails !== undefined)
    return said(
      'will not',
      fails,
      hard,
      `From ${degrees(fails.failsAtC!)} ${fails.failsAtC! < numbersAtC ? 'down' : 'on'} ${fails.says}.`,
    )
  const drifts = first(limits.filter((l) => l.isSoft === true && isInside(l)))
  if (drifts !== undefined)
    return said('works but drifts', drifts, [drifts], `At ${degrees(drifts.failsAtC!)} ${drifts.says}.`)
  const next = first(limits.filter((l) => l.failsAtC !== undefined))
  const range = `It holds from ${degrees(demands.fromC)} to ${degrees(demands.toC)}`
  return said(
    'works',
    next ?? limits[0]!,
    limits,
    next === undefined ? `${range}.` : `${range}; at ${degrees(next.failsAtC!)} ${next.says}.`,
  )
}

const degrees = (t: number): string => `${Math.round(t)} °C`

function said(word: StageWord, l: LimitOver, counted: readonly LimitOver[], why: string): StageVerdict {
  const margin = Math.min(...counted.map((x) => x.spare))
  return { word, limit: l.limit, margin, why, ...(l.failsAtC === undefined ? {} : { failsAtC: l.failsAtC }) }
}

/** A stage that works, but not under strain, drifts. */
function underStrain(verdict: StageVerdict, cases: StageAnswer['cases']): StageVerdict {
  if (verdict.word !== 'works') return verdict
  const worst = cases.find((c) => c.verdict.word === 'will not') ?? cases.find((c) => c.verdict.word !== 'works')
  if (worst === undefined) return verdict
  const { why } = worst.verdict
  return {
    ...worst.verdict,
    word: 'works but drifts',
    why: `It works as it is, but ${worst.says} it does not: ${why.charAt(0).toLowerCase()}${why.slice(1)}`,
  }
}

/** Temperatures of the table, K apart. */
const tableStepK = 10

/** Points over temperature in each state, as `StageAnswer` has them. */
export function tableOf(s: Stage): StageAnswer['table'] {
  const { fromC, toC } = s.position.demands
  const count = Math.floor((toC - fromC) / tableStepK + 1e-9)
  const steps = Array.from({ length: count + 1 }, (_, k) => fromC + k * tableStepK)
  const inside = [numbersAtC, toC].filter((t) => t >= fromC && t <= toC)
  const temperatures = [...new Set([...steps, ...inside])].sort((a, b) => a - b)
  return s.position.template.states.flatMap((state: State) =>
    temperatures.flatMap((t) => {
      const outcome = stageAt(s, t, state, true)
      return outcome.kind === 'point' ? [{ state: state.name, point: outcome.point }] : []
    }),
  )
}
