import {
  type Circuit,
  type Compiled,
  type Component,
  compileCircuit,
  type Device,
  type DevicePoint,
  devicePointOf,
  settle,
  setValue,
  solve,
} from '#core/circuit'
import { FaultError } from '#core/fault'
import { findRoot } from '#core/numeric'
import type { ReadingKind } from '#core/tester'

/** What feeds a part in a test: a supply, and all that stands in series with it. */
export interface Fed {
  readonly emfV: number
  /** Inside the supply, ohm. */
  readonly sourceOhm: number
  /** Between supply and part: resistors and the meter, ohm. */
  readonly seriesOhm: number
  /** A voltmeter across the part, ohm; left out, there is none. */
  readonly acrossOhm?: number
  readonly temperatureC: number
}

/** How the leads of a transistor lie in a leakage test: C, B, E; `x` is the fed node, another letter hangs free. */
const leakageLeads = {
  I_CEO: ['x', 'b', '0'],
  I_CBO: ['x', '0', 'e'],
  I_CES: ['x', '0', '0'],
  I_EBO: ['c', '0', 'x'],
} as const

type LeakageKind = keyof typeof leakageLeads
export const isTransistorLeakage = (reads: ReadingKind): reads is LeakageKind => Object.hasOwn(leakageLeads, reads)

/** No resistance is nothing: a lead has a microohm. */
const lead = 1e-6

const signOf = (device: Device): number => ('polarity' in device && device.polarity === 'pnp' ? -1 : 1)

function feedParts(f: Fed, sign: number): readonly Component[] {
  const across: readonly Component[] =
    f.acrossOhm === undefined || !Number.isFinite(f.acrossOhm)
      ? []
      : [{ kind: 'R', ref: 'RV', nodes: ['x', '0'], value: f.acrossOhm }]
  return [
    { kind: 'B', ref: 'S', nodes: ['s', '0'], value: sign * f.emfV, resistance: f.sourceOhm },
    { kind: 'R', ref: 'R', nodes: ['s', 'x'], value: Math.max(lead, f.seriesOhm) },
    ...across,
  ]
}

const circuitOf = (device: Device, f: Fed, part: Component, more: readonly Component[] = []): Circuit => ({
  title: 'test',
  components: [...feedParts(f, signOf(device)), ...more, part],
  devices: { part: device },
})

function stuck(what: string): never {
  throw new FaultError({
    code: 'out-of-domain',
    name: `operating point of the ${what} test`,
    value: 'not found',
    allowed: 'one the model reaches; check its card',
  })
}

/** A circuit brought to rest. */
function atRest(circuit: Circuit, temperatureC: number, what: string): Compiled {
  const c = compileCircuit(circuit, { temperatureC })
  if (!settle(c) && !solve(c).converged) stuck(what)
  return c
}

/** Leakage of a transistor, A: what the supply gives. */
export function leakageCurrent(device: Device, reads: LeakageKind, f: Fed): number {
  const part = { kind: 'Q', ref: 'P', nodes: [...leakageLeads[reads]], device: 'part' } as const
  const c = atRest(circuitOf(device, f, part), f.temperatureC, reads)
  return Math.abs(c.x[c.sources.rows[0]!]!)
}

/** Current and voltage of a diode, both positive; backward where it is put in reversed. */
export function diodeAtRest(
  device: Device,
  f: Fed,
  isReversed: boolean,
): { readonly currentA: number; readonly voltageV: number } {
  const part = { kind: 'D', ref: 'P', nodes: isReversed ? ['0', 'x'] : ['x', '0'], device: 'part' } as const
  const at = devicePointOf(atRest(circuitOf(device, f, part), f.temperatureC, 'diode'), 'P')
  return at.kind === 'diode' ? { currentA: Math.abs(at.if), voltageV: Math.abs(at.vf) } : stuck('diode')
}

/** Base-emitter voltage of a transistor whose base is fed like a diode, the collector open, V. */
export function baseAsDiode(device: Device, f: Fed): number {
  const part = { kind: 'Q', ref: 'P', nodes: ['c', 'x', '0'], device: 'part' } as const
  const at = devicePointOf(atRest(circuitOf(device, f, part), f.temperatureC, 'V_BE'), 'P')
  return at.kind === 'bipolar' ? at.vbe : stuck('V_BE')
}

/** A transistor in the gain test. */
export type GainPoint = Extract<DevicePoint, { kind: 'bipolar' }>

/**
 * The gain test: emitter to common, collector fed through the meter, and a base control that holds the base current. The
 * base current comes out of the same supply.
 */
export class GainTest {
  readonly #compiled: Compiled
  readonly #sign: number

  constructor(device: Device, f: Fed) {
    this.#sign = signOf(device)
    const bias = { kind: 'I', ref: 'IB', nodes: ['s', 'b'], value: 0 } as const
    const part = { kind: 'Q', ref: 'P', nodes: ['x', 'b', '0'], device: 'part' } as const
    this.#compiled = compileCircuit(circuitOf(device, f, part, [bias]), { temperatureC: f.temperatureC })
  }

  /** The point at a base current, A. */
  at(baseA: number): GainPoint {
    const c = this.#compiled
    setValue(c, 'IB', this.#sign * baseA)
    if (!settle(c) && !solve(c).converged) stuck('gain')
    return devicePointOf(c, 'P') as GainPoint
  }

  /** The base current that gives a collector current; 0 where leakage gives more, undefined where none does. */
  baseFor(collectorA: number): number | undefined {
    const over = (baseA: number): number => this.at(baseA).ic - collectorA
    if (over(0) >= 0) return 0
    let high = collectorA / 500
    while (over(high) < 0) {
      high *= 4
      if (high > 4 * collectorA) return undefined
    }
    return findRoot(over, 0, high, { tolerance: 1e-5 * high })
  }
}
