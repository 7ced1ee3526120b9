import { preferredAbove, resistorRating } from '#core/resistor'
import { say } from './say.ts'
import type { RunSheet } from './sheet.ts'

export type SeriesResistor = NonNullable<RunSheet['seriesResistor']>

/** What a series resistor is worked out from. */
export interface ForwardWish {
  readonly supplyV: number
  /** Forward drop expected, V. */
  readonly dropV: number
  /** Forward current wanted, A. */
  readonly wantedA: number
  /** Resistance already on the way: source, leads, the tester's own, ohm. */
  readonly ohmThere: number
}

/** E12 unless it misses the wanted current by more than this share. */
const e12Within = 0.1

const amps = (w: ForwardWish, ohm: number): number => (w.supplyV - w.dropV) / (ohm + w.ohmThere)

/** Rounds up, so that the current is never above the wanted one; E24 only where E12 misses by more than a tenth. */
function rounded(w: ForwardWish, ohm: number): readonly [ohm: number, series: SeriesResistor['series']] {
  const e12 = preferredAbove(ohm, 'E12')
  if (amps(w, e12) >= w.wantedA * (1 - e12Within)) return [e12, 'E12']
  const e24 = preferredAbove(ohm, 'E24')
  return e24 === e12 ? [e12, 'E12'] : [e24, 'E24']
}

/**
 * The resistor for a diode's forward test: R = (V - V_F) / I, less what is there already, rounded up to a preferred
 * value; its power with the diode shorted, and the next rating sold that it uses at most by half.
 *
 * @returns undefined where what is there already holds the current down, or the supply is not above the drop
 */
export function seriesResistor(w: ForwardWish): SeriesResistor | undefined {
  const exact = (w.supplyV - w.dropV) / w.wantedA - w.ohmThere
  if (!(exact > 0)) return undefined
  const [ohm, series] = rounded(w, exact)
  const currentA = amps(w, ohm)
  const powerW = currentA ** 2 * ohm
  const shortedW = (w.supplyV / (ohm + w.ohmThere)) ** 2 * ohm
  const ratingW = resistorRating(shortedW)
  const there = w.ohmThere > 0 ? ` - ${say(w.ohmThere, 'ohm')}` : ''
  const working = [
    `R = (V - V_F) / I_F${there} = (${say(w.supplyV, 'V')} - ${say(w.dropV, 'V')}) / ${say(w.wantedA, 'A')}${there} = ${say(exact, 'ohm')}`,
    `next ${series} value above: ${say(ohm, 'ohm')}, which gives ${say(currentA, 'A')}`,
    `power I^2 R = ${say(powerW, 'W')}, ${say(shortedW, 'W')} with the diode shorted: take a ${say(ratingW, 'W')} resistor`,
  ].join('; ')
  return { ohm, series, powerW, ratingW, currentA, supplyV: w.supplyV, working }
}
