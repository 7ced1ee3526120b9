import type { Unit } from '#core/quantity'
import type { ConditionSymbol } from './part-type.ts'

/** What a letter symbol stands for. */
export interface LetterSymbol {
  readonly unit: Unit
  /** In plain words, for people. */
  readonly name: string
}

const of = (unit: Unit, name: string): LetterSymbol => ({ unit, name })

/** Letter symbols of limits. */
export const letterSymbols: Readonly<Record<string, LetterSymbol>> = {
  h_FE: of('1', 'DC current gain'),
  h_fe: of('1', 'small-signal current gain'),
  h_ie: of('ohm', 'small-signal input resistance'),
  h_oe: of('S', 'small-signal output conductance'),
  h_re: of('1', 'small-signal reverse voltage ratio'),
  g_m: of('S', 'transconductance'),
  f_T: of('Hz', 'frequency at which the gain has fallen to 1'),
  f_hfb: of('Hz', 'common-base cut-off frequency'),
  C_obo: of('F', 'output capacitance, common base'),
  I_CBO: of('A', 'collector-base leakage, emitter open'),
  I_CEO: of('A', 'collector-emitter leakage, base open'),
  I_CES: of('A', 'collector-emitter leakage, base shorted to emitter'),
  I_CEX: of('A', 'collector-emitter leakage, base reversed'),
  I_EBO: of('A', 'emitter-base leakage, collector open'),
  V_BE: of('V', 'base-emitter voltage'),
  'V_BE(on)': of('V', 'base-emitter voltage while amplifying'),
  'V_BE(sat)': of('V', 'base-emitter voltage, saturated'),
  'V_CE(sat)': of('V', 'collector-emitter saturation voltage'),
  'V_CEO(sus)': of('V', 'sustaining voltage, base open'),
  'V_(BR)CBO': of('V', 'collector-base breakdown voltage'),
  'V_(BR)CEO': of('V', 'collector-emitter breakdown voltage, base open'),
  'V_(BR)EBO': of('V', 'emitter-base breakdown voltage'),
  V_F: of('V', 'forward voltage'),
  I_R: of('A', 'reverse current'),
  'V_(BR)': of('V', 'breakdown voltage'),
  t_rr: of('s', 'reverse recovery time'),
  V_Z: of('V', 'Zener voltage'),
  r_Z: of('ohm', 'Zener differential resistance'),
  alpha_VZ: of('1/K', 'temperature coefficient of the Zener voltage'),
  I_DSS: of('A', 'drain current at zero gate voltage'),
  I_GSS: of('A', 'gate leakage'),
  'V_GS(off)': of('V', 'gate cut-off voltage'),
  'V_GS(th)': of('V', 'gate threshold voltage'),
  V_GS: of('V', 'gate-source voltage'),
  'V_(BR)GSS': of('V', 'gate breakdown voltage'),
  'R_DS(on)': of('ohm', 'on resistance'),
  g_fs: of('S', 'forward transconductance'),
  y_fs: of('S', 'forward transfer admittance'),
  I_GT: of('A', 'gate trigger current'),
  V_GT: of('V', 'gate trigger voltage'),
  V_GD: of('V', 'gate voltage that does not trigger'),
  I_H: of('A', 'holding current'),
  I_L: of('A', 'latching current'),
  I_DRM: of('A', 'peak off-state current'),
  V_TM: of('V', 'peak on-state voltage'),
  V_T: of('V', 'on-state voltage'),
  eta: of('1', 'intrinsic stand-off ratio'),
  r_BB: of('ohm', 'interbase resistance'),
  alpha_rBB: of('1/K', 'temperature coefficient of the interbase resistance'),
  I_P: of('A', 'peak-point current'),
  I_V: of('A', 'valley-point current'),
  I_EB2O: of('A', 'emitter leakage'),
  'V_EB1(sat)': of('V', 'emitter saturation voltage'),
  'I_B2(mod)': of('A', 'modulated interbase current'),
}

/** Units of the ratings that have a field of their own in `Ratings`; temperatures in degC. */
export const ratingUnits = {
  V_CBO: 'V',
  V_CEO: 'V',
  V_CES: 'V',
  V_CER: 'V',
  V_EBO: 'V',
  V_PT: 'V',
  I_C: 'A',
  I_CM: 'A',
  I_B: 'A',
  V_R: 'V',
  V_RRM: 'V',
  I_F: 'A',
  'I_F(AV)': 'A',
  I_FRM: 'A',
  I_FSM: 'A',
  T_Jmax: 'degC',
  R_thJA: 'K/W',
  R_thJC: 'K/W',
} as const satisfies Readonly<Record<string, Unit>>

export type RatingSymbol = keyof typeof ratingUnits

/** Unit that a symbol's first letter stands for: `V_DRM` V, `I_TSM` A; undefined where it stands for none. */
export function unitByLetter(symbol: string): Unit | undefined {
  const units: Readonly<Record<string, Unit>> = { V: 'V', I: 'A', P: 'W', T: 'degC', R: 'ohm', f: 'Hz', C: 'F', t: 's' }
  return symbol.startsWith('R_th') ? 'K/W' : units[symbol.charAt(0)]
}

/** Unit of a condition. */
export const conditionUnit = (symbol: ConditionSymbol): Unit =>
  symbol === 'T' ? 'degC' : (unitByLetter(symbol) ?? '1')

const bare = (text: string): string => text.replaceAll(/[_\s]/g, '')

/**
 * The letter symbol a text means: `hFE` and `h_FE` alike; capitals count only where two symbols differ by them.
 *
 * @returns undefined where there is none, or more than one
 * @example letterSymbol('ICBO') // 'I_CBO'
 */
export function letterSymbol(text: string, known: readonly string[] = Object.keys(letterSymbols)): string | undefined {
  const same = known.find((s) => bare(s) === bare(text))
  if (same !== undefined) return same
  const alike = known.filter((s) => bare(s).toLowerCase() === bare(text).toLowerCase())
  return alike.length === 1 ? alike[0] : undefined
}
