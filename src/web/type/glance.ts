import type { Family, PartType } from '#core/device'
import type { Unit } from '#core/quantity'

/** One figure of a type as it stands in a list, with the symbol it belongs to. */
export interface Glance {
  readonly symbol: string
  readonly value: number
  readonly unit: Unit
  /** Upper end of a span. */
  readonly to?: number
}

/** What a list shows of a type, whatever its family: a voltage, a current, a power and a gain or the like. */
export interface TypeGlance {
  readonly voltage?: Glance
  readonly current?: Glance
  readonly power?: Glance
  readonly gain?: Glance
}

const voltages: readonly string[] = [
  'V_CEO',
  'V_CES',
  'V_CER',
  'V_CBO',
  'V_RRM',
  'V_R',
  'V_DSS',
  'V_DS',
  'V_GSS',
  'V_DRM',
  'V_B2B1',
]
const currents: readonly string[] = [
  'I_C',
  'I_CM',
  'I_F(AV)',
  'I_F',
  'I_D',
  'I_T(AV)',
  'I_T(RMS)',
  'I_T',
  'I_DSS',
  'I_E',
]

function rating(t: PartType, symbols: readonly string[], unit: Unit): Glance | undefined {
  for (const symbol of symbols) {
    const own = symbol === 'power' ? undefined : (t.ratings as unknown as Readonly<Record<string, unknown>>)[symbol]
    const value = typeof own === 'number' ? own : t.ratings.other?.[symbol]
    if (value !== undefined) return { symbol, value, unit }
  }
  return undefined
}

/** First published limit of a symbol, as a span. */
function published(t: PartType, symbol: string, unit: Unit): Glance | undefined {
  const limit = t.limits.find((l) => l.symbol === symbol)
  const from = limit?.min ?? limit?.typ ?? limit?.max
  if (limit === undefined || from === undefined) return undefined
  const to = limit.max ?? limit.typ
  return { symbol, value: from, unit, ...(to === undefined || to === from ? {} : { to }) }
}

/** What stands in the place of gain, by family. */
const gains: Readonly<Partial<Record<Family, readonly [symbol: string, unit: Unit]>>> = {
  bjt: ['h_FE', '1'],
  diode: ['V_F', 'V'],
  jfet: ['I_DSS', 'A'],
  scr: ['I_GT', 'A'],
  triac: ['I_GT', 'A'],
  ujt: ['eta', '1'],
  mosfet: ['V_GS(th)', 'V'],
  zener: ['r_Z', 'ohm'],
}

export function glanceOf(t: PartType): TypeGlance {
  const voltage = t.family === 'zener' ? published(t, 'V_Z', 'V') : rating(t, voltages, 'V')
  const current = rating(t, currents, 'A')
  const powers = t.ratings.power.map((p) => p.powerW)
  const gain = gains[t.family]
  const shown = gain === undefined ? undefined : published(t, gain[0], gain[1])
  return {
    ...(voltage === undefined ? {} : { voltage }),
    ...(current === undefined ? {} : { current }),
    ...(powers.length === 0 ? {} : { power: { symbol: 'P_tot', value: Math.max(...powers), unit: 'W' as Unit } }),
    ...(shown === undefined ? {} : { gain: shown }),
  }
}

export const familyWords: Readonly<Record<Family, string>> = {
  bjt: 'bipolar transistor',
  diode: 'diode',
  zener: 'Zener diode',
  jfet: 'junction field-effect transistor',
  mosfet: 'MOS field-effect transistor',
  scr: 'thyristor',
  triac: 'triac',
  ujt: 'unijunction transistor',
}

const shortWords: Readonly<Record<Family, string>> = {
  bjt: 'transistor',
  diode: 'diode',
  zener: 'Zener diode',
  jfet: 'JFET',
  mosfet: 'MOSFET',
  scr: 'thyristor',
  triac: 'triac',
  ujt: 'unijunction',
}

export const materialWords = { Si: 'silicon', Ge: 'germanium', GaAs: 'gallium arsenide' } as const

const polarityWord = (t: PartType): string => {
  if (t.polarity === undefined) return ''
  return t.family === 'bjt' ? t.polarity : `${t.polarity}-channel`
}

/** In a few words, for a list: `Ge PNP transistor`. */
export const kindOf = (t: PartType): string =>
  [t.material, t.family === 'ujt' ? t.polarity : polarityWord(t), shortWords[t.family]].filter(Boolean).join(' ')

/** As a sentence begins: `Germanium PNP bipolar transistor`. */
export function kindInFull(t: PartType): string {
  const material = t.material === undefined ? '' : materialWords[t.material]
  const text = [material, t.family === 'ujt' ? '' : polarityWord(t), familyWords[t.family]].filter(Boolean).join(' ')
  return text.charAt(0).toUpperCase() + text.slice(1)
}
