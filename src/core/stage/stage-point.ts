import {
  type Compiled,
  compileCircuit,
  deviceLevelsOf,
  powerInCircuit,
  reset,
  setPartTemperature,
  settle,
  solve,
} from '#core/circuit'
import { coolestRest, kelvin, type PowerAt, type SelfHeatingPart, selfHeating } from '#core/physics'
import { onHeatSink } from './heat-sink.ts'
import type { PartNumbers } from './part-numbers.ts'
import type { Parts, Position } from './position.ts'
import { nodeOf, setAmbient, setState, signOf, stageCircuit, warmCoupled } from './stage-circuit.ts'
import type { State } from './template.ts'

/** A position made ready to be solved at many temperatures. */
export interface Stage {
  readonly position: Position
  readonly part: PartNumbers
  readonly c: Compiled
}

/** Where a stage stands at one temperature of the air; voltages and currents of the place that is looked at. */
export interface StagePoint {
  readonly ambientC: number
  readonly junctionC: number
  /** What a warming of 1 K brings back, K; 0 where nothing is known of the part's heat. */
  readonly loopGain: number
  /** Largest thermal resistance with which the part would still come to rest, K/W; left out where any would do. */
  readonly mostKPerW?: number
  /** Collector, or forward, current, A. */
  readonly ic: number
  /** Base current, A; 0 of a diode. */
  readonly ib: number
  /** V_CE, or V_F. */
  readonly vce: number
  /** V_BE; 0 of a diode. */
  readonly vbe: number
  readonly powerW: number
  /** Room to each side, V, in the order of the template; and each end of this state, as a share of the supply. */
  readonly rooms: readonly number[]
  readonly ends: readonly number[]
}

/** A stage has a point; or its part runs away; or the solver found none. */
export type StageOutcome =
  | { readonly kind: 'point'; readonly point: StagePoint }
  | { readonly kind: 'runaway' }
  | { readonly kind: 'none' }

/** What a transistor keeps of the voltage over it when it is driven hard, V. `common practice` */
export const saturationV = { Ge: 0.2, Si: 0.3 } as const

/** Junction temperature beyond which a part is taken to have run away, degC. */
const ceilingC = { Ge: 150, Si: 250 } as const

/** Makes a position with its parts ready, the one that is looked at on its heat sink. @throws {FaultError} as `stageCircuit` */
export function makeStage(position: Position, parts: Parts): Stage {
  const given = parts[position.place]
  const part = given && onHeatSink(position, given)
  const c = compileCircuit(stageCircuit(position, part === undefined ? parts : { ...parts, [position.place]: part }))
  return { position, part: part!, c }
}

/** Solves from where the circuit stands, else from nothing. */
export function settled(c: Compiled): boolean {
  if (settle(c)) return true
  reset(c)
  return solve(c).converged
}

/**
 * Where a stage stands at a temperature of the air, the part that is looked at heating itself.
 *
 * @param state of the template; its first where left out
 * @param isWhole looks at every junction temperature up to the ceiling as well, for the most heat resistance it can stand
 */
export function stageAt(
  s: Stage,
  ambientC: number,
  state: State = s.position.template.states[0]!,
  isWhole = false,
): StageOutcome {
  const rest = comesToRest(s, ambientC, state, isWhole)
  if (typeof rest === 'string') return { kind: rest }
  const { junctionC, loopGain, ...most } = rest
  return { kind: 'point', point: { ...readPoint(s, ambientC, junctionC, loopGain, state), ...most } }
}

/**
 * Brings a stage to rest at a temperature of the air, the part that is looked at heating itself, and leaves it standing
 * there; `state` and `isWhole` as of `stageAt`.
 *
 * @returns the junction at rest; at the temperature of the air where nothing is known of the part's heat
 */
export function comesToRest(
  s: Stage,
  ambientC: number,
  state: State = s.position.template.states[0]!,
  isWhole = false,
): JunctionRest | 'runaway' | 'none' {
  const { c, position, part } = s
  if (!standsUnheated(s, ambientC, state)) return 'none'
  const { rthKPerW } = part.ratings
  if (rthKPerW === undefined) return { junctionC: ambientC, loopGain: 0 }
  const powerAt = powerAtJunction(s, ambientC)
  const near = isWhole ? undefined : nearRest(ambientC, rthKPerW, powerAt)
  const heat = near ?? wholeRest({ ambientC, rthKPerW, powerAt }, ceilingC[part.material], isWhole)
  if (typeof heat === 'string') return heat
  setPartTemperature(c, position.place, kelvin(heat.junctionC))
  warmCoupled(c, position, ambientC, heat.junctionC - ambientC)
  return settled(c) ? heat : 'none'
}

function standsUnheated({ c, position }: Stage, ambientC: number, state: State): boolean {
  setState(c, position, state.drive)
  setAmbient(c, position, ambientC)
  return settled(c)
}

/** Power of the part that is looked at by its junction temperature, what is coupled to it warmed as well. */
function powerAtJunction({ c, position }: Stage, ambientC: number): PowerAt {
  const alone = powerInCircuit(c, position.place)
  return (junctionC) => {
    warmCoupled(c, position, ambientC, junctionC - ambientC)
    return alone(junctionC)
  }
}

/** How far a rough rest may be off, K. */
const roughK = 1e-2

/**
 * How far currents of a rough rest may be off, as a share: none changes by as much as a tenth in a kelvin, as 2.3 mV of
 * 26 mV, or leakage that doubles every 8 K.
 */
export const roughShare = 5e-3

/**
 * Brings a stage near its rest in its first state, in a few steps, and leaves it standing there: for a search, which asks
 * again where a share of `roughShare` counts.
 *
 * @returns false where it does not come to rest
 */
export function comesNearRest(s: Stage, ambientC: number): boolean {
  const state = s.position.template.states[0]!
  if (!standsUnheated(s, ambientC, state)) return false
  const { rthKPerW } = s.part.ratings
  if (rthKPerW === undefined) return true
  const first = rthKPerW * readPlace(s).powerW
  if (Math.abs(first) <= roughK || roughRest(ambientC, first, rthKPerW, powerAtJunction(s, ambientC))) return true
  return typeof comesToRest(s, ambientC, state) !== 'string'
}

/**
 * Steps towards T = T_A + R_th P(T), each as long as the first two say (Steffensen).
 *
 * @param first the first step, K
 * @returns false where the steps do not shrink well
 */
function roughRest(ambientC: number, first: number, rthKPerW: number, powerAt: PowerAt): boolean {
  const missing = (t: number): number => ambientC + rthKPerW * (powerAt(t) ?? Number.NaN) - t
  let t = ambientC + first
  let left = missing(t)
  const share = left / first
  if (!(Math.abs(share) <= mostShare)) return false
  for (let k = 0; k < 3 && Math.abs(left) > roughK; k++) {
    t += left / (1 - share)
    left = missing(t)
  }
  return Math.abs(left) <= roughK
}

/** Where a junction comes to rest. */
export interface JunctionRest {
  readonly junctionC: number
  readonly loopGain: number
  readonly mostKPerW?: number
}

function wholeRest(part: SelfHeatingPart, ceiling: number, hasFold: boolean): JunctionRest | 'runaway' | 'none' {
  const range = { ceilingC: ceiling, stepK: 5 }
  if (!hasFold) return coolestRest(part, range)
  const heat = selfHeating(part, range)
  if (heat.kind !== 'stable') return heat.kind
  const { junctionC, loopGain } = heat.rest
  return { junctionC, loopGain, ...(heat.fold === undefined ? {} : { mostKPerW: heat.fold.rthKPerW }) }
}

/** Junction temperature to which a rest is found, K, and the step of the slope of power. */
const closeK = 1e-6
const slopeStepK = 0.05

/** Share of a step that the next one may be, for the quick way to be trusted. */
const mostShare = 0.3

/**
 * Rest of a junction that hardly heats itself: each temperature gives the next by its heat, in steps that shrink. From the
 * temperature of the air upwards that is the coolest rest; where steps do not shrink well the whole way is looked at.
 */
function nearRest(ambientC: number, rthKPerW: number, powerAt: PowerAt): JunctionRest | undefined {
  const next = (t: number): number => ambientC + rthKPerW * (powerAt(t) ?? Number.NaN)
  let t = ambientC
  let step = Number.POSITIVE_INFINITY
  for (;;) {
    const warmer = next(t)
    const moved = Math.abs(warmer - t)
    if (!(moved <= mostShare * step || step === Number.POSITIVE_INFINITY)) return undefined
    t = warmer
    step = moved
    if (moved <= closeK) break
  }
  const loopGain = (next(t + slopeStepK) - next(t - slopeStepK)) / (2 * slopeStepK)
  return Number.isFinite(loopGain) ? { junctionC: t, loopGain } : undefined
}

/** Currents, voltages and heat of the place that is looked at, as `StagePoint` has them, where a stage stands. */
export function readPlace({ c, position: p }: Stage): Pick<StagePoint, 'ic' | 'ib' | 'vce' | 'vbe' | 'powerW'> {
  const d = deviceLevelsOf(c, p.place)
  if (d.kind === 'bipolar') return { ic: d.ic, ib: d.ib, vce: d.vce, vbe: d.vbe, powerW: d.power }
  if (d.kind === 'diode') return { ic: d.if, ib: 0, vce: d.vf, vbe: 0, powerW: d.power }
  throw new Error(`a place holds a ${d.kind}`)
}

/** Reads the point a stage was solved at. */
export function readPoint(
  s: Stage,
  ambientC: number,
  junctionC = ambientC,
  loopGain = 0,
  state: State = s.position.template.states[0]!,
): StagePoint {
  const { c, position: p, part } = s
  const sign = signOf(p)
  const at = (node: string): number => {
    const row = c.nodeRow.get(nodeOf(p, node))
    return row === undefined ? 0 : c.x[row]!
  }
  const between = ([a, b]: readonly [string, string]): number => sign * (at(a) - at(b))
  const kept = (isTransistor?: boolean): number => (isTransistor === true ? saturationV[part.material] : 0)
  return {
    ambientC,
    junctionC,
    loopGain,
    ...readPlace(s),
    rooms: p.template.rooms.map((r) => between(r.nodes) - kept(r.isTransistor)),
    ends: p.template.ends.filter((e) => e.state === state.name).map((e) => Math.abs(between(e.nodes)) / p.supplyV),
  }
}
