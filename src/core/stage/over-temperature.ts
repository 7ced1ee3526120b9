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

/** Runs a stage over its temperatures, from 25 degC to both ends and beyond the hot one. */
export function overTemperature(s: Stage): Over {
  const reference = stageAt(s, numbersAtC)
  const referenceA = reference.kind === 'point' ? reference.point.ic : Number.NaN
  const spares = remembered((t) => sparesAt(s, t, referenceA))
  const all = new Map<string, LimitOver>()
  for (const path of pathsOf(s)) follow(s.position.demands, path, spares, all)
  const limits = [...all.values()].sort((a, b) => a.spare - b.spare)
  return { limits, referenceA }
}

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

type Limits = Map<string, LimitOver>
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

function follow(demands: Demands, path: readonly number[], spares: SparesAt, all: Limits): void {
  let before: number | undefined
  for (const t of path) {
    const here = spares(t)
    for (const spare of here) note(demands, spare, { t, before }, spares, all)
    // a part that has run away is gone: hotter air says nothing more of it
    if (t > numbersAtC && here.every((x) => x.limit === 'runaway' && x.spare < 0)) return
    before = t
  }
}

function note(
  { fromC, toC }: Demands,
  spare: Spare,
  { t, before }: { readonly t: number; readonly before: number | undefined },
  spares: SparesAt,
  all: Limits,
): void {
  const known = all.get(spare.limit)
  const isInside = t >= fromC && t <= toC
  const fails = known?.failsAtC === undefined && spare.spare < 0 ? crossing(spares, spare.limit, before, t) : undefined
  const failsAtC = nearer(known?.failsAtC, fails)
  const worst = known === undefined || (isInside && spare.spare < known.spare) ? { ...spare, atC: t } : known
  all.set(spare.limit, { ...worst, ...(failsAtC === undefined ? {} : { failsAtC }) })
}

const away = (t: number): number => Math.abs(t - numbersAtC)

const nearer = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined ? b : b === undefined || away(a) <= away(b) ? a : b

/** Temperature between two at which a limit is passed, by halving. */
function crossing(spares: SparesAt, limit: string, good: number | undefined, bad: number): number {
  if (good === undefined) return bad
  let [inside, outside] = [good, bad]
  while (Math.abs(outside - inside) > closeK) {
    const middle = (inside + outside) / 2
    const spare = spares(middle).find((x) => x.limit === limit)?.spare ?? 1
    if (spare < 0) outside = middle
    else inside = middle
  }
  return outside
}
