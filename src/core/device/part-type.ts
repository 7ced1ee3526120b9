import type { Unit } from '#core/quantity'

/** What kind of part a type is. */
export type Family = 'bjt' | 'diode' | 'zener' | 'jfet' | 'mosfet' | 'scr' | 'triac' | 'ujt'
/** Polarity of a bipolar transistor, channel of a field-effect one, base of a unijunction transistor (`N`). */
export type Polarity = 'NPN' | 'PNP' | 'N' | 'P'
export type Material = 'Si' | 'Ge' | 'GaAs'

/**
 * Conditions under which a limit or a parameter holds, by letter symbol, SI units; `T` is ambient temperature in degC.
 * Values of PNP and of depletion types are magnitudes.
 */
export type Conditions = Readonly<Partial<Record<ConditionSymbol, number>>>

export const conditionSymbols = [
  'I_C',
  'I_B',
  'I_E',
  'V_CE',
  'V_CB',
  'V_EB',
  'V_EB(off)',
  'V_BE',
  'I_F',
  'I_R',
  'V_R',
  'V_DS',
  'V_GS',
  'I_D',
  'V_D',
  'V_AK',
  'I_T',
  'I_TM',
  'I_G',
  'I_GT',
  'I_Z',
  'I_init',
  'V_AA',
  'V_B2B1',
  'V_B2E',
  'R_L',
  'R_GK',
  'R_B2',
  'f',
  'T',
] as const
export type ConditionSymbol = (typeof conditionSymbols)[number]

/** A published limit: a bound counts only at its conditions. */
export interface Limit {
  /** IEC 60747 letter symbol: `h_FE`, `I_CBO`, `V_CE(sat)`. */
  readonly symbol: string
  readonly min?: number
  readonly typ?: number
  readonly max?: number
  readonly unit: Unit | string
  readonly at: Conditions
  readonly note?: string
}

/** Permitted dissipation at a reference temperature. */
export interface PowerRating {
  readonly powerW: number
  /** Of the air, or of the case; a rating that holds the leads at a temperature counts as one of the case. */
  readonly of: 'ambient' | 'case'
  readonly atC: number
  /** Published derating above `atC`, W/K, where it is not simply (T_Jmax - atC). */
  readonly deratingWPerK?: number
  readonly note?: string
}

/** Absolute maximum ratings, SI units (temperatures in degC), magnitudes. */
export interface Ratings {
  readonly V_CBO?: number
  readonly V_CEO?: number
  readonly V_CES?: number
  readonly V_CER?: number
  readonly V_EBO?: number
  /** Punch-through voltage of alloy types, a limit on V_CE. */
  readonly V_PT?: number
  readonly I_C?: number
  readonly I_CM?: number
  readonly I_B?: number
  /** Reverse voltage of a diode (repetitive peak where that is what is published). */
  readonly V_R?: number
  readonly V_RRM?: number
  readonly I_F?: number
  /** Mean forward current of a rectifier. */
  readonly 'I_F(AV)'?: number
  readonly I_FRM?: number
  readonly I_FSM?: number
  readonly T_Jmax?: number
  readonly R_thJA?: number
  readonly R_thJC?: number
  readonly power: readonly PowerRating[]
  /** Ratings of families other than bipolar and diode, by letter symbol. */
  readonly other?: Readonly<Record<string, number>>
}

export interface Leads {
  /** Electrodes in the order of the leads, `E-B-C`; `verify` where makers differ or it is not known. */
  readonly order: string
  /** From where it is seen. */
  readonly view: string
  readonly caseConnected?: string
  /** Other orders that are known, or why the order is doubtful. */
  readonly variants?: string
}

/** Narrower gain ranges that makers mark by a suffix: BC548B, BD139-10. */
export interface GainRanks {
  readonly symbol: 'h_FE'
  readonly at: Conditions
  readonly ranks: readonly GainRank[]
}
export interface GainRank {
  readonly suffix: string
  readonly min: number
  readonly max: number
}

/** Where a record comes from; shown wherever one of its limits is shown. */
export interface Provenance {
  readonly kind: 'read' | 'memory' | 'own'
  readonly confidence?: 'high' | 'medium' | 'low'
  /** Makers' datasheets, standards, handbooks. */
  readonly where: readonly string[]
  /** Fields of a read record that were recalled, not read. */
  readonly recalled?: string
  readonly note?: string
}

/** The published record of a kind of part. */
export interface PartType {
  readonly type: string
  readonly family: Family
  readonly polarity?: Polarity
  readonly material?: Material
  readonly construction?: string
  readonly outline?: string
  readonly leads?: Leads
  readonly ratings: Ratings
  readonly limits: readonly Limit[]
  /** The gain ranks as a sentence, for people. */
  readonly gainGroups?: string
  readonly gainRanks?: GainRanks
  /** What the suffixes of the type number mean, where they are no gain ranks. */
  readonly suffixes?: string
  readonly use?: string
  /** Known trouble with this type: whiskers, reversed leads. */
  readonly trouble?: string
  readonly provenance: Provenance
}

/** Whether the numbers of a record may condemn a part: low-confidence records never do. */
export const mayCondemn = (t: PartType): boolean => t.provenance.confidence !== 'low'

/** What to say beside a limit of this record: its source, or that it is from memory. */
export function provenanceText(p: Provenance): string {
  if (p.kind === 'memory')
    return p.confidence === 'low'
      ? 'from memory: check the datasheet (low confidence: a guide only)'
      : 'from memory: check the datasheet'
  const where = p.where.length === 0 ? 'own record' : p.where.join('; ')
  return p.recalled === undefined ? where : `${where} (from memory: ${p.recalled})`
}
