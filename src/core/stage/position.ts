import type { Between, PartNumbers } from './part-numbers.ts'
import type { Template } from './template.ts'

/** What a stage must stand, and what counts as working. */
export interface Demands {
  /** Temperatures of the air, degC. */
  readonly fromC: number
  readonly toC: number
  /** How far the supply falls with tired cells, and resistors rise with age, as shares. */
  readonly sag: number
  readonly ageing: number
  /** Room the signal needs to either side, V. */
  readonly swingV: number
  /** Change of the collector current that still counts as steady, as a share. */
  readonly drift: number
  /** Collector current, A, and voltage, V, that are wanted; any where left out. */
  readonly want?: { readonly ic?: Between; readonly vce?: Between }
}

/** What is taken where a position does not say. All `common practice`. */
export const demandDefaults = {
  fromC: 0,
  toC: 50,
  /** A 9 V battery at 7.2 V is at its end. */
  sag: 0.2,
  /** Carbon composition rises by a tenth and more over the decades. */
  ageing: 0.1,
  drift: 0.5,
  /** Room for the signal, as a share of the supply. */
  swingShare: 0.1,
  /** Tolerances of resistors and of the supply. */
  tolerance: 0.1,
  supplyTolerance: 0.05,
} as const

/** A place in a piece of equipment: a template with its values, and what is known of the parts around. */
export interface Position {
  readonly title: string
  readonly template: Template
  readonly polarity: 'NPN' | 'PNP'
  readonly supplyV: number
  readonly supplyTolerance: number
  /** Resistance of the supply, ohm; 0 where it holds its voltage. */
  readonly supplyOhm: number
  /** Resistors that are there, ohm, and their tolerances as shares. */
  readonly ohm: Readonly<Record<string, number>>
  readonly tolerance: Readonly<Record<string, number>>
  /** B constants of thermistors, K. */
  readonly betaK: Readonly<Record<string, number>>
  /** The place that is looked at. */
  readonly place: string
  readonly demands: Demands
  /** Heat sink of the part that is looked at, from its case to the air, K/W; free air where left out. */
  readonly heatSinkKPerW?: number
  /** How much of the rise of that part warms others, as shares by name; those of the template where left out. */
  readonly coupling?: Readonly<Record<string, number>>
}

/** A part for every place of a position. */
export type Parts = Readonly<Record<string, PartNumbers>>

/** Whether every place has a part; one that is not looked at may have a device of its own. */
export const isFilled = ({ template, place }: Position, parts: Parts): boolean =>
  template.places.every((p) => parts[p.ref] !== undefined || (p.device !== undefined && p.ref !== place))
