import { type Family, ratingUnits } from '#core/device'
import type { Path } from '#core/text'

/** Kinds of part, as one chooses them. */
export const familyChoices: readonly (readonly [value: Family, label: string])[] = [
  ['bjt', 'Transistor, bipolar'],
  ['diode', 'Diode'],
  ['zener', 'Zener diode'],
  ['jfet', 'JFET'],
  ['mosfet', 'MOSFET'],
  ['scr', 'Thyristor'],
  ['triac', 'Triac'],
  ['ujt', 'Unijunction'],
]

/** Polarities that a kind may have; none where it has none. */
export const polaritiesOf = (family: string): readonly string[] => {
  if (family === 'bjt') return ['NPN', 'PNP']
  return family === 'jfet' || family === 'mosfet' || family === 'ujt' ? ['N', 'P'] : []
}

/** Lead orders that are usual, offered as one types. */
export const ordersOf = (family: string): readonly string[] => {
  if (family === 'bjt') return ['E-B-C', 'C-B-E', 'E-C-B', 'B-C-E', 'verify']
  if (family === 'jfet' || family === 'mosfet') return ['S-D-G', 'D-S-G', 'G-D-S', 'D-G-S', 'verify']
  if (family === 'scr') return ['K-A-G', 'K-G-A', 'verify']
  return family === 'triac' ? ['T1-T2-G', 'verify'] : family === 'ujt' ? ['E-B1-B2', 'verify'] : ['K-A', 'verify']
}

const usualRatings: Readonly<Record<string, readonly string[]>> = {
  bjt: ['V_CBO', 'V_CEO', 'V_EBO', 'I_C', 'I_CM', 'T_Jmax', 'R_thJA', 'R_thJC'],
  diode: ['V_R', 'V_RRM', 'I_F', 'I_F(AV)', 'I_FSM', 'T_Jmax'],
  zener: ['I_ZM', 'I_ZSM', 'T_Jmax', 'R_thJA'],
  jfet: ['V_GSS', 'I_G', 'T_Jmax'],
  mosfet: ['V_DSS', 'V_GSS', 'I_D', 'T_Jmax'],
  scr: ['V_DRM', 'V_RRM', 'I_T(RMS)', 'I_TSM', 'T_Jmax', 'R_thJC'],
  triac: ['V_DRM', 'I_T(RMS)', 'I_TSM', 'T_Jmax', 'R_thJC'],
  ujt: ['V_B2B1', 'V_B2E', 'I_E(RMS)', 'T_Jmax'],
}

/** Ratings to ask for: those that are usual for the kind, and those that are written already. */
export const ratingsFor = (family: string, written: readonly string[]): readonly string[] => [
  ...new Set([...(usualRatings[family] ?? []), ...written]),
]

/** Where a rating is written. */
export const ratingPath = (symbol: string): Path =>
  symbol in ratingUnits ? ['ratings', symbol] : ['ratings', 'other', symbol]

/** The limit one most likely writes first. */
export const firstLimit = (family: string): string =>
  ({ bjt: 'h_FE', diode: 'V_F', zener: 'V_Z', jfet: 'I_DSS', mosfet: 'V_GS(th)', ujt: 'eta' })[family] ?? 'I_GT'
