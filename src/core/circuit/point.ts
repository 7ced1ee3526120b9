import type { Circuit } from './circuit.ts'
import { type Compiled, type CompileOptions, compileCircuit, instanceNamed, setTemperature } from './compile.ts'
import type { BipolarInstance, DiodeInstance, Instance, JfetInstance, MosfetInstance } from './instance.ts'
import { type Attempt, assemble, solve } from './solve.ts'
import { stamp } from './stamp.ts'

/**
 * What a diode or transistor does at the operating point. Currents into the leads and voltages, with the sign turned
 * for PNP and p channel, so that all are positive in forward operation; leakage outside the junctions is included.
 */
export type DevicePoint =
  | ({ readonly kind: 'diode'; readonly vf: number; readonly if: number } & Shared)
  | ({
      readonly kind: 'bipolar'
      readonly ic: number
      readonly ib: number
      readonly vce: number
      readonly vbe: number
    } & Shared)
  | ({
      readonly kind: 'jfet'
      readonly id: number
      readonly ig: number
      readonly vds: number
      readonly vgs: number
    } & Shared)
  | ({ readonly kind: 'mosfet'; readonly id: number; readonly vds: number; readonly vgs: number } & Shared)

type WithoutSlopes<P> = P extends unknown ? Omit<P, 'smallSignal'> : never

/** What a device does at the operating point, its slopes left out. */
export type DeviceLevels = WithoutSlopes<DevicePoint>

interface Shared {
  readonly device: string
  /** Heat in the device, W. */
  readonly power: number
  readonly smallSignal: SmallSignal
}

/** Slopes of the inner device at the point: S and ohm. What a device does not have, or is without bound, is left out. */
export interface SmallSignal {
  /** Change of I_C or I_D with V_BE or V_GS at constant V_CE or V_DS, S. */
  readonly gm?: number
  /** Input resistance of a bipolar transistor, ohm. */
  readonly rpi?: number
  /** Output resistance, ohm; for a diode its slope resistance. */
  readonly ro?: number
}

/** An operating point, or what was tried to find one. */
export interface OperatingPoint {
  readonly converged: boolean
  readonly temperatureC: number
  readonly iterations: number
  readonly attempts: readonly Attempt[]
  readonly nodeVoltages: Readonly<Record<string, number>>
  readonly devices: Readonly<Record<string, DevicePoint>>
  /** Current that each source and cell delivers out of its + lead, A. */
  readonly sourceCurrents: Readonly<Record<string, number>>
}

/**
 * The DC operating point of a circuit.
 *
 * @returns the point; where none was found, `converged` is false, `attempts` says what was tried, and the rest is empty
 * @throws {FaultError} `not-found` where a component's device is not in the circuit
 */
export function operatingPoint(circuit: Circuit, options: CompileOptions = {}): OperatingPoint {
  const compiled = compileCircuit(circuit, options)
  return pointOf(compiled, solve(compiled))
}

/** The same circuit at several temperatures, each from where the last one stood. */
export function sweepTemperature(
  circuit: Circuit,
  temperaturesC: readonly number[],
  options: CompileOptions = {},
): readonly OperatingPoint[] {
  const compiled = compileCircuit(circuit, options)
  return temperaturesC.map((t) => {
    setTemperature(compiled, t + 273.15)
    return pointOf(compiled, solve(compiled))
  })
}

/** The point a compiled circuit stands at. */
export function pointOf(
  c: Compiled,
  outcome: { readonly converged: boolean; readonly iterations: number; readonly attempts: readonly Attempt[] },
): OperatingPoint {
  const { converged, iterations, attempts } = outcome
  const head = { converged, temperatureC: c.temperatureK - 273.15, iterations, attempts }
  if (!converged) return { ...head, nodeVoltages: {}, devices: {}, sourceCurrents: {} }
  assemble(c, 0, 1, true)
  return {
    ...head,
    nodeVoltages: Object.fromEntries([...c.nodeRow].sort(byName).map(([name, row]) => [name, c.x[row]!])),
    devices: Object.fromEntries(c.instances.map((i) => [i.ref, devicePoint(i, c.x)])),
    sourceCurrents: Object.fromEntries(c.sources.refs.map((ref, k) => [ref, 0 - c.x[c.sources.rows[k]!]!])),
  }
}

/**
 * One device of a compiled circuit where it stands after `settle` or `solve`: the quick way where the rest is not asked
 * for, as in a search.
 *
 * @throws {FaultError} `not-found` where no such device is in the circuit
 */
export function devicePointOf(c: Compiled, ref: string): DevicePoint {
  const i = instanceNamed(c, ref)
  stamp(i, c.x, true)
  return devicePoint(i, c.x)
}

/** The same without what is small signal: the currents and voltages a search asks for. */
export function deviceLevelsOf(c: Compiled, ref: string): DeviceLevels {
  const i = instanceNamed(c, ref)
  stamp(i, c.x, true)
  return pointOfKind(i, c.x)
}

const byName = (a: readonly [string, number], b: readonly [string, number]): number => (a[0] < b[0] ? -1 : 1)

/** What a device does at the voltages of the circuit; it must be stamped there. */
export function devicePoint(i: Instance, x: Float64Array): DevicePoint {
  const p = pointOfKind(i, x)
  // a part that is off has slopes of nothing, and no resistance that could be told
  const told = Object.entries(p.smallSignal).filter(([, value]) => Number.isFinite(value))
  return { ...p, smallSignal: Object.fromEntries(told) }
}

/** Heat in a device alone, W: the quick way where a search asks for nothing else. It must be stamped there. */
export const devicePower = (i: Instance, x: Float64Array): number => pointOfKind(i, x).power

function pointOfKind(i: Instance, x: Float64Array): DevicePoint {
  switch (i.kind) {
    case 'diode':
      return diodePoint(i, x)
    case 'bipolar':
      return bipolarPointOf(i, x)
    case 'jfet':
      return jfetPointOf(i, x)
    case 'mosfet':
      return mosfetPointOf(i, x)
  }
}

/** Voltage between two locals with the device's sign. */
const across = (i: Instance, x: Float64Array, a: number, b: number): number => i.sign * (x[i.at[a]!]! - x[i.at[b]!]!)

function diodePoint(i: DiodeInstance, x: Float64Array): DevicePoint {
  const vf = across(i, x, 0, 1)
  const current = i.out.currentA + i.parallelS * vf
  return { kind: 'diode', device: i.name, vf, if: current, power: vf * current, smallSignal: { ro: 1 / i.out.slopeS } }
}

function bipolarPointOf(i: BipolarInstance, x: Float64Array): DevicePoint {
  const vce = across(i, x, 0, 2)
  const vbe = across(i, x, 1, 2)
  const cb = i.cbS * across(i, x, 0, 1)
  const ic = i.out.ic + cb + i.ceS * vce
  const ib = i.out.ib - cb
  const { icByVbe, icByVbc, ibByVbe, ibByVbc } = i.out
  const smallSignal = { gm: icByVbe + icByVbc, rpi: 1 / (ibByVbe + ibByVbc), ro: -1 / icByVbc }
  return { kind: 'bipolar', device: i.name, ic, ib, vce, vbe, power: vce * ic + vbe * ib, smallSignal }
}

function jfetPointOf(i: JfetInstance, x: Float64Array): DevicePoint {
  const vds = across(i, x, 0, 2)
  const vgs = across(i, x, 1, 2)
  const { id, ig, idByVgs, idByVgd } = i.out
  const smallSignal = { gm: idByVgs + idByVgd, ro: -1 / idByVgd }
  return { kind: 'jfet', device: i.name, id, ig, vds, vgs, power: vds * id + vgs * ig, smallSignal }
}

function mosfetPointOf(i: MosfetInstance, x: Float64Array): DevicePoint {
  const vds = across(i, x, 0, 2)
  const vgs = across(i, x, 1, 2)
  const { id, ibody, idByVgs, idByVds } = i.out
  const power = vds * id + across(i, x, 3, 2) * ibody
  return { kind: 'mosfet', device: i.name, id, vds, vgs, power, smallSignal: { gm: idByVgs, ro: 1 / idByVds } }
}
