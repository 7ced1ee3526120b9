import type { Source } from '#core/quantity'

/** A constant of nature: its value, how well it is known, and where that is written. */
export interface Constant {
  readonly symbol: string
  readonly value: number
  /** Unit as printed; constants carry units that no measured quantity here has. */
  readonly unit: string
  /** Standard uncertainty, in `unit`; 0 for a constant that is exact by definition. */
  readonly u: number
  readonly source: Source
}

const siBrochure = (where: string): Source => ({
  title: 'SI Brochure, 9th ed. (2019)',
  where,
  standing: 'published',
})

/** Boltzmann constant k, J/K; exact. */
export const boltzmann: Constant = {
  symbol: 'k',
  value: 1.380649e-23,
  unit: 'J/K',
  u: 0,
  source: siBrochure('2.2, Table 1'),
}

/** Elementary charge e, C; exact. */
export const elementaryCharge: Constant = {
  symbol: 'e',
  value: 1.602176634e-19,
  unit: 'C',
  u: 0,
  source: siBrochure('2.2, Table 1'),
}

/** 0 degC in kelvin; exact. */
export const zeroCelsius: Constant = {
  symbol: 'T_0',
  value: 273.15,
  unit: 'K',
  u: 0,
  source: siBrochure('2.3.1, kelvin: t/degC = T/K - 273.15'),
}
