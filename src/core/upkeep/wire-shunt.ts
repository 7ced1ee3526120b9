import type { Alloy } from './wire.ts'
import { ohmPerMetre } from './wire.ts'
import { wireTemperature } from './wire-heat.ts'

export interface WireShuntWish {
  readonly ohm: number
  readonly alloy: Alloy
  readonly diameterM: number
  /** Current at full scale, A. */
  readonly currentA: number
  readonly ambientC: number
  /** Temperatures it is used at, degC. */
  readonly temperaturesC: readonly [low: number, high: number]
  /** Resistance of each soldered or screwed joint at its ends, ohm. */
  readonly jointOhm: number
}

export interface WireShunt {
  /** Length to cut: the longest that may be needed, and the shortest, m. Cut the longest and shorten it. */
  readonly lengthM: readonly [shortest: number, longest: number]
  /** Heat at full scale, W. */
  readonly powerW: number
  /** How warm the bare wire gets at full scale in still air, degC; left out where it would glow. */
  readonly wireC?: number
  /** Current density, A/mm2. */
  readonly densityAPerMm2: number
  /** Change of resistance by its own heat at full scale, as a part of it: lowest and highest. */
  readonly byHeat?: readonly [low: number, high: number]
  /** Change of resistance over the ambient temperatures, as a part of it: the larger one. */
  readonly byAmbient: number
  /** Thermal voltage of an end that is 1 K warmer than the other, as a part of the voltage at full scale. */
  readonly thermalPerK: number
  /** What two joints add when the movement is connected outside them, as a part of the resistance. */
  readonly byJoints: number
  readonly advice: readonly string[]
}

/** Above this rise a shunt's wire is too thin, K (common practice). */
export const mostRiseK = 40
/** Joints that count for more than this ask for four connections (common practice). */
const jointsCount = 0.001

/**
 * A shunt made of wire: what to cut, how warm it gets, and what moves it.
 *
 * @see ASTM B258 and IEC 60028 for the wire; R = rho l / A
 * @example wireShunt({ ohm: 0.1, alloy: alloys.manganin, diameterM: gaugeDiameterM(20), currentA: 1, ... }).lengthM
 */
export function wireShunt(w: WireShuntWish): WireShunt {
  const [low, high] = ohmPerMetre(w.alloy, w.diameterM)
  const lengthM = [w.ohm / high, w.ohm / low] as const
  const powerW = w.currentA ** 2 * w.ohm
  const wireC = wireTemperature(w.diameterM, powerW / lengthM[0], w.ambientC)
  const [least, most] = w.alloy.perK
  const span = Math.max(...w.temperaturesC.map((t) => Math.abs(t - w.ambientC)))
  const result = {
    lengthM,
    powerW,
    ...(wireC === undefined
      ? {}
      : { wireC, byHeat: [least * (wireC - w.ambientC), most * (wireC - w.ambientC)] as const }),
    densityAPerMm2: w.currentA / ((Math.PI / 4) * (w.diameterM * 1000) ** 2),
    byAmbient: Math.max(Math.abs(least), Math.abs(most)) * span,
    thermalPerK: w.alloy.thermalVPerK / (w.currentA * w.ohm),
    byJoints: (2 * w.jointOhm) / w.ohm,
  }
  return { ...result, advice: advise(w, result) }
}

const percent = (part: number): string => `${Number((part * 100).toPrecision(2))} %`

function advise(w: WireShuntWish, s: Omit<WireShunt, 'advice'>): readonly string[] {
  const rise = s.wireC === undefined ? Number.POSITIVE_INFINITY : s.wireC - w.ambientC
  return [
    ...(s.lengthM[1] > s.lengthM[0] * 1.001
      ? ['Cut the longer length, measure it with a known current, and shorten it: makers of the alloy differ.']
      : []),
    ...(rise > mostRiseK ? ['It gets too warm: take a thicker wire, or two side by side of twice the length.'] : []),
    ...(s.byJoints > jointsCount
      ? [
          `Joints of ${Number((w.jointOhm * 1000).toPrecision(2))} milliohm would add ${percent(s.byJoints)}. Use four connections: the current to the outer ends, the movement to points on the wire inside the joints; the length counts between these points.`,
        ]
      : []),
    ...(s.thermalPerK > jointsCount
      ? [
          `One end 1 K warmer than the other shows as ${percent(s.thermalPerK)}: keep both ends alike, or take manganin.`,
        ]
      : []),
    ...(w.alloy.perK[1] > 1e-3
      ? ['Copper drifts with temperature as the coil does: it serves as a lead, not as a shunt.']
      : []),
  ]
}
