import type { Component, Device } from '#core/circuit'

/** A resistor of a template: where it stands, an example of its value, and what it is there for. */
export interface TemplateResistor {
  readonly ref: string
  readonly nodes: readonly [string, string]
  /** Value of the example, ohm. */
  readonly ohm: number
  readonly role: string
  /** What takes its place where a position leaves it out; left out itself, the resistor must be there. */
  readonly absent?: 'wire' | 'nothing'
}

/** A thermistor: `ohm` holds at 25 degC, and the value follows its B constant. */
export interface TemplateThermistor extends TemplateResistor {
  readonly betaK: number
}

/** A place for a transistor (collector, base, emitter) or a diode (anode, cathode). */
export interface TemplatePlace {
  readonly ref: string
  readonly kind: 'Q' | 'D'
  readonly nodes: readonly string[]
  /** A transistor of the other polarity than the stage. */
  readonly isOpposite?: boolean
  readonly role: string
  /** What stands there where no part is named, as in an NPN stage. */
  readonly device?: Device
}

/** A source that follows the supply; one that is driven has a share of it in each state. */
export interface TemplateSource {
  readonly ref: string
  readonly node: string
  /** Where its other end is; the common node where left out. */
  readonly minus?: string
  readonly isDriven?: boolean
  /** What it has of the supply in an NPN stage; all where left out. */
  readonly share?: number
}

/** What of a free netlist stays as it is, written as in an NPN stage. */
export interface Fixed {
  readonly components: readonly Component[]
  readonly devices: Readonly<Record<string, Device>>
  /** Leak across junctions, S. */
  readonly gminS?: number
}

/** Room for the signal: the voltage between two nodes, less what cannot be used of it. */
export interface Room {
  readonly nodes: readonly [string, string]
  /** What the limit is called where not by the nodes. */
  readonly name?: string
  /** Whether a transistor stands between them, which keeps its saturation voltage. */
  readonly isTransistor?: boolean
  /** What happens where there is none left, as a clause: "the collector bottoms". */
  readonly says: string
}

/** A voltage between two nodes that must stay small in one state, as a share of the supply. */
export interface End {
  readonly state: string
  readonly nodes: readonly [string, string]
  readonly share: number
  readonly says: string
}

/** What a stage is driven to in one state; amplifiers have one state, at rest. */
export interface State {
  readonly name: string
  /** Share of the supply that the driven source has. */
  readonly drive: number
}

/**
 * A stage as plain data: one of the era's, or one made from a netlist. Nodes are named for what stands there; `0` is the common one. In a PNP stage the
 * supply is negative and every polarity is turned.
 */
export interface Template {
  readonly id: string
  readonly title: string
  readonly says: string
  readonly supplyV: number
  readonly sources: readonly TemplateSource[]
  readonly resistors: readonly TemplateResistor[]
  readonly thermistors: readonly TemplateThermistor[]
  readonly places: readonly TemplatePlace[]
  /** The place that is looked at where nobody says another. */
  readonly main: string
  readonly states: readonly State[]
  readonly rooms: readonly Room[]
  readonly ends: readonly End[]
  /**
   * Resistors of the textbook stability factors of the main place: R_B of those in parallel, R_E of those in series.
   * Left out where the textbook formula does not hold.
   */
  readonly bias?: { readonly rb: readonly string[]; readonly re: readonly string[] }
  /** Resistors that set the operating point and may be changed to restore it. */
  readonly settles: readonly string[]
  /**
   * What the part in a place warms besides itself, as shares of its own rise above the air: what stands on its heat sink,
   * and the other half of a pair, which carries the same current.
   */
  readonly heats?: Readonly<Record<string, Readonly<Record<string, number>>>>
  readonly fixed?: Fixed
}
