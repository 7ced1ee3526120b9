import type { LawMaterial } from '#core/physics'

/** A number that is not known exactly: the usual value, and between what it lies. */
export interface Between {
  readonly low: number
  readonly usual: number
  readonly high: number
}

/** A number taken as it is. */
export const exactly = (value: number): Between => ({ low: value, usual: value, high: value })

/** What of a part's ratings counts in a stage. */
export interface StageRatings {
  /** Highest collector-emitter (or reverse) voltage, V, and collector (or forward) current, A. */
  readonly voltageV?: number
  readonly currentA?: number
  /** From junction to air and from junction to case, K/W, and the highest junction temperature, degC. */
  readonly rthKPerW?: number
  readonly rthCaseKPerW?: number
  readonly junctionMaxC?: number
}

interface Shared {
  /** Tag or type, for people. */
  readonly name: string
  readonly material: LawMaterial
  readonly ratings: StageRatings
  /** What was taken where nothing is known, as sentences. */
  readonly notes: readonly string[]
}

/** A transistor in a few numbers at 25 degC, all magnitudes: what a hand tester gives, or what is published. */
export interface TransistorNumbers extends Shared {
  readonly kind: 'bipolar'
  readonly polarity: 'NPN' | 'PNP'
  /** h_FE with leakage taken out, at this collector current (A) and voltage (V). */
  readonly gain: Between
  readonly atA: number
  readonly atV: number
  /** I_CBO, A, at this collector-base voltage, V. */
  readonly leakageA: Between
  readonly leakageAtV: number
  /** Share of it that creeps over the surface: in proportion to the voltage, and steady over temperature. */
  readonly surface: number
  /** V_BE at the collector current of the gain, V. */
  readonly vbeV: Between
}

/** A diode in a few numbers at 25 degC. */
export interface DiodeNumbers extends Shared {
  readonly kind: 'diode'
  /** V_F, V, at this forward current, A. */
  readonly forwardV: Between
  readonly atA: number
  /** I_R, A, at this reverse voltage, V. */
  readonly leakageA: Between
  readonly leakageAtV: number
}

export type PartNumbers = TransistorNumbers | DiodeNumbers

/** Which of the numbers between their ends to take: 0 is low, 1 usual, 2 high. */
export interface Choice {
  readonly gain?: number
  readonly leakageA?: number
  readonly vbeV?: number
}

/**
 * Share of I_CBO over the surface where nothing is known (common practice): germanium is taken at its worst, as junction
 * alone, which warms; silicon junctions leak less than a hand tester reads, so that what it reads is surface.
 */
export const usualSurface = { Ge: 0, Si: 1 } as const satisfies Readonly<Record<LawMaterial, number>>

/** What is taken where nothing is known. All `from memory`: small parts of the era at 25 degC. */
export const usualNumbers = {
  Ge: { gain: { low: 30, usual: 70, high: 160 }, leakageA: { low: 1e-6, usual: 4e-6, high: 12e-6 }, vbeAt1mA: 0.15 },
  Si: { gain: { low: 80, usual: 200, high: 500 }, leakageA: { low: 1e-11, usual: 1e-9, high: 15e-9 }, vbeAt1mA: 0.62 },
} as const satisfies Readonly<Record<LawMaterial, object>>
