import { printPlain, type Unit } from '#core/quantity'
import type { Between } from './part-numbers.ts'
import type { Stage, StageOutcome, StagePoint } from './stage-point.ts'
import type { State } from './template.ts'

/** A limit at one point: what it is, and what is spare of it: 1 is all, 0 is at the limit, below 0 it is passed. */
export interface Spare {
  readonly limit: string
  /** What happens beyond it, as a clause: "the collector bottoms". */
  readonly says: string
  readonly spare: number
  /** Passing it makes a stage drift, not fail. */
  readonly isSoft?: boolean
}

/** What is spare where so much is used of what is allowed; no more than all, and no less than -1. */
const left = (used: number, allowed: number): number =>
  Number.isNaN(used) || !(allowed > 0) ? -1 : Math.min(1, Math.max(-1, 1 - used / allowed))

/** What is spare of every limit of a stage at one outcome. `coldA` is the current the drift is counted from. */
export function sparesOf(s: Stage, outcome: StageOutcome, state: State, referenceA: number): readonly Spare[] {
  if (outcome.kind === 'runaway')
    return [{ limit: 'runaway', says: 'the part runs away: its own heat drives its current up', spare: -1 }]
  if (outcome.kind === 'none') return [{ limit: 'no point', says: 'no operating point was found', spare: -1 }]
  const { point } = outcome
  // what is wanted of the current is wanted in the first state, at rest or switched on
  const isFirst = state === s.position.template.states[0]
  return [
    ...roomSpares(s, point),
    ...endSpares(s, point, state),
    ...ratingSpares(s, point),
    ...(isFirst ? [...driftSpare(s, point, referenceA), ...windowSpares(s, point)] : []),
  ]
}

const roomSpares = ({ position: p }: Stage, point: StagePoint): readonly Spare[] =>
  p.template.rooms.map((room, k) => ({
    limit: `room ${room.name ?? room.nodes.join('-')}`,
    says: room.says,
    spare: point.rooms[k]! > 0 ? left(p.demands.swingV, point.rooms[k]!) : -1,
  }))

const endSpares = ({ position: p }: Stage, point: StagePoint, state: State): readonly Spare[] =>
  p.template.ends
    .filter((e) => e.state === state.name)
    .map((end, k) => ({ limit: `end ${end.state}`, says: end.says, spare: left(point.ends[k]!, end.share) }))

/** Temperature at which ratings are printed, degC. */
const ratedAtC = 25

function ratingSpares({ position: p, part: { ratings } }: Stage, point: StagePoint): readonly Spare[] {
  const { voltageV, currentA, rthKPerW, junctionMaxC } = ratings
  const spares: Spare[] = []
  if (voltageV !== undefined)
    spares.push({
      limit: 'voltage',
      says: 'the voltage over the part is more than it may have',
      spare: left(Math.abs(point.vce) + p.demands.swingV, voltageV),
    })
  if (currentA !== undefined)
    spares.push({
      limit: 'current',
      says: 'the current is more than the part may carry',
      spare: left(Math.abs(point.ic), currentA),
    })
  if (rthKPerW !== undefined) {
    const says = 'the part runs away: its own heat drives its current up'
    spares.push({ limit: 'runaway', says, spare: left(Math.max(0, point.loopGain), 1) })
  }
  if (junctionMaxC !== undefined)
    spares.push({
      limit: 'junction',
      says: 'the junction is hotter than it may be',
      spare: left(Math.max(0, point.junctionC - ratedAtC), junctionMaxC - ratedAtC),
    })
  return spares
}

/** What is spare of the window a current or a voltage is wanted in: all in its middle, none at its ends. */
function windowSpares({ position: { demands }, part }: Stage, { ic, vce }: StagePoint): readonly Spare[] {
  const [i, v] = part.kind === 'diode' ? (['I_F', 'V_F'] as const) : (['I_C', 'V_CE'] as const)
  const spare = (limit: string, x: number, unit: Unit, want: Between | undefined): readonly Spare[] => {
    if (want === undefined) return []
    const [low, high] = [want.low, want.high].map((end) => printPlain(end, unit, { digits: 3 }))
    return [{ limit, says: `${limit} is not within ${low} to ${high}`, spare: left(...windowUse(x, want)) }]
  }
  return [...spare(i, ic, 'A', demands.want?.ic), ...spare(v, vce, 'V', demands.want?.vce)]
}

/** How far a value is from the middle of its window, and how far it may be to that side. */
const windowUse = (x: number, { low, usual, high }: Between): readonly [number, number] =>
  x < usual ? [usual - x, usual - low] : [x - usual, high - usual]

function driftSpare({ position: p }: Stage, point: StagePoint, referenceA: number): readonly Spare[] {
  if (p.template.rooms.length === 0) return []
  const drift = Math.abs(point.ic / referenceA - 1)
  const says = `the current has moved by more than ${Math.round(100 * p.demands.drift)} %`
  return [{ limit: 'drift', says, spare: left(drift, p.demands.drift), isSoft: true }]
}
