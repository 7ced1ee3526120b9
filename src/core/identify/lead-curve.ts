import {
  type Circuit,
  type Compiled,
  compileCircuit,
  reset,
  setTemperature,
  settle,
  setValue,
  solve,
} from '#core/circuit'
import { kelvin } from '#core/physics'
import { type BarePart, resistor } from './bare-part.ts'

/**
 * What flows between two leads of one part, the others open: voltage at some currents, and the current at one voltage.
 * A voltage of `Infinity` says that the current does not flow below `mostV`.
 */
export interface LeadCurve {
  /** Voltage at each of `curveAtA`, V. */
  readonly volts: readonly number[]
  /** Current at `leakAtV`, A. */
  readonly leakA: number
  /** Change of the voltage at 1 mA, V/K, and of the decimal logarithm of the leakage, 1/K. */
  readonly voltsPerK: number
  readonly decadesPerK: number
  /** Current gain at `leakAtV` with some microamperes into the third lead, where that is joined. */
  readonly gain?: number
}

/** Currents at which a curve is kept, A; the third is that of most diode checks. */
export const curveAtA = [1e-5, 1e-4, 1e-3, 1e-2] as const
/** Place of the diode check's current among them. */
export const diodeCheckAt = 2
/** Voltage of the leakage, V, and the most that is looked at: that of a supply that looks for breakdown. */
export const leakAtV = 3
export const mostV = 12
/** Temperatures between which the slopes are taken, and that of the curve, degC. */
const coolC = 15
const warmC = 35
const curveC = 25

/** Resistance that makes a source of voltage, and one that makes it none, ohm. */
const stiffOhm = 1e-3
const noneOhm = 1e13

/** Ordered pairs of leads: plus, minus. */
export const pairsOf = (leads: number): readonly (readonly [plus: number, minus: number])[] =>
  Array.from({ length: leads }, (_, a) => Array.from({ length: leads }, (_, b) => [a, b] as const))
    .flat()
    .filter(([a, b]) => a !== b)

/** Which electrodes of a part a source stands between, and where a third one is joined to. */
export interface LeadPair {
  readonly plus: string
  readonly minus: string
  /** The third lead joined to plus or to minus through `joinOhm`; left out, it is open. */
  readonly joined?: Joined
}
export type Joined = 'plus' | 'minus'

/** Resistor that joins a third lead: one that lies on every bench, small enough to turn any transistor on. */
export const joinOhm = 10e3
/** Resistor that lets some 8 uA into a third lead at `leakAtV`, as the sockets of meters do for their h_FE. */
const gainOhm = 300e3
/** Base current behind it, A: what a socket takes for it, whatever the junction drops. */
const gainBaseA = 8e-6

/** The part between two of its electrodes, with a source that can force a voltage or a current. */
function testCircuit(part: BarePart, electrodes: readonly string[], { plus, minus, joined }: LeadPair): Circuit {
  const floats = electrodes.filter((e) => e !== minus)
  const third = electrodes.find((e) => e !== minus && e !== plus)
  const join =
    joined === undefined || third === undefined
      ? []
      : [resistor('RJOIN', third, joined === 'plus' ? plus : '0', joinOhm)]
  const ground = (node: string): string => (node === minus ? '0' : node)
  return {
    title: 'lead pair',
    gminS: 1e-15,
    devices: part.devices,
    components: [
      ...part.components.map((c) => ({ ...c, nodes: c.nodes.map(ground) }) as (typeof part.components)[number]),
      ...join,
      ...floats.map((e) => ({ kind: 'R', ref: `ROPEN${e}`, nodes: [e, '0'], value: 1e15 }) as const),
      { kind: 'V', ref: 'VT', nodes: ['drive', '0'], value: 0 },
      { kind: 'R', ref: 'RT', nodes: ['drive', plus], value: stiffOhm },
      { kind: 'I', ref: 'IT', nodes: ['0', plus], value: 0 },
    ],
  }
}

const solved = (c: Compiled): boolean => {
  if (settle(c)) return true
  reset(c)
  return solve(c).converged
}

/** Current at a voltage, A; what does not settle counts as none. */
function currentAt(c: Compiled, volts: number): number {
  setValue(c, 'RT', stiffOhm)
  setValue(c, 'IT', 0)
  setValue(c, 'VT', volts)
  return solved(c) ? Math.max(0, -c.x[c.rowNames.indexOf('VT')]!) : 0
}

/** Voltage at a current, V. */
function voltsAt(c: Compiled, plus: string, current: number): number {
  setValue(c, 'VT', 0)
  setValue(c, 'RT', noneOhm)
  setValue(c, 'IT', current)
  if (!solved(c)) return Number.POSITIVE_INFINITY
  const v = c.x[c.nodeRow.get(plus)!]!
  return v < mostV ? Math.max(0, v) : Number.POSITIVE_INFINITY
}

/** Voltage where the current flows below `mostV`; a fired thyristor is found conducting. */
const flows = (c: Compiled, plus: string, current: number, mostA: number, isFired: boolean): number =>
  current <= mostA || isFired ? voltsAt(c, plus, current) : Number.POSITIVE_INFINITY

/** Simulates what flows between two electrodes of a part. */
export function leadCurve(part: BarePart, electrodes: readonly string[], pair: LeadPair): LeadCurve {
  const c = compileCircuit(testCircuit(part, electrodes, pair), { temperatureC: curveC })
  const { plus } = pair
  const isFired = part.isFired === true
  const atVolts = (v: number): number => currentAt(c, v)
  atVolts(0.3)
  const leakA = atVolts(leakAtV)
  const mostA = atVolts(mostV)
  reset(c)
  const volts = curveAtA.map((i) => flows(c, plus, i, mostA, isFired))
  if (pair.joined !== undefined) return joinedCurve(volts, leakA, gainOf(c, electrodes, pair))
  const slope = (take: () => number): number => {
    setTemperature(c, kelvin(warmC))
    const warm = take()
    setTemperature(c, kelvin(coolC))
    const cool = take()
    setTemperature(c, kelvin(curveC))
    return Number.isFinite(warm) && Number.isFinite(cool) ? (warm - cool) / (warmC - coolC) : 0
  }
  const isConducting = volts[diodeCheckAt]! < leakAtV
  return {
    volts,
    leakA,
    voltsPerK: isConducting ? slope(() => voltsAt(c, plus, curveAtA[diodeCheckAt])) : 0,
    decadesPerK: isConducting ? 0 : slope(() => Math.log10(atVolts(leakAtV) + 1e-15)),
  }
}

/** What flows past the third lead, by what flows into it: the gain that a socket shows, which counts the leakage in. */
function gainOf(c: Compiled, electrodes: readonly string[], { plus, minus, joined }: LeadPair): number {
  const third = electrodes.find((e) => e !== minus && e !== plus)!
  reset(c)
  setValue(c, 'RJOIN', gainOhm)
  const all = currentAt(c, leakAtV)
  const at = c.x[c.nodeRow.get(third)!]!
  const into = Math.abs((joined === 'plus' ? leakAtV - at : at) / gainOhm)
  return Math.max(0, all - into) / gainBaseA
}

/** A curve with the third lead joined: its voltages up to the diode check's, leakage and gain; slopes are not known. */
export const joinedCurve = (volts: readonly number[], leakA: number, gain: number): LeadCurve => ({
  volts: curveAtA.map((_, k) => (k <= diodeCheckAt ? volts[k]! : Number.POSITIVE_INFINITY)),
  leakA,
  voltsPerK: 0,
  decadesPerK: 0,
  gain,
})
