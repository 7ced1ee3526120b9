import type { Device } from '#core/circuit'
import type { Unit } from '#core/quantity'
import type { Reading } from '#core/tester'

/** A part whose truth is known. */
export interface KnownPart {
  /** Tag, as a person would have written it. */
  readonly part: string
  /** Diode or bipolar transistor. */
  readonly device: Device
}

/** What is true of a part where it was read: at its real current, voltage and temperature. */
export interface Truth {
  readonly part: string
  readonly symbol: string
  readonly point: number
  readonly value: number
  readonly unit: Unit
}

/** A reading of the run sheet that was not played, and why. */
export interface LeftOut {
  readonly part: string
  readonly step: string
  readonly why: string
}

/** A run sheet played with a part that is known: what would have been read, and what is true. */
export interface Rehearsal {
  readonly readings: readonly Reading[]
  readonly truths: readonly Truth[]
  readonly leftOut: readonly LeftOut[]
}

export interface RehearsalOptions {
  /** Real temperature of room and part, degC; what the thermometer shows differs from it by its error. */
  readonly ambientC: number
  /** The same seed gives the same tester, errors and readings. */
  readonly seed: number
}

export const rehearsalDefaults = { ambientC: 21, seed: 1 } as const satisfies RehearsalOptions
