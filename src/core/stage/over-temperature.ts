import { type Spare, sparesOf } from './limits.ts'
import type { Demands } from './position.ts'
import { type Stage, stageAt } from './stage-point.ts'
import { numbersAtC } from './transistor-device.ts'

/** How a limit goes over the temperatures of a position. */
export interface LimitOver extends Spare {
  /** Least that is spare within the temperatures asked for, and where, degC. */
  readonly atC: number
  /** Temperature nearest to 25 degC at which it is passed, looked for a little beyond those asked for as well. */
  readonly failsAtC?: number
}

/** A stage over its temperatures. */
export interface Over {
  /** Every limit, the one with least to spare first. */
  readonly limits: readonly LimitOver[]
  /** Collector current at 25 degC, A; NaN where there is no point. */
  readonly referenceA: number
}

/** Steps of the temperatures tried, and how far beyond those asked for, K. */
const stepK = 5
const beyondK = 30

/** Accuracy to which the temperature of a failure is found, K. */
const closeK = 0.05

/** Where a limit is passed on the way from 25 degC: between two temperatures that were tried, the first of them good. */
interface Bracket {
  readonly good?: number | undefined
  readonly bad: number
}

/** A limit as it was met on the way to both ends, and where it is passed on each. */
interface Met extends Spare {
  readonly atC: number
  readonly passed: readonly Bracket[]
}

/**
 * Runs a stage over its temperatures, from 25 degC to both ends and beyond the hot one.
 *
 * @param onlyNearest as a verdict needs it: the temperature of a failure is found for those limits alone that may be the
 *   one that fails first; those further away have one that was tried
 */
export function overTemperature(s: Stage, onlyNearest = false): Over {
  const reference = stageAt(s, numbersAtC)
  const referenceA = reference.kind === 'point' ? reference.point.ic : Number.NaN
  const spares = remembered((t) => sparesAt(s, t, referenceA))
  const met = metOn(s, spares)
  const isNeeded = onlyNearest ? mayBeFirst(met, s.position.demands) : () => true
  const limits = met.map(({ passed, ...limit }): LimitOver => {
    const fails = passed.map((b) => (isNeeded(b) ? crossing(spares, limit.limit, b) : b.bad))
    return fails.length === 0 ? limit : { ...limit, failsAtC: fails.reduce((a, b) => (away(b) < away(a) ? b : a)) }
  })
  return { limits: limits.sort((a, b) => a.spare - b.spare), referenceA }
}

/** Whether no limit that makes a stage fail is passed within its temperatures: what its verdict tells, and nothing else. */
export function isHeld(s: Stage): boolean {
  const { demands } = s.position
  const temperatures = pathsOf(s).flat().filter(isWithin(demands))
  return temperatures.every((t) => sparesAt(s, t, Number.NaN).every((x) => x.isSoft === true || !(x.spare < 0)))
}

const isWithin =
  ({ fromC, toC }: Demands) =>
  (t: number): boolean =>
    t >= fromC && t <= toC

/** Whether a limit passed so may be the one a verdict names: the nearest to 25 degC of the gravest kind there is. */
function mayBeFirst(all: readonly Met[], demands: Demands): (passed: Bracket) => boolean {
  const isInside = isWithin(demands)
  const passed = all.flatMap((l) => l.passed.map((b) => ({ isHard: l.isSoft !== true, passed: b })))
  const inside = passed.filter((x) => isInside(x.passed.bad))
  const hard = inside.filter((x) => x.isHard)
  const gravest = (hard.length > 0 ? hard : inside.length > 0 ? inside : passed).map((x) => x.passed)
  const within = Math.min(...gravest.map(({ good, bad }) => Math.max(away(good ?? bad), away(bad))))
  return (one) => gravest.includes(one) && closest(one) <= within
}

/** How near to 25 degC a temperature between two may be, K. */
const closest = ({ good, bad }: Bracket): number =>
  good !== undefined && good > numbersAtC !== bad > numbersAtC ? 0 : Math.min(away(good ?? bad), away(bad))

/** Every limit in every state. */
const sparesAt = (s: Stage, ambientC: number, referenceA: number): readonly Spare[] =>
  s.position.template.states.flatMap((state) => sparesOf(s, stageAt(s, ambientC, state), state, referenceA))

/** Temperatures from 25 degC (or the nearest end) upwards and downwards. */
function pathsOf({ position: { demands } }: Stage): readonly (readonly number[])[] {
  const start = Math.min(Math.max(numbersAtC, demands.fromC), demands.toC)
  const path = (to: number): number[] => {
    const steps = Math.ceil(Math.abs(to - start) / stepK)
    return Array.from({ length: steps + 1 }, (_, k) => (k === steps ? to : start + Math.sign(to - start) * k * stepK))
  }
  const up = path(demands.toC)
  return [
    [...up, ...Array.from({ length: beyondK / stepK }, (_, k) => demands.toC + (k + 1) * stepK)],
    path(demands.fromC),
  ]
}

type Limits = Map<string, Met>
type SparesAt = (ambientC: number) => readonly Spare[]

/** Several limits are often passed between the same two temperatures: each temperature is solved once. */
function remembered(make: SparesAt): SparesAt {
  const made = new Map<number, readonly Spare[]>()
  return (t) => {
    const known = made.get(t) ?? make(t)
    made.set(t, known)
    return known
  }
}

/** Every limit as it is met from 25 degC to both ends. */
function metOn(s: Stage, spares: SparesAt): readonly Met[] {
  const { demands } = s.position
  const all: Limits = new Map()
  for (const path of pathsOf(s)) {
    const passed = new Set<string>()
    let before: number | undefined
    for (const t of path) {
      const here = spares(t)
      for (const spare of here) {
        note(demands, spare, t, all)
        if (!(spare.spare < 0) || passed.has(spare.limit)) continue
        passed.add(spare.limit)
        const known = all.get(spare.limit)!
        all.set(spare.limit, { ...known, passed: [...known.passed, { good: before, bad: t }] })
      }
      // a part that has run away is gone: hotter air says nothing more of it
      if (t > numbersAtC && here.every((x) => x.limit === 'runaway' && x.spare < 0)) break
      before = t
    }
  }
  return [...all.values()]
}

function note(demands: Demands, spare: Spare, t: number, all: Limits): void {
  const known = all.get(spare.limit)
  if (known === undefined || (isWithin(demands)(t) && spare.spare < known.spare))
    all.set(spare.limit, { ...spare, atC: t, passed: known?.passed ?? [] })
}

const away = (t: number): number => Math.abs(t - numbersAtC)

/** Temperature between two at which a limit is passed, in whichever state, by halving. */
function crossing(spares: SparesAt, limit: string, { good, bad }: Bracket): number {
  if (good === undefined) return bad
  let [inside, outside] = [good, bad]
  while (Math.abs(outside - inside) > closeK) {
    const middle = (inside + outside) / 2
    if (spares(middle).some((x) => x.limit === limit && x.spare < 0)) outside = middle
    else inside = middle
  }
  return outside
}
