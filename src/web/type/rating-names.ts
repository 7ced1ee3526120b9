import type { RatingSymbol } from '#core/device'

/** What a rating bounds, in plain words. */
export const ratingNames: Readonly<Record<RatingSymbol, string>> = {
  V_CBO: 'collector to base, emitter open',
  V_CEO: 'collector to emitter, base open',
  V_CES: 'collector to emitter, base shorted to emitter',
  V_CER: 'collector to emitter, resistor at the base',
  V_EBO: 'emitter to base, collector open',
  V_PT: 'punch-through, a limit on V_CE',
  I_C: 'collector current',
  I_CM: 'peak collector current',
  I_B: 'base current',
  V_R: 'reverse voltage',
  V_RRM: 'repetitive peak reverse voltage',
  I_F: 'forward current',
  'I_F(AV)': 'mean forward current',
  I_FRM: 'repetitive peak forward current',
  I_FSM: 'surge forward current',
  T_Jmax: 'junction temperature',
  R_thJA: 'thermal resistance, junction to air',
  R_thJC: 'thermal resistance, junction to case',
}
