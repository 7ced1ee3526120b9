/** What a tester is, in SI units; made from a description file by `readTester`. */
export interface Tester {
  readonly format: 'germane/tester/1'
  /** Short name used in files and commands: lower case, digits, hyphens. */
  readonly id: string
  readonly name: string
  readonly kind: 'needle' | 'digital' | 'display'
  readonly note?: string
  /** Transistor polarities its switches can take. */
  readonly polarities: readonly ('NPN' | 'PNP')[]
  readonly movement?: Movement
  /** Printed scales, first one is the default. Digital and display testers have none. */
  readonly scales: readonly Scale[]
  readonly ranges: readonly Range[]
  readonly supplies: readonly Supply[]
  readonly gain: Gain
  /** The tests its switches offer, in no order. */
  readonly tests: readonly TestOffer[]
  readonly limits: TesterLimits
  /** What a shorted part looks like on it. */
  readonly shortLooksLike?: string
  readonly thermometer?: { readonly uC: number }
  /** A fuse in the leads to the part: its resistance, and what it is rated for. */
  readonly fuse?: { readonly ohm: number; readonly ratedA: number }
  /** Calibrations against a reference, in the order they were made. */
  readonly calibrations?: readonly Calibration[]
}

/** One calibration of ranges and spans of the gain dial against a reference, each in its own unit. */
export interface Calibration {
  /** Day it was made, ISO. */
  readonly date: string
  /** Day from which it corrects readings; `date` where left out. */
  readonly from?: string
  /** Day by which it wants to be made again. */
  readonly due?: string
  readonly by?: string
  readonly reference?: string
  readonly note?: string
  /** Ambient temperature, degC. */
  readonly ambientC?: number
  readonly ranges: readonly RangeCalibration[]
}

/** What a calibration found worth of a range. */
export const trustWords = ['trusted', 'with corrections', 'not trusted'] as const
export type TrustWord = (typeof trustWords)[number]

export interface RangeCalibration {
  /** Id of the range, or of the span of the gain dial. */
  readonly range: string
  /** Stands with a span of the dial: a gain is a plain number. Left out for a range, which has its own unit. */
  readonly unit?: '1'
  readonly trust: TrustWord
  /** Why, as a sentence. */
  readonly why: string
  /** Least and most that was shown while calibrating. */
  readonly from: number
  readonly to: number
  readonly law: CorrectionLaw
  /** Standard uncertainty that comes from the reference, shared by all readings on the range. */
  readonly uReference: number
  /** Standard uncertainty of a single reading from reading the scale, friction and repeats. */
  readonly uRepeat: number
  /** Degrees of freedom of the scatter that law and repeats come from; left out, it is taken as known. */
  readonly dof?: number
  /** The readings it was worked out from. */
  readonly points?: readonly CalibrationPoint[]
}

/** One reading of a calibration, in the unit of what is calibrated. */
export interface CalibrationPoint {
  /** What the range showed, by its print. */
  readonly shown: number
  /** What it truly was. */
  readonly reference: number
  /** Standard uncertainty of the reference, where it was stated. */
  readonly u?: number
  /** Whether the needle came from below or from above. */
  readonly way?: 'up' | 'down'
}

/** What is to be added to what is shown. */
export type CorrectionLaw =
  /** offset + slope (shown - at); `at` is where the two are independent. */
  | {
      readonly kind: 'line'
      readonly at: number
      readonly offset: number
      readonly slope: number
      readonly uOffset: number
      readonly uSlope: number
    }
  /** Corrections at what was shown, rising, and their standard uncertainties; a monotone curve runs through them. */
  | {
      readonly kind: 'curve'
      readonly shown: readonly number[]
      readonly correction: readonly number[]
      readonly u: readonly number[]
    }

export interface Movement {
  readonly fullScaleA: number
  readonly coilOhm: number
  /** Limit of error of the coil resistance as a fraction; left out where shunts were adjusted to the coil. */
  readonly coilTolerance?: number
  /** Relative change of coil resistance per kelvin. */
  readonly copperPerK: number
  /** Temperature at which coil resistance is stated, degC. */
  readonly atC: number
  /** Accuracy class: limit of error in percent of full scale (IEC 60051-1). */
  readonly classPercent: number
  readonly zero: 'left' | 'centre'
  /** How finely a person reads it: fraction of a division. */
  readonly readable: number
  /** Diodes laid across it, one each way. */
  readonly diodes?: MovementDiodes
}

/** Kinds of diodes that are laid across movements. */
export const movementDiodes = ['germanium', 'schottky', 'silicon', 'rectifier', 'two-schottky', 'two-silicon'] as const
export type MovementDiodes = (typeof movementDiodes)[number]

/** Resistors of the bridge a gain dial works in, as its scale was drawn for them. */
export interface DialBridge {
  /** Where the dial stands; the other resistor stands in the other lead. */
  readonly dial: 'base' | 'collector'
  readonly fixedOhm: number
  /** The dial, end to end. */
  readonly potOhm: number
  /** Limit of error of either, as a part of it. */
  readonly tolerance: number
}

export interface Scale {
  readonly id: string
  readonly divisions: number
  /** Number printed at full scale. */
  readonly end: number
}

/** How a range reaches the movement, with tolerances as fractions (0.01 is 1 %). */
export type Circuit =
  | { readonly kind: 'movement' }
  | {
      readonly kind: 'shunt'
      readonly shuntOhm: number
      readonly tolerance: number
      readonly contactOhm: number
      readonly asFound?: AsFound
    }
  /** Universal shunt: the whole ring across the movement, the range tapped at `tapOhm` from common. */
  | { readonly kind: 'universal'; readonly ringOhm: number; readonly tapOhm: number; readonly tolerance: number }
  | { readonly kind: 'multiplier'; readonly seriesOhm: number; readonly tolerance: number; readonly asFound?: AsFound }
  /** Insides unknown or digital: only an accuracy statement. */
  | {
      readonly kind: 'stated'
      readonly ofReading: number
      readonly ofRange: number
      readonly counts: number
      /** Value of one count or smallest step shown, in the range's unit. */
      readonly step: number
      /** Voltage lost at full scale on a current range, V; or input resistance on a voltage range, ohm. */
      readonly burdenV?: number
      readonly inputOhm?: number
    }
  /** Nobody knows its accuracy: `assumed` is the fraction of reading taken for granted, said wherever it is used. */
  | { readonly kind: 'unknown'; readonly assumed: number; readonly step: number }

/** A measured value of a shunt or multiplier, used in place of the nominal one. */
export interface AsFound {
  readonly ohm: number
  readonly uOhm: number
}

export interface Range {
  readonly id: string
  readonly measures: 'current' | 'voltage'
  /** Printed full-scale value, A or V. */
  readonly fullScale: number
  readonly scale?: string
  readonly circuit: Circuit
}

export interface Supply {
  readonly id: string
  readonly kind: 'cells' | 'external'
  /** Voltages that can be set (taps), V; an external supply states `min` and `max` instead. */
  readonly taps: readonly number[]
  readonly min?: number
  readonly max?: number
  /** Source resistance at a tap of one cell, ohm per cell; external: total. */
  readonly ohmPerCell: number
  readonly cellV: number
  /** Standard uncertainty of a tap voltage as a fraction. */
  readonly tolerance: number
  readonly maxA?: number
}

export type Gain =
  /** A dial turned until the needle nulls; collector current is read on `collectorRanges`. */
  | {
      readonly kind: 'dial'
      readonly spans: readonly { readonly id: string; readonly from: number; readonly to: number }[]
      /** Limit of error as a fraction of the reading. */
      readonly tolerance: number
      /** Smallest step one can read off the dial, as a fraction of the span's top value. */
      readonly readable: number
      /** How sharply it can be nulled: half-width as a fraction of the reading. */
      readonly nullWithin: number
      /** Collector currents it can set, A. */
      readonly collectorA: readonly [number, number]
      /** The resistors it works with, where they are known. */
      readonly bridge?: DialBridge
    }
  /** Base and collector current are read separately. */
  | { readonly kind: 'ratio'; readonly maxBaseA: number; readonly collectorA: readonly [number, number] }
  /** A number on a display. */
  | {
      readonly kind: 'digital'
      /** Limit of error; left out when the maker says nothing. */
      readonly ofReading?: number
      readonly counts?: number
      readonly step: number
      /** Operating point it works at, where known. */
      readonly collectorA?: number
      readonly baseA?: number
      readonly collectorV?: number
    }
  | { readonly kind: 'none' }

/** What can be read. Trade symbols stand for themselves; `short` is the check for a short. */
export const readingKinds = [
  'short',
  'I_CEO',
  'I_CBO',
  'I_CES',
  'I_EBO',
  'I_C',
  'I_B',
  'h_FE',
  'V_BE',
  'V_CE',
  'V_CE(sat)',
  'V_F',
  'I_F',
  'I_R',
] as const
export type ReadingKind = (typeof readingKinds)[number]

/** One test the switches offer: what it reads, on which ranges, from which supply. */
export interface TestOffer {
  readonly reads: ReadingKind
  readonly ranges: readonly string[]
  readonly supply?: string
  /** Resistance in series with the part in this test, ohm: limits the current. */
  readonly seriesOhm?: number
}

export interface TesterLimits {
  readonly maxCurrentA: number
  readonly maxVoltageV: number
}
