import { nullDividerGain, nullRatioGain } from '#core/tester'

/**
 * The bridge a gain dial works in: base and collector fed from one cell through resistors, one of which is the dial, and
 * a needle that is brought to nothing.
 */
export type GainBridge = {
  readonly emfV: number
  /** Voltage of the base against the emitter: in the divider the one the scale was drawn for. */
  readonly baseEmitterV: number
} & (
  | {
      /** The needle stands between collector and base: at null I_B R_B = I_C R_C, whatever the cell gives. */
      readonly kind: 'ratio'
      readonly dial: 'base' | 'collector'
      /** The other resistor, ohm. */
      readonly fixedOhm: number
    }
  | {
      /** The needle stands between collector and a tap of the cell, at this part of it above the emitter. */
      readonly kind: 'divider'
      readonly dial: 'base'
      /** Resistor in the collector, ohm. */
      readonly fixedOhm: number
      readonly tapFraction: number
      /** Both divider resistors together, ohm. */
      readonly dividerOhm: number
    }
)

/** Resistors of base and collector when the dial stands at a resistance. */
export const resistorsOf = (
  b: GainBridge,
  dialOhm: number,
): { readonly baseOhm: number; readonly collectorOhm: number } =>
  b.dial === 'base' ? { baseOhm: dialOhm, collectorOhm: b.fixedOhm } : { baseOhm: b.fixedOhm, collectorOhm: dialOhm }

/** Gain at which the bridge nulls with the dial at a resistance. */
export function gainAtDial(b: GainBridge, dialOhm: number): number {
  const r = resistorsOf(b, dialOhm)
  return b.kind === 'ratio' ? nullRatioGain(r.baseOhm, r.collectorOhm) : nullDividerGain({ ...b, ...r })
}

/** Resistance of the dial at which a gain nulls: both bridges are a proportion. */
export const dialAtGain = (b: GainBridge, gain: number): number =>
  b.dial === 'base' ? gain / gainAtDial(b, 1) : b.fixedOhm / gain

/** Base current with the dial at a resistance, A. */
export const baseCurrentAt = (b: GainBridge, dialOhm: number): number =>
  (b.emfV - b.baseEmitterV) / resistorsOf(b, dialOhm).baseOhm

/**
 * How far a leakage from collector to emitter moves the dial at null: it counts as collector current, so that the dial
 * shows I_L / I_B more than the gain.
 *
 * @param dialOhm where the dial stands
 */
export const leakageBias = (b: GainBridge, dialOhm: number, leakageA: number): number =>
  leakageA / baseCurrentAt(b, dialOhm)
