import { prefixes } from './spelling.ts'
import type { Unit } from './unit.ts'

/** What is wrong with a typed value (a clause) and what to do about it (a sentence). */
export interface Refusal {
  readonly ok: false
  readonly problem: string
  readonly mend: string
}

export type DecimalMark = 'point' | 'comma' | 'either'

/** A decimal number kept as text, so that powers of ten lose nothing: `digits` x 10^`exponent`. */
export interface Decimal {
  readonly digits: string
  readonly exponent: number
}

/** A number as it stood, and the text after it. */
export interface Numeral extends Decimal {
  readonly ok: true
  /** What stood in parentheses: 118(6). */
  readonly u?: Decimal
  /** What a letter in the place of the decimal point named, as in 2R2 or 4k7. */
  readonly letter?: { readonly unit: Unit } | { readonly prefix: string }
  readonly rest: string
}

export const refuse = (problem: string, mend: string): Refusal => ({ ok: false, problem, mend })

const numeral =
  /^([+-]?)\s*(\d[\d.,]*|[.,]\d+)(?:\((\d[\d.,]*|[.,]\d+)\))?(?:(?:[eE]|\s*[x*]\s*10\s*\^)\s*([+-]?\d{1,4})(?!\d))?\s*(.*)$/
const letterPoint = /^([+-]?)(\d*)([RVAFfpnumkKMGT])(\d+)\s*(\D.*)?$/
const codedStart = /^[+-]?\d*[A-Za-z]\d/
const letterUnits: Readonly<Record<string, Unit>> = { R: 'ohm', V: 'V', A: 'A', F: 'F' }

/** Reads the number at the start of a text of plain signs; `mend` says what to write where there is none. */
export function scanNumeral(text: string, mark: DecimalMark, mend: string): Numeral | Refusal {
  const coded = codedStart.test(text) ? letterPoint.exec(text) : null
  if (coded !== null && (coded[2] !== '' || coded[3] === 'R')) return letterNumeral(coded)
  const m = numeral.exec(text)
  if (m === null) return refuse('does not begin with a number', mend)
  const after = m[5]!
  const digits = plainDecimal(m[2]!, mark, after)
  if (typeof digits !== 'string') return digits
  const exponent = m[4] === undefined ? 0 : Number(m[4])
  const signed = m[1] === '-' ? `-${digits}` : digits
  if (m[3] === undefined) return { ok: true, digits: signed, exponent, rest: after }
  const inside = plainDecimal(m[3], mark, after)
  if (typeof inside !== 'string') return inside
  const point = digits.indexOf('.')
  const decimals = point < 0 || inside.includes('.') ? 0 : digits.length - point - 1
  return { ok: true, digits: signed, exponent, u: { digits: inside, exponent: exponent - decimals }, rest: after }
}

function letterNumeral(m: RegExpExecArray): Numeral {
  const letter = m[3]!
  const unit = letterUnits[letter]
  return {
    ok: true,
    digits: `${m[1] === '-' ? '-' : ''}${m[2]}.${m[4]}`,
    exponent: unit === undefined ? prefixes[letter]! : 0,
    letter: unit === undefined ? { prefix: letter } : { unit },
    rest: m[5] ?? '',
  }
}

const groups = { point: /^\d{1,3}(?:,\d{3})+$/, comma: /^\d{1,3}(?:\.\d{3})+$/ }

/** Digits with a decimal point, from digits with points and commas; refused where two readings are possible. */
function plainDecimal(raw: string, mark: DecimalMark, after: string): string | Refusal {
  const hasComma = raw.includes(',')
  const point = raw.indexOf('.')
  if (!hasComma && (point < 0 || (mark !== 'comma' && raw.indexOf('.', point + 1) < 0))) return raw
  const sure = mark === 'either' ? likelyMark(raw) : mark
  if (sure === 'unsure') {
    const [whole, part] = raw.split(',') as [string, string]
    const unit = after === '' ? '' : ` ${after}`
    return refuse(
      `can be read as ${whole}.${part} or as ${whole}${part}`,
      `Write ${whole}.${part}${unit} or ${whole}${part}${unit}.`,
    )
  }
  const sign = sure === 'point' ? '.' : ','
  const [whole, part, ...more] = raw.split(sign) as [string, string?, ...string[]]
  const grouped = groups[sure].test(whole)
  if (more.length > 0 || part === '' || !/^\d*$/.test(part ?? '') || !(grouped || /^\d*$/.test(whole)))
    return refuse(
      'has its points and commas in odd places',
      `Write it with one decimal ${mark === 'comma' ? 'comma' : 'point'} and nothing else.`,
    )
  return `${whole.replaceAll(/[.,]/g, '')}.${part ?? '0'}`
}

function likelyMark(raw: string): 'point' | 'comma' | 'unsure' {
  const commas = raw.split(',').length - 1
  const points = raw.split('.').length - 1
  if (commas > 0 && points > 0) return raw.lastIndexOf(',') > raw.lastIndexOf('.') ? 'comma' : 'point'
  if (commas === 0) return points > 1 ? 'comma' : 'point'
  if (commas > 1) return 'point'
  return /^[1-9]\d{0,2},\d{3}$/.test(raw) ? 'unsure' : 'comma'
}
