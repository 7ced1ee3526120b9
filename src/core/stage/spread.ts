import { quantileOfSorted, Random } from '#core/numeric'
import type { Between, PartNumbers } from './part-numbers.ts'
import { exactly } from './part-numbers.ts'
import type { Parts, Position } from './position.ts'
import { makeStage, type StagePoint, stageAt } from './stage-point.ts'

/** What 95 % of such stages do at one temperature of the air, A and V. */
export interface SpreadAt {
  readonly temperatureC: number
  /** 2.5, 50 and 97.5 in the hundred. */
  readonly ic: readonly [number, number, number]
  readonly vce: readonly [number, number, number]
  /** Share of the stages that have the room the signal needs; one that runs away has none. */
  readonly holds: number
}

export interface Spread {
  readonly count: number
  readonly seed: number
  readonly at: readonly SpreadAt[]
  /** Temperatures at which the part that is looked at runs away in some, and in what share of them; those are not in the bands. */
  readonly runsAway: readonly { readonly temperatureC: number; readonly share: number }[]
}

export const spreadDefaults = { count: 500, seed: 1 } as const

/** What is to be said of stages in which the part runs away; a sentence for each temperature. */
export const runawayText = ({ runsAway }: Spread): readonly string[] =>
  runsAway.map(({ temperatureC, share }) => {
    const which = share === 1 ? 'all' : `${share < 0.01 ? 'fewer than 1' : Math.round(100 * share)} in a hundred`
    return `In air of ${Math.round(temperatureC)} °C the part runs away in ${which} of them.`
  })

/**
 * Many stages of the same kind: resistors and supply evenly within their tolerances, numbers of the parts evenly on a
 * logarithmic scale between their ends. The same seed gives the same stages. The part that is looked at heats itself in
 * each, where its thermal resistance is known.
 *
 * @param temperaturesC each stage is looked at at all of them
 * @param tell is told how many are done
 */
export function stageSpread(
  position: Position,
  parts: Parts,
  temperaturesC: readonly number[],
  { count, seed }: { readonly count: number; readonly seed: number } = spreadDefaults,
  tell?: (done: number) => void,
): Spread {
  const points = temperaturesC.map((): StagePoint[] => [])
  const gone = temperaturesC.map(() => 0)
  for (let k = 0; k < count; k++) {
    const random = new Random(seed, `stage ${k}`)
    const drawn = Object.fromEntries(Object.entries(parts).map(([ref, n]) => [ref, drawnPart(n, random)]))
    const s = makeStage(drawnPosition(position, random), drawn)
    for (const [i, t] of temperaturesC.entries()) {
      const outcome = stageAt(s, t)
      if (outcome.kind === 'point') points[i]!.push(outcome.point)
      else if (outcome.kind === 'runaway') gone[i]!++
    }
    tell?.(k + 1)
  }
  const at = temperaturesC.flatMap((t, i) =>
    points[i]!.length === 0 ? [] : [summary(t, points[i]!, count, position.demands.swingV)],
  )
  const runsAway = temperaturesC.flatMap((temperatureC, i) =>
    gone[i] === 0 ? [] : [{ temperatureC, share: gone[i]! / count }],
  )
  return { count, seed, at, runsAway }
}

function summary(temperatureC: number, points: readonly StagePoint[], count: number, swingV: number): SpreadAt {
  const band = (of: (p: StagePoint) => number) => {
    const sorted = Float64Array.from(points, of).sort()
    return [0.025, 0.5, 0.975].map((q) => quantileOfSorted(sorted, q)) as unknown as [number, number, number]
  }
  const holding = points.filter((p) => p.rooms.every((room) => room >= swingV)).length
  return { temperatureC, ic: band((p) => p.ic), vce: band((p) => p.vce), holds: holding / count }
}

function drawnPosition(p: Position, random: Random): Position {
  const within = (tolerance: number): number => 1 + tolerance * (2 * random.uniform() - 1)
  const ohm = Object.fromEntries(Object.entries(p.ohm).map(([ref, r]) => [ref, r * within(p.tolerance[ref] ?? 0)]))
  return { ...p, supplyV: p.supplyV * within(p.supplyTolerance), ohm }
}

/** A part like this one: evenly on a logarithmic scale between its ends. */
function drawnPart(n: PartNumbers, random: Random): PartNumbers {
  const one = ({ low, high }: Between): Between => exactly(low * (high / low) ** random.uniform())
  return n.kind === 'diode'
    ? { ...n, forwardV: one(n.forwardV), leakageA: one(n.leakageA) }
    : { ...n, gain: one(n.gain), leakageA: one(n.leakageA), vbeV: one(n.vbeV) }
}
