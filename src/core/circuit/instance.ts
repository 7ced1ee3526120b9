import {
  type BipolarCard,
  type BipolarModel,
  type BipolarOut,
  bipolarAt,
  bipolarOut,
  type DeviceSetting,
  type DiodeCard,
  type DiodeModel,
  type DiodeOut,
  diodeAt,
  diodeOut,
  type JfetCard,
  type JfetModel,
  type JfetOut,
  jfetAt,
  jfetOut,
  type MosfetCard,
  type MosfetModel,
  type MosfetOut,
  mosfetAt,
  mosfetOut,
} from '#core/physics'
import type { Device } from './circuit.ts'

/** Rows of a device's own small matrix. */
export const width = 6

/** What every device instance of a compiled circuit has. Local rows: its leads first, then its inner nodes. */
interface Common {
  readonly ref: string
  readonly name: string
  /** +1, or -1 where all voltages and currents have their sign turned. */
  readonly sign: number
  /** Row of each local node in the circuit; where a device has no series resistance, an inner node is its lead. */
  readonly at: Int32Array
  /** Locals in use. */
  readonly size: number
  readonly leads: number
  /** Currents that leave each local node into the device, A, and their slopes, S. */
  readonly f: Float64Array
  readonly j: Float64Array
  /** Junction voltages of the last step, as n channel or NPN, V. */
  readonly junction: Float64Array
  /** Temperature, K, and card its model was made for. */
  modelK: number
  modelCard: object | undefined
}

export interface DiodeInstance extends Common {
  readonly kind: 'diode'
  card: DiodeCard
  readonly model: DiodeModel
  readonly out: DiodeOut
  parallelS: number
}
export interface BipolarInstance extends Common {
  readonly kind: 'bipolar'
  card: BipolarCard
  readonly model: BipolarModel
  readonly out: BipolarOut
  cbS: number
  ceS: number
}
export interface JfetInstance extends Common {
  readonly kind: 'jfet'
  card: JfetCard
  readonly model: JfetModel
  readonly out: JfetOut
}
export interface MosfetInstance extends Common {
  readonly kind: 'mosfet'
  card: MosfetCard
  readonly model: MosfetModel
  readonly out: MosfetOut
}
export type Instance = DiodeInstance | BipolarInstance | JfetInstance | MosfetInstance

/** A row for a node, or for an inner node where the device needs one. */
export interface RowGiver {
  readonly row: (node: string) => number
  readonly inner: (name: string) => number
}

const perOhm = (ohm: number | undefined): number => (ohm === undefined ? 0 : 1 / ohm)

/** Makes the instance of a device between its nodes; its model is of 300 K until it is brought to a temperature. */
export function instanceOf(
  ref: string,
  name: string,
  device: Device,
  nodes: readonly string[],
  give: RowGiver,
): Instance {
  const lead = nodes.map((n) => give.row(n))
  const inner = (at: number, ohm: number, what: string): number => (ohm > 0 ? give.inner(`${ref}:${what}`) : lead[at]!)
  const common = (at: readonly number[], sign: number, junctions: number): Common => ({
    ref,
    name,
    sign,
    at: Int32Array.from(at),
    size: at.length,
    leads: lead.length,
    f: new Float64Array(width),
    j: new Float64Array(width * width),
    junction: new Float64Array(junctions),
    modelK: Number.NaN,
    modelCard: undefined,
  })
  switch (device.kind) {
    case 'diode': {
      const model = diodeAt(device.card, 300)
      const shared = common([...lead, inner(0, model.rs, 'anode')], 1, 1)
      return {
        kind: 'diode',
        ...shared,
        card: device.card,
        model,
        out: diodeOut(),
        parallelS: perOhm(device.parallelOhm),
      }
    }
    case 'bipolar': {
      const model = bipolarAt(device.card, 300)
      const rows = [...lead, inner(0, model.rc, 'collector'), inner(1, model.rb, 'base'), inner(2, model.re, 'emitter')]
      const shared = common(rows, device.polarity === 'npn' ? 1 : -1, 2)
      const leak = { cbS: perOhm(device.leakOhm?.cb), ceS: perOhm(device.leakOhm?.ce) }
      return { kind: 'bipolar', ...shared, card: device.card, model, out: bipolarOut(), ...leak }
    }
    case 'jfet': {
      const model = jfetAt(device.card, 300)
      const shared = common(
        [...lead, inner(0, model.rd, 'drain'), inner(2, model.rs, 'source')],
        sign(device.polarity),
        2,
      )
      return { kind: 'jfet', ...shared, card: device.card, model, out: jfetOut() }
    }
    case 'mosfet': {
      const model = mosfetAt(device.card, device.polarity, 300)
      if (lead.length === 3) lead.push(lead[2]!)
      const shared = common(
        [...lead, inner(0, model.rd, 'drain'), inner(2, model.rs, 'source')],
        sign(device.polarity),
        2,
      )
      return { kind: 'mosfet', ...shared, card: device.card, model, out: mosfetOut() }
    }
  }
}

const sign = (polarity: 'n' | 'p'): number => (polarity === 'n' ? 1 : -1)

/** Brings the model of an instance to a temperature; one that is there already is left as it is. */
export function warm(i: Instance, temperatureK: number, setting: DeviceSetting): void {
  if (i.modelK === temperatureK && i.modelCard === i.card) return
  makeModel(i, temperatureK, setting)
  i.modelK = temperatureK
  i.modelCard = i.card
}

function makeModel(i: Instance, temperatureK: number, setting: DeviceSetting): void {
  switch (i.kind) {
    case 'diode':
      diodeAt(i.card, temperatureK, setting, i.model)
      return
    case 'bipolar':
      bipolarAt(i.card, temperatureK, setting, i.model)
      return
    case 'jfet':
      jfetAt(i.card, temperatureK, setting, i.model)
      return
    case 'mosfet':
      mosfetAt(i.card, i.sign > 0 ? 'n' : 'p', temperatureK, setting, i.model)
      return
  }
}
