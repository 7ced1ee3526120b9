/** A place on the drawing, px. */
export type Spot = readonly [x: number, y: number]

export type Side = 'left' | 'right' | 'above' | 'below'

/** Width of every drawing of a stage, px: what a telephone shows. */
export const stageWidth = 356

/** A resistor, thermistor or diode: from its first node to its second, straight up, down or across. */
export interface DrawnLead {
  readonly ref: string
  readonly from: Spot
  readonly to: Spot
  /** Where its name and value stand. */
  readonly side: Side
  /** Where its current stands, beside the lead it enters by; not told where left out. */
  readonly flow?: Side
}

/** A transistor around the middle of its circle, its base to the left. */
export interface DrawnTransistor {
  readonly ref: string
  readonly at: Spot
  /** Collector below, emitter above. */
  readonly isFlipped?: boolean
}

/** Where the voltage of a node is told. */
export interface DrawnVoltage {
  readonly node: string
  readonly at: Spot
  readonly anchor: 'start' | 'middle' | 'end'
}

/** Where a current into a lead of a transistor is told; `along` is the way it goes where it is positive. */
export interface DrawnFlow {
  readonly of: string
  readonly at: Spot
  readonly along: 'up' | 'down' | 'left' | 'right'
  readonly side: Side
}

/** What carries the signal and no direct current: drawn light, and told no value. */
export interface DrawnCapacitor {
  /** From the node it hangs on to its other end, straight from place to place. */
  readonly path: readonly Spot[]
  /** Where its plates stand, on the path. */
  readonly at: Spot
  /** Written at its terminal; without one it ends on another wire. */
  readonly says?: 'in' | 'out'
}

/** The picture of one template. Its nodes are not written down: a test finds them from what touches what. */
export interface Layout {
  readonly height: number
  readonly wires: readonly (readonly Spot[])[]
  readonly leads: readonly DrawnLead[]
  readonly transistors: readonly DrawnTransistor[]
  readonly capacitors: readonly DrawnCapacitor[]
  readonly voltages: readonly DrawnVoltage[]
  readonly flows: readonly DrawnFlow[]
  /** Place of the common line with its sign. */
  readonly earth: Spot
  /** Battery between supply and common line. */
  readonly battery?: { readonly from: Spot; readonly to: Spot; readonly side: 'left' | 'right' }
  /** Terminal that is driven, or a source of a wave between it and the common line. */
  readonly drive?: { readonly at: Spot; readonly to?: Spot }
}

/** Reach of a transistor from the middle of its circle to the ends of its leads, px. */
export const reach = { base: 30, side: 8, end: 30 } as const

/** Ends of the leads of a transistor. */
export function leadsAt({ at: [x, y], isFlipped = false }: DrawnTransistor): Readonly<Record<'c' | 'b' | 'e', Spot>> {
  const up: Spot = [x + reach.side, y - reach.end]
  const down: Spot = [x + reach.side, y + reach.end]
  return { b: [x - reach.base, y], c: isFlipped ? down : up, e: isFlipped ? up : down }
}
