import type { BipolarCard, DiodeCard, JfetCard, MosfetCard } from '#core/physics'

/** What stands behind a diode or transistor of a circuit: its card, and leakage outside the junctions. */
export type Device =
  | { readonly kind: 'diode'; readonly card: DiodeCard; readonly parallelOhm?: number }
  | {
      readonly kind: 'bipolar'
      readonly polarity: 'npn' | 'pnp'
      readonly card: BipolarCard
      /** Leakage outside the junctions, from collector to base and from collector to emitter, ohm. */
      readonly leakOhm?: { readonly cb?: number; readonly ce?: number }
    }
  | { readonly kind: 'jfet'; readonly polarity: 'n' | 'p'; readonly card: JfetCard }
  | { readonly kind: 'mosfet'; readonly polarity: 'n' | 'p'; readonly card: MosfetCard }

/** Letters a component's kind goes by: as the first letter of its card in a netlist; `B` is a cell, a battery. */
export type ComponentKind = 'R' | 'V' | 'I' | 'B' | 'D' | 'Q' | 'J' | 'M'

/** What a value may be: beyond these there is no part, and doubles lose what would be computed with it. */
export const valueLimits = { leastOhm: 1e-9, mostOhm: 1e18, mostVolts: 1e9, mostAmperes: 1e9 } as const

/**
 * A component with two leads and a value: resistance in ohm, voltage in V between the first node (+) and the second,
 * or a current in A that flows from the first node through the source to the second, as SPICE has it.
 */
export interface ValueComponent {
  readonly kind: 'R' | 'V' | 'I'
  readonly ref: string
  readonly nodes: readonly [string, string]
  readonly value: number
}

/** A cell: electromotive force in V, + at the first node, and its own resistance in ohm. */
export interface Cell {
  readonly kind: 'B'
  readonly ref: string
  readonly nodes: readonly [string, string]
  readonly value: number
  readonly resistance: number
}

/**
 * A diode or transistor. Nodes in the order anode, cathode; collector, base, emitter; drain, gate, source; drain, gate,
 * source, body.
 */
export interface DeviceComponent {
  readonly kind: 'D' | 'Q' | 'J' | 'M'
  readonly ref: string
  readonly nodes: readonly string[]
  /** Name of the device among those of the circuit. */
  readonly device: string
}

export type Component = ValueComponent | Cell | DeviceComponent

/** A circuit as plain data. Node `0` is the common one. */
export interface Circuit {
  readonly title: string
  readonly components: readonly Component[]
  readonly devices: Readonly<Record<string, Device>>
  /** Temperature the circuit's file asks for, degC. */
  readonly temperatureC?: number
  /** Leak across junctions the file asks for, S. */
  readonly gminS?: number
}

/** Names of the common node. */
export const isGround = (node: string): boolean => node === '0' || node.toLowerCase() === 'gnd'

/** Kind of device that a component letter stands for. */
export const deviceKinds = { D: 'diode', Q: 'bipolar', J: 'jfet', M: 'mosfet' } as const

/** What people call each kind of device. */
export const kindNames: Readonly<Record<Device['kind'], string>> = {
  diode: 'diode',
  bipolar: 'bipolar transistor',
  jfet: 'JFET',
  mosfet: 'MOSFET',
}

/** Leads of each component kind, in the order of its nodes. */
export const leadsOf: Readonly<Record<ComponentKind, readonly string[]>> = {
  R: ['1', '2'],
  V: ['+', '-'],
  I: ['from', 'to'],
  B: ['+', '-'],
  D: ['A', 'K'],
  Q: ['C', 'B', 'E'],
  J: ['D', 'G', 'S'],
  M: ['D', 'G', 'S', 'B'],
}
