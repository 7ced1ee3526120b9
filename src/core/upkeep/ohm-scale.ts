import { FaultError } from '#core/fault'
import { type Movement, ohmmeterCurrent } from '#core/tester'

/** A series ohmmeter as it is wanted: a cell, the movement with a zero adjuster across it, a resistor in series. */
export interface OhmScaleWish {
  /** Resistance that brings the needle to the middle, ohm. */
  readonly midOhm: number
  /** Cell it is made for, V, and its own resistance, ohm. */
  readonly emfV: number
  readonly cellOhm: number
  /** Cell voltages the zero adjuster has to span, V. */
  readonly emfSpanV: readonly [low: number, high: number]
}

export interface OhmScale {
  /** Resistor in series, ohm. */
  readonly seriesOhm: number
  /** Zero adjuster across the movement: at the cell it is made for, and the span it needs, ohm. */
  readonly adjusterOhm: number
  readonly adjusterSpanOhm: readonly [low: number, high: number]
  /** Current from the cell with the leads together, A. */
  readonly zeroCurrentA: number
  /** Where marks stand: part of the scale from infinity on. */
  readonly marks: readonly { readonly ohm: number; readonly fraction: number }[]
  /** How far every reading is off at either end of the span after the zero was set, as a part of it. */
  readonly spanError: readonly [low: number, high: number]
}

/** Marks of an ohm scale, as parts of its middle value (common practice). */
const marksOfMiddle = [0, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20] as const

/**
 * Series resistor, zero adjuster and marks of a series ohmmeter.
 *
 * @throws {FaultError} `out-of-domain` where the middle asks for less current than the movement, or leaves no room for it
 * @see Ohm's law: the needle stands at R_mid / (R_mid + R_x)
 */
export function ohmScale(m: Movement, w: OhmScaleWish): OhmScale {
  const acrossV = m.fullScaleA * m.coilOhm
  const zeroCurrentA = w.emfV / w.midOhm
  const seriesOhm = (w.emfV - acrossV) / zeroCurrentA - w.cellOhm
  need(m, w, zeroCurrentA, seriesOhm)
  const adjusterAt = (emfV: number): number => {
    const currentA = (emfV - acrossV) / (seriesOhm + w.cellOhm)
    return acrossV / (currentA - m.fullScaleA)
  }
  const [low, high] = w.emfSpanV
  /** The needle reads the part as seen from the middle the meter has with another cell. */
  const errorAt = (emfV: number): number => {
    const middle = seriesOhm + w.cellOhm + acrossV / ((emfV - acrossV) / (seriesOhm + w.cellOhm))
    return w.midOhm / middle - 1
  }
  const adjusterOhm = adjusterAt(w.emfV)
  const fractionAt = (partOhm: number): number =>
    ohmmeterCurrent({
      emfV: w.emfV,
      seriesOhm: seriesOhm + w.cellOhm,
      partOhm,
      coilOhm: m.coilOhm,
      adjusterOhm,
    }) / m.fullScaleA
  return {
    seriesOhm,
    adjusterOhm,
    adjusterSpanOhm: [adjusterAt(high), adjusterAt(low)],
    zeroCurrentA,
    marks: marksOfMiddle.map((part) => ({ ohm: part * w.midOhm, fraction: fractionAt(part * w.midOhm) })),
    spanError: [errorAt(low), errorAt(high)],
  }
}

function need(m: Movement, w: OhmScaleWish, zeroCurrentA: number, seriesOhm: number): void {
  const acrossV = m.fullScaleA * m.coilOhm
  const low = Math.min(w.emfV, ...w.emfSpanV)
  const mostMid = ((low - acrossV) / m.fullScaleA) * (w.emfV / (w.emfV - acrossV))
  const domain = (value: string, allowed: string) =>
    new FaultError({ code: 'out-of-domain', name: 'The middle of the ohm scale', value, allowed })
  if (!(low > acrossV))
    throw domain('out of reach', `of a cell above the ${acrossV} V of the movement, at all its voltages`)
  if (!(zeroCurrentA > m.fullScaleA && w.midOhm < mostMid))
    throw domain(`${w.midOhm} ohm`, `below ${Number(mostMid.toPrecision(4))} ohm for this movement and cell`)
  if (!(seriesOhm > 0)) throw domain(`${w.midOhm} ohm`, 'more than what cell and movement have by themselves')
}
