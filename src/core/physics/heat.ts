import { FaultError } from '#core/fault'

/** A permitted power at a reference temperature. */
export interface RatedPower {
  readonly powerW: number
  readonly of: 'ambient' | 'case'
  readonly atC: number
  /** Published derating above `atC`, W/K, where it is not simply that to nothing at T_Jmax. */
  readonly deratingWPerK?: number
}

/**
 * Constants of the heat model where nothing is published. All are `common practice`, chosen on the safe side: in a
 * reading of some seconds die and header are warm and the case hardly is; cases take 30 s to 300 s to warm.
 */
export const heatDefaults = {
  /** Shortest time constant from case to air, s. */
  caseTauS: 30,
  /** Share of the resistance to air that warms at once, where the resistance to the case is not published. */
  fastShare: 0.5,
  /** Resistance to air where neither ratings nor outline are known, K/W. */
  unknownKPerW: 500,
  /** Warming that doubles a junction's leakage, K; measured on germanium and silicon alike. */
  leakageDoublingK: 10,
} as const

/**
 * Thermal resistance that a power rating stands for: R_th = (T_Jmax - T_ref) / P.
 *
 * @returns K/W
 * @throws {FaultError} `out-of-domain` where the power is not above 0 or the reference is not below T_Jmax
 * @example thermalResistance(200, 115) // 1.5217
 */
export function thermalResistance(tJmaxC: number, powerW: number, atC = 25): number {
  if (!(powerW > 0)) throw new FaultError({ code: 'out-of-domain', name: 'power', value: powerW, allowed: 'above 0 W' })
  if (!(atC < tJmaxC))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'reference temperature',
      value: atC,
      allowed: `below the highest junction temperature, ${tJmaxC} degC`,
    })
  return (tJmaxC - atC) / powerW
}

/**
 * Thermal resistance of a rating: from its power and T_Jmax, or from its published derating where that is the larger.
 *
 * @returns K/W
 * @throws {FaultError} `out-of-domain` as `thermalResistance`
 */
export function ratedResistance(rating: RatedPower, tJmaxC: number): number {
  const own = thermalResistance(tJmaxC, rating.powerW, rating.atC)
  const slope = rating.deratingWPerK ?? 0
  return slope > 0 ? Math.max(own, 1 / slope) : own
}

/**
 * Permitted power at a temperature: P(T) = P_ref (T_Jmax - T) / (T_Jmax - T_ref) above the reference temperature, the
 * full rating below it, nothing at T_Jmax and beyond; less where a steeper derating is published.
 *
 * @param temperatureC of the air or of the case, as the rating says, degC
 * @returns W
 * @throws {FaultError} `out-of-domain` as `thermalResistance`
 */
export function deratedPower(rating: RatedPower, tJmaxC: number, temperatureC: number): number {
  const rth = thermalResistance(tJmaxC, rating.powerW, rating.atC)
  const sloped = rating.powerW - (rating.deratingWPerK ?? 0) * (temperatureC - rating.atC)
  return Math.max(0, Math.min(rating.powerW, (tJmaxC - temperatureC) / rth, sloped))
}

/** Junction temperature in steady state, degC: reference temperature plus power times thermal resistance. */
export const junctionTemperature = (referenceC: number, powerW: number, rthKPerW: number): number =>
  referenceC + powerW * rthKPerW

/**
 * Rise of one thermal pole after a step of power: dT = P R_th (1 - exp(-t / tau)).
 *
 * @returns K
 * @see JESD51-1: thermal step response as a sum of such terms (from memory)
 */
export const transientRise = (powerW: number, rthKPerW: number, tauS: number, seconds: number): number =>
  powerW * rthKPerW * -Math.expm1(-seconds / tauS)

/** Rise that is left of a warm pole after a time without power, K. */
export const coolingRise = (riseK: number, tauS: number, seconds: number): number => riseK * Math.exp(-seconds / tauS)

/** A leakage test at fixed voltage, as its self-heating sees it. */
export interface LeakageHeat {
  readonly supplyV: number
  readonly leakageA: number
  /** Resistance between supply and part, ohm. */
  readonly seriesOhm: number
  readonly rthKPerW: number
  /** Warming that doubles the leakage, K. */
  readonly doublingK?: number
}

/**
 * Loop gain of self-heating in a leakage test: R_th (V - 2 I R_s) I ln 2 / D. Leakage warms the junction, warmth raises
 * leakage; at 1 it runs away, below 0.5 there is room (common practice).
 *
 * @see Millman and Halkias, Integrated Electronics, ch. 9, thermal runaway (from memory): dP/dT < 1/R_th
 * @example leakageLoopGain({ supplyV: 9, leakageA: 190e-6, seriesOhm: 0, rthKPerW: 300 }) // 0.0356
 */
export function leakageLoopGain(h: LeakageHeat): number {
  const slopePerK = Math.LN2 / (h.doublingK ?? heatDefaults.leakageDoublingK)
  return Math.max(0, h.rthKPerW * (h.supplyV - 2 * h.leakageA * h.seriesOhm) * h.leakageA * slopePerK)
}
