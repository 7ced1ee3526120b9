import type { Family, Material, PartType, Polarity } from '#core/device'

interface TradeWord {
  /** In everyday words. */
  readonly name: string
  /** Axis people expect: log where the trade plots it so. */
  readonly axis: 'linear' | 'log'
}

/** Letter symbols in the order in which a report shows them, with their everyday names. */
const words: Readonly<Record<string, TradeWord>> = {
  h_FE: { name: 'current gain', axis: 'log' },
  h_FE0: { name: 'gain less leakage', axis: 'log' },
  'h_FE0(I_CBO)': { name: 'gain less leakage, by emitter-open leakage', axis: 'log' },
  'h_FE(I_CEO)': { name: 'gain at the leakage current', axis: 'log' },
  I_CEO: { name: 'leakage, base open', axis: 'log' },
  I_CBO: { name: 'leakage, emitter open', axis: 'log' },
  I_CES: { name: 'leakage, base tied to emitter', axis: 'log' },
  I_CER: { name: 'leakage, resistor from base to emitter', axis: 'log' },
  I_EBO: { name: 'emitter leakage', axis: 'log' },
  V_BE: { name: 'base voltage', axis: 'linear' },
  'V_BE(on)': { name: 'base voltage', axis: 'linear' },
  'V_CE(sat)': { name: 'saturation voltage', axis: 'linear' },
  'V_BE(sat)': { name: 'base voltage in saturation', axis: 'linear' },
  h_fe: { name: 'small-signal gain', axis: 'log' },
  g_m: { name: 'transconductance', axis: 'log' },
  h_ie: { name: 'input resistance', axis: 'log' },
  h_oe: { name: 'output conductance', axis: 'log' },
  V_A: { name: 'Early voltage', axis: 'linear' },
  V_F: { name: 'forward voltage', axis: 'linear' },
  I_R: { name: 'reverse leakage', axis: 'log' },
  n: { name: 'ideality', axis: 'linear' },
  R_S: { name: 'series resistance', axis: 'linear' },
  V_Z: { name: 'Zener voltage', axis: 'linear' },
  I_DSS: { name: 'drain current, gate at source', axis: 'log' },
  'V_GS(off)': { name: 'cut-off voltage', axis: 'linear' },
  P: { name: 'power', axis: 'linear' },
  T_J: { name: 'junction temperature', axis: 'linear' },
}

const order = Object.keys(words)

/** Everyday name of a symbol; the symbol's own text where there is none. */
export const parameterName = (symbol: string): string => words[symbol]?.name ?? 'parameter'

export const axisKind = (symbol: string): 'linear' | 'log' => words[symbol]?.axis ?? 'linear'

/** Sorts symbols as the trade lists them, unknown ones last and by name. */
export function bySymbol(a: string, b: string): number {
  const rank = (s: string): number => (order.includes(s) ? order.indexOf(s) : order.length)
  return rank(a) - rank(b) || (a < b ? -1 : a > b ? 1 : 0)
}

const families: Readonly<Record<Family, string>> = {
  bjt: 'transistor',
  diode: 'diode',
  zener: 'Zener diode',
  jfet: 'junction field-effect transistor',
  mosfet: 'MOS field-effect transistor',
  scr: 'thyristor',
  triac: 'triac',
  ujt: 'unijunction transistor',
}

const materials: Readonly<Record<Material, string>> = { Ge: 'germanium', Si: 'silicon', GaAs: 'gallium arsenide' }

const channels: Readonly<Record<Polarity, string>> = { NPN: 'NPN', PNP: 'PNP', N: 'N-channel', P: 'P-channel' }

/** What kind of part a type is: "germanium PNP transistor, TO-1, leads E-B-C seen from below". */
export function kindText(type: PartType | undefined): string {
  if (type === undefined) return 'type not known'
  const words = [
    type.material === undefined ? '' : materials[type.material],
    type.polarity === undefined ? '' : channels[type.polarity],
    families[type.family],
  ]
  const leads = type.leads === undefined ? '' : leadsText(type.leads.order, type.leads.view)
  return [words.filter((w) => w !== '').join(' '), type.outline ?? '', leads].filter((w) => w !== '').join(', ')
}

const leadsText = (order: string, view: string): string =>
  order === 'verify' ? 'lead order to be verified' : `leads ${order}${view === '' ? '' : ` (${view})`}`

/** Heading of a table of such parts. */
export function familyHeading(family: Family | undefined): string {
  if (family === undefined) return 'Parts of unknown type'
  const name = `${families[family]}s`
  return name.charAt(0).toUpperCase() + name.slice(1)
}
