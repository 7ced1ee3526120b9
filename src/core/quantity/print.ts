import type { Quantity } from './quantity.ts'
import { standardUncertainty } from './spread.ts'
import type { Unit } from './unit.ts'

export interface PrintOptions {
  /** Significant digits of a value printed without uncertainty, 1 to 17; zeros at the end are kept. */
  readonly digits?: number
  /** `u`, `ohm`, `degC` and `+-` in place of the signs, for terminals and files that want plain text. */
  readonly ascii?: boolean
  /** `paren`: 1.234(5) mA; `plus-minus`: (1.234 ± 0.005) mA. */
  readonly style?: 'paren' | 'plus-minus'
  /**
   * Significant digits of the uncertainty. `auto`: two where it begins with 1 or 2, where one would round too
   * roughly, else one.
   */
  readonly uDigits?: 1 | 2 | 'auto'
}

export const printDefaults = {
  digits: 4,
  ascii: false,
  style: 'paren',
  uDigits: 'auto',
} as const satisfies Required<PrintOptions>

/** Largest and smallest prefix (as power of ten) a unit is printed with; units not named here take none. */
const prefixRange: Partial<Readonly<Record<Unit, readonly [smallest: number, largest: number]>>> = {
  A: [-15, 12],
  V: [-15, 12],
  ohm: [-15, 12],
  S: [-15, 12],
  W: [-15, 12],
  s: [-15, 0],
  Hz: [0, 12],
  F: [-15, 0],
  m: [-9, 3],
  'V/K': [-9, 0],
}

const letters: Readonly<Record<number, string>> = {
  [-15]: 'f',
  [-12]: 'p',
  [-9]: 'n',
  [-6]: '\u00b5',
  [-3]: 'm',
  0: '',
  3: 'k',
  6: 'M',
  9: 'G',
  12: 'T',
}

const signs: Partial<Readonly<Record<Unit, string>>> = { ohm: '\u03a9', degC: '\u00b0C', '1': '' }

/** A unit as people read it: `Ω`, `°C`, nothing for a plain number. */
export const unitText = (unit: Unit, ascii: boolean = printDefaults.ascii): string =>
  unit === '1' ? '' : ascii ? unit : (signs[unit] ?? unit)

/** Where a number is cut: its decimal digits, and the power of ten of the last of them. */
interface Rounded {
  readonly isNegative: boolean
  readonly digits: string
  readonly last: number
}

/** The shortest decimal that is this double: what a person would check by hand. */
function shortest(x: number): Rounded {
  const text = Math.abs(x).toExponential()
  const e = text.indexOf('e')
  const digits = e < 2 ? text.slice(0, e) : text.charAt(0) + text.slice(2, e)
  return { isNegative: x < 0, digits, last: Number(text.slice(e + 1)) - digits.length + 1 }
}

/** Rounds at a power of ten (`cut(12345, 2)` keeps the hundreds), from the shortest decimal; a half goes up. */
function cut(s: Rounded, place: number): Rounded {
  const drop = place - s.last
  const { isNegative } = s
  if (drop <= 0) return { isNegative, digits: s.digits + '0'.repeat(-drop), last: place }
  const padded = s.digits.padStart(drop + 1, '0')
  const isUp = padded.charAt(padded.length - drop) >= '5'
  return { isNegative, digits: oneUp(padded.slice(0, -drop), isUp), last: place }
}

/** Digits without zeros in front, raised by one in the last place where wanted. */
function oneUp(digits: string, isUp: boolean): string {
  if (digits.length < 15) return String(Number(digits) + (isUp ? 1 : 0))
  return String(BigInt(digits) + (isUp ? 1n : 0n))
}

const toPlace = (x: number, place: number): Rounded => cut(shortest(x), place)

/** Rounds to significant digits. */
function toDigits(x: number, digits: number): Rounded {
  const s = shortest(x)
  const r = cut(s, leadingPower(s) - digits + 1)
  return r.digits.length > digits ? { ...r, digits: r.digits.slice(0, -1), last: r.last + 1 } : r
}

/** Plain decimal text of a rounded number divided by a power of ten. */
function decimalText(r: Rounded, power: number): string {
  const place = r.last - power
  const sign = r.isNegative && /[1-9]/.test(r.digits) ? '-' : ''
  if (place >= 0) return sign + (r.digits + '0'.repeat(place)).replace(/^0+(?=\d)/, '')
  const padded = r.digits.padStart(1 - place, '0')
  return `${sign}${padded.slice(0, place).replace(/^0+(?=\d)/, '')}.${padded.slice(place)}`
}

/** Power of ten of the first digit; of a zero, of its place. */
const leadingPower = (r: Rounded): number => r.last + significant(r.digits) - 1

/** How many digits stand from the first that is not 0; 1 for nothing but zeros. */
function significant(digits: string): number {
  let zeros = 0
  while (zeros < digits.length - 1 && digits.charCodeAt(zeros) === 48) zeros++
  return digits.length - zeros
}

/** How a number of that leading power is scaled: by a prefix, by nothing, or by an exponent where neither fits. */
function scaleFor(leading: number, unit: Unit): { readonly power: number; readonly prefix?: string } {
  const range = prefixRange[unit]
  if (range === undefined) return leading >= -4 && leading < 7 ? { power: 0, prefix: '' } : { power: leading }
  const step = Math.floor(leading / 3) * 3
  const power = Math.min(range[1], Math.max(range[0], step))
  const isFar = leading - power >= 7 || power - leading > 4
  return isFar ? { power: leading } : { power, prefix: letters[power]! }
}

function withUnit(
  numberText: string,
  scale: { readonly power: number; readonly prefix?: string },
  unit: Unit,
  ascii: boolean,
): string {
  const number = scale.prefix === undefined ? `${numberText}e${scale.power}` : numberText
  const prefix = ascii && scale.prefix === '\u00b5' ? 'u' : (scale.prefix ?? '')
  const text = prefix + unitText(unit, ascii)
  return text === '' ? number : `${number} ${text}`
}

/**
 * A value as people read it, with an engineering prefix where the unit takes one.
 *
 * @param value in SI units
 * @param unit its unit; a plain number, degrees Celsius and divisions take no prefix
 * @example printValue(0.0000125, 'A') // '12.50 µA'
 */
export function printValue(value: number, unit: Unit, options: PrintOptions = {}): string {
  const o = { ...printDefaults, ...options }
  if (!Number.isFinite(value)) return withUnit(String(value), { power: 0, prefix: '' }, unit, o.ascii)
  if (value === 0) return withUnit('0', { power: 0, prefix: '' }, unit, o.ascii)
  const r = toDigits(value, o.digits)
  const scale = scaleFor(leadingPower(r), unit)
  return withUnit(decimalText(r, scale.power), scale, unit, o.ascii)
}

/** A value with at most `digits` significant digits and no zeros at the end: `4.5 V`, `100 Ω`. */
export function printPlain(value: number, unit: Unit, options: PrintOptions = {}): string {
  const text = printValue(value, unit, options)
  return text.replace(/^(-?\d+)\.(\d*?)0*(?=e| |$)/, (_, whole: string, part: string) =>
    part === '' ? whole : `${whole}.${part}`,
  )
}

/** A relative uncertainty below this is under the resolution of a double and counts as none. */
const finest = 1e-15

/** Rounds an uncertainty to one or two digits; returns the power of ten of its last digit. */
function lastPlace(u: number, uDigits: 1 | 2 | 'auto'): number {
  const two = toDigits(u, 2)
  const digits = uDigits === 'auto' ? (two.digits < '30' ? 2 : 1) : uDigits
  if (digits === 2) return two.last
  return leadingPower(shortest(u))
}

/**
 * A value with its standard uncertainty: `118(6)`, `1.234(5) mA`, or `(118.0 ± 5.6)` in the other style. The value is
 * cut where the uncertainty ends. A value without doubt is printed plain.
 *
 * @param u standard uncertainty, in the unit of the value
 */
export function printMeasured(value: number, u: number, unit: Unit, options: PrintOptions = {}): string {
  const o = { ...printDefaults, ...options }
  const isCertain = !(u > Math.abs(value) * finest) || !Number.isFinite(u)
  if (isCertain || !Number.isFinite(value)) return printPlain(value, unit, { digits: 6, ...options })
  const place = lastPlace(u, o.uDigits)
  const v = toPlace(value, place)
  const du = toPlace(u, place)
  const scale = scaleFor(Math.max(leadingPower(v), leadingPower(du)), unit)
  const number = decimalText(v, scale.power)
  if (o.style === 'paren') {
    const inside = place - scale.power >= 0 ? decimalText(du, scale.power) : du.digits.replace(/^0+(?=\d)/, '')
    return withUnit(`${number}(${inside})`, scale, unit, o.ascii)
  }
  const both = `${number} ${o.ascii ? '+-' : '\u00b1'} ${decimalText(du, scale.power)}`
  const isBare = scale.prefix === '' && unitText(unit) === ''
  return isBare ? both : withUnit(`(${both})`, scale, unit, o.ascii)
}

/**
 * A value cut at the second digit of an uncertainty that is shown elsewhere: the ends of an interval.
 *
 * @example printRounded(10.0000971, 0.000018, 'V') // '10.000097 V'
 */
export function printRounded(value: number, u: number, unit: Unit, options: PrintOptions = {}): string {
  const o = { ...printDefaults, ...options }
  const isCertain = !(u > Math.abs(value) * finest) || !Number.isFinite(u)
  if (isCertain || !Number.isFinite(value)) return printPlain(value, unit, { digits: 6, ...options })
  const place = lastPlace(u, 2)
  const v = toPlace(value, place)
  const scale = scaleFor(Math.max(leadingPower(v), leadingPower(toPlace(u, place))), unit)
  return withUnit(decimalText(v, scale.power), scale, unit, o.ascii)
}

/** A quantity with its standard uncertainty, as `printMeasured`. */
export const printQuantity = (q: Quantity, options: PrintOptions = {}): string =>
  printMeasured(q.value, standardUncertainty(q), q.unit, options)
