import type { Tolerance } from '#core/judge'
import type { Load } from '#core/resistor'
import type { Tester } from '#core/tester'

/** A tester with one of its parts at another value. */
export type Changing = (tester: Tester, value: number) => Tester

/** Kinds of parts a tester is made of. */
export type PartKind =
  | 'movement'
  | 'coil'
  | 'across'
  | 'shunt'
  | 'segment'
  | 'multiplier'
  | 'contact'
  | 'leads'
  | 'fuse'
  | 'dial'
  | 'series'
  | 'cell'
  | 'inside'

/** One part of a tester: what it should be, and how the tester changes with it. */
export interface TesterPart {
  /** Name in sheets and commands: `shunt 10 mA`. */
  readonly id: string
  readonly kind: PartKind
  readonly unit: 'ohm' | 'A' | 'V'
  /** What it should be; left out where only a limit is known. */
  readonly nominal?: number
  /** Values allowed. */
  readonly allowed: Tolerance
  /** As the description says it was found, with the standard uncertainty of that. */
  readonly stated?: { readonly value: number; readonly u: number }
  /** How to measure it, as a sentence. */
  readonly how: string
  /** What it carries at most; of parts that are resistors. */
  readonly load?: Load
  /** The tester with the part at another value; ring segments, cells and all that share it change with it. */
  readonly change: Changing
}

/** What is taken where a description says nothing. All are common practice. */
export const partDefaults = {
  /** Limit of error of a resistor in series with the part under test, as a part of it. */
  series: 0.05,
  /** Voltage that leads or a feeding contact may lose at the full scale they carry, V. */
  dropV: 0.1,
  /** What diodes and dirt across the movement may take of its current, as a part of its class. */
  acrossPartOfClass: 1 / 3,
  /** How far the resistance inside a cell may grow, as a multiple. */
  inside: 1.5,
  /** The same of a fuse, whose caps and clips corrode. */
  fuse: 1.5,
} as const

/** Values up to a part away from one. */
export const around = (value: number, part: number): Required<Tolerance> => ({
  min: value * (1 - part),
  max: value * (1 + part),
})
