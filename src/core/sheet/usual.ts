import type { Material } from '#core/device'

/** What is usual for a material where nothing is published, at 25 degC; SI units. All `common practice`. */
export interface Usual {
  readonly min?: number
  readonly typ: number
  readonly max: number
}

type Class = 'small' | 'power'
type Symbol = 'I_CBO' | 'I_CES' | 'I_CEO' | 'I_EBO' | 'I_R' | 'h_FE' | 'V_BE' | 'V_CE(sat)' | 'V_F'

const germanium: Readonly<Record<Symbol, Readonly<Record<Class, Usual>>>> = {
  I_CBO: { small: { typ: 5e-6, max: 20e-6 }, power: { typ: 100e-6, max: 1e-3 } },
  I_CES: { small: { typ: 8e-6, max: 40e-6 }, power: { typ: 200e-6, max: 2e-3 } },
  I_CEO: { small: { typ: 200e-6, max: 1e-3 }, power: { typ: 4e-3, max: 20e-3 } },
  I_EBO: { small: { typ: 4e-6, max: 20e-6 }, power: { typ: 100e-6, max: 1e-3 } },
  I_R: { small: { typ: 10e-6, max: 100e-6 }, power: { typ: 100e-6, max: 1e-3 } },
  h_FE: { small: { min: 20, typ: 70, max: 200 }, power: { min: 15, typ: 50, max: 150 } },
  V_BE: { small: { min: 0.1, typ: 0.18, max: 0.35 }, power: { min: 0.1, typ: 0.25, max: 0.6 } },
  'V_CE(sat)': { small: { min: 0.02, typ: 0.08, max: 0.3 }, power: { min: 0.05, typ: 0.2, max: 0.6 } },
  V_F: { small: { min: 0.15, typ: 0.35, max: 1 }, power: { min: 0.15, typ: 0.4, max: 0.7 } },
}

const silicon: typeof germanium = {
  I_CBO: { small: { typ: 1e-9, max: 1e-7 }, power: { typ: 1e-7, max: 1e-4 } },
  I_CES: { small: { typ: 1e-9, max: 1e-7 }, power: { typ: 1e-7, max: 1e-4 } },
  I_CEO: { small: { typ: 1e-8, max: 1e-6 }, power: { typ: 1e-6, max: 1e-3 } },
  I_EBO: { small: { typ: 1e-9, max: 1e-7 }, power: { typ: 1e-7, max: 1e-3 } },
  I_R: { small: { typ: 1e-8, max: 5e-6 }, power: { typ: 1e-7, max: 1e-5 } },
  h_FE: { small: { min: 40, typ: 150, max: 400 }, power: { min: 15, typ: 50, max: 150 } },
  V_BE: { small: { min: 0.55, typ: 0.65, max: 0.8 }, power: { min: 0.55, typ: 0.7, max: 1.5 } },
  'V_CE(sat)': { small: { min: 0.03, typ: 0.1, max: 0.5 }, power: { min: 0.05, typ: 0.4, max: 1.5 } },
  V_F: { small: { min: 0.5, typ: 0.65, max: 1 }, power: { min: 0.55, typ: 0.75, max: 1.2 } },
}

export type UsualSymbol = Symbol

/** The usual span of a symbol; germanium where the material is not known, the leakier of the two. */
export const usual = (symbol: Symbol, material: Material | undefined, isPower: boolean): Usual =>
  (material === undefined || material === 'Ge' ? germanium : silicon)[symbol][isPower ? 'power' : 'small']

/** Forward drop and reverse leakage of a metal-to-silicon diode. */
export const usualSchottky = {
  V_F: { min: 0.15, typ: 0.3, max: 0.5 },
  I_R: { typ: 1e-6, max: 1e-3 },
} as const satisfies Readonly<Record<string, Usual>>

/** How the material is called in a sentence. */
export const materialWord = (material: Material | undefined): string =>
  material === undefined
    ? 'germanium, the leakier material'
    : material === 'Ge'
      ? 'germanium'
      : material === 'Si'
        ? 'silicon'
        : 'gallium arsenide'
