import { type Spare, sparesOf } from './limits.ts'
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
  const all = new Map<string, LimitOver>()
  for (const path of pathsOf(s)) follow(s, path, referenceA, all)
  const limits = [...all.values()].sort((a, b) => a.spare - b.spare)
  return { limits, referenceA }
}

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

function follow(s: Stage, path: readonly number[], referenceA: number, all: Limits): void {
  let before: number | undefined
  for (const t of path) {
    for (const spare of at(s, t, referenceA)) note(s, spare, t, before, referenceA, all)
    before = t
  }
}

/** Every limit in every state. */
const at = (s: Stage, ambientC: number, referenceA: number): readonly Spare[] =>
  s.position.template.states.flatMap((state) => sparesOf(s, stageAt(s, ambientC, state), state, referenceA))

function note(s: Stage, spare: Spare, t: number, before: number | undefined, referenceA: number, all: Limits): void {
  const { fromC, toC } = s.position.demands
  const known = all.get(spare.limit)
  const isInside = t >= fromC && t <= toC
  const fails =
    known?.failsAtC === undefined && spare.spare < 0 ? crossing(s, spare.limit, before, t, referenceA) : undefined
  const failsAtC = nearer(known?.failsAtC, fails)
  const worst = known === undefined || (isInside && spare.spare < known.spare) ? { ...spare, atC: t } : known
  all.set(spare.limit, { ...worst, ...(failsAtC === undefined ? {} : { failsAtC }) })
}

const away = (t: number): number => Math.abs(t - numbersAtC)

const nearer = (a: number | undefined, b: number | undefined): number | undefined =>
  a === undefined ? b : b === undefined || away(a) <= away(b) ? a : b

/** Temperature between two at which a limit is passed, by halving. */
function crossing(s: Stage, limit: string, good: number | undefined, bad: number, referenceA: number): number {
  if (good === undefined) return bad
  let [inside, outside] = [good, bad]
  while (Math.abs(outside - inside) > closeK) {
    const middle = (inside + outside) / 2
    const spare = at(s, middle, referenceA).find((x) => x.limit === limit)?.spare ?? 1
    if (spare < 0) outside = middle
    else inside = middle
  }
  return outside
}
