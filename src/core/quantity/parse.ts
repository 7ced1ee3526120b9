import { type Decimal, type DecimalMark, type Numeral, type Refusal, refuse, scanNumeral } from './numeral.ts'
import { plainSigns, prefixes, type Spelling, spellings, unitWords } from './spelling.ts'
import type { Unit } from './unit.ts'

/** How a typed value is to be understood. */
export interface ParseOptions {
  /** The unit that is expected. A bare number takes it, and so does a lone prefix (`10u`); another unit is refused. */
  readonly unit?: Unit
  /** The decimal mark. `either` (the default) takes both and refuses what could be read two ways, as `1,234`. */
  readonly decimal?: DecimalMark
}

/**
 * A value understood, in SI units, or what is wrong with it: `problem` is a clause ("is in V, not in A") and `mend` a
 * sentence, as a fault wants them.
 */
export type Parsed =
  | {
      readonly ok: true
      readonly value: number
      readonly unit: Unit
      /** What stood after a plus-minus or in parentheses, in `unit`; never negative. Its meaning is the caller's. */
      readonly u?: number
    }
  | Refusal

const longest = 80
const bare: Spelling = { unit: '1', power: 0, factor: 1 }
const strange = /[^\x20-\x7e]/
const simple = /^([+-]?\d+(?:\.\d+)?)(?:[eE]([+-]?\d{1,4}))? ?([a-zA-Z%/]*)$/

/**
 * Reads an engineering value as people write it: `4k7`, `2R2`, `10u`, `12.5 uA`, `1,2 mA`, `-0.65V`, `7.3 div`, `5 %`,
 * `200 ppm`, `0.39 %/K`, `1e-6 A`, `25 C`, `1.234(5) mA`, `12.5 +- 0.3 mA`, `100 ohm +- 5 %`. Never throws; a value
 * is always finite.
 *
 * @param text what was typed
 * @param options expected unit and decimal mark
 * @returns the value in SI units (percent and ppm as plain numbers), or problem and mend
 * @example parseValue('12.5 uA', { unit: 'A' }) // { ok: true, value: 0.0000125, unit: 'A' }
 */
export function parseValue(text: string, options: ParseOptions = {}): Parsed {
  const expected = options.unit
  const mark = options.decimal ?? 'either'
  if (text.length > longest) return refuse('is too long for a value', example(expected))
  const m = mark === 'comma' ? null : simple.exec(text)
  if (m !== null) {
    const spelling = unitOf(m[3]!, expected)
    if ('ok' in spelling) return spelling
    return measured({ digits: m[1]!, exponent: m[2] === undefined ? 0 : Number(m[2]) }, spelling)
  }
  const plain = (strange.test(text) ? plainSigns(text) : text).trim()
  if (plain === '') return refuse('is empty', example(expected))
  return plain.includes('+-') || plain.includes('+/-')
    ? parsePlusMinus(plain, mark, expected)
    : parseOne(plain, mark, expected)
}

function parseOne(text: string, mark: DecimalMark, expected: Unit | undefined): Parsed {
  const n = scanNumeral(text, mark, example(expected))
  if (!n.ok) return n
  const spelling = spellingOf(n, n.rest, expected)
  if ('ok' in spelling) return spelling
  const value = measured(n, spelling)
  if (n.u === undefined || !value.ok) return value
  const u = measured(n.u, spelling)
  return u.ok ? { ok: true, value: value.value, unit: value.unit, u: u.value } : u
}

/** `12.5 +- 0.3 mA`, `12.5 mA +- 0.3 mA`, `(12.5 +- 0.3) mA`, `100 ohm +- 5 %`. */
function parsePlusMinus(text: string, mark: DecimalMark, expected: Unit | undefined): Parsed {
  const outer = /^\((.*)\)\s*(.*)$/.exec(text)
  const tail = outer === null ? '' : /^[eE][+-]?\d/.test(outer[2]!) ? outer[2]! : ` ${outer[2]!}`
  const sides = (outer === null ? text : outer[1]!).split(/\+\/?-/)
  if (sides.length !== 2) return refuse('has more than one plus-minus', 'Write it as 12.5 +- 0.3 mA.')
  const left = scanNumeral(sides[0]!.trim() + tail, mark, example(expected))
  if (!left.ok) return left
  const right = scanNumeral(sides[1]!.trim() + tail, mark, example(expected))
  if (!right.ok) return right
  if (right.digits.startsWith('-') || left.u !== undefined || right.u !== undefined)
    return refuse('has its uncertainty in an odd form', 'Write it as 12.5 +- 0.3 mA.')
  const isPart =
    right.letter === undefined && right.rest !== '1' && spellings.get(right.rest.replaceAll(' ', ''))?.unit === '1'
  if (isPart && outer === null && !isNumberText(left.rest)) return relative(left, right, expected)
  const shared = left.rest === '' && left.letter === undefined ? right.rest : left.rest
  return pair(left, shared, right, right.rest === '' && right.letter === undefined ? left.rest : right.rest, expected)
}

const isNumberText = (text: string): boolean => text !== '' && spellings.get(text.replaceAll(' ', ''))?.unit === '1'

/** A value with an uncertainty in percent or ppm of it. */
function relative(left: Numeral, right: Numeral, expected: Unit | undefined): Parsed {
  const spelling = spellingOf(left, left.rest, expected)
  if ('ok' in spelling) return spelling
  if (spelling.unit === '1')
    return refuse(
      `can be read as percent of the value or as percent on both sides`,
      `Write (${left.digits} +- ${right.digits}) ${right.rest}, or both sides as plain numbers.`,
    )
  const value = measured(left, spelling)
  const part = measured(right, spellings.get(right.rest.replaceAll(' ', ''))!)
  if (!value.ok || !part.ok) return value.ok ? part : value
  return { ok: true, value: value.value, unit: value.unit, u: Math.abs(value.value) * part.value }
}

function pair(left: Numeral, leftUnit: string, right: Numeral, rightUnit: string, expected: Unit | undefined): Parsed {
  const a = spellingOf(left, leftUnit, expected)
  if ('ok' in a) return a
  const b = spellingOf(right, rightUnit, a.unit)
  if ('ok' in b) return b
  const value = measured(left, a)
  const u = measured(right, b)
  if (!value.ok || !u.ok) return value.ok ? u : value
  return { ok: true, value: value.value, unit: value.unit, u: u.value }
}

/** The unit of a numeral followed by a unit text; a letter in the place of the decimal point may name it. */
function spellingOf(n: Numeral, unitText: string, expected: Unit | undefined): Spelling | Refusal {
  if (n.letter === undefined) return unitOf(unitText, expected)
  if ('prefix' in n.letter && unitText === '') {
    const prefix = unitOf(n.letter.prefix, expected === undefined ? '1' : expected, true)
    return 'ok' in prefix ? prefix : { ...bare, unit: prefix.unit }
  }
  const unit = unitOf(unitText, 'unit' in n.letter && unitText === '' ? n.letter.unit : expected)
  if ('ok' in unit) return unit
  if (unit.power !== 0 || ('unit' in n.letter && n.letter.unit !== unit.unit))
    return refuse('has two units or two prefixes', example(expected))
  return expected === undefined || unit.unit === expected ? unit : wrongUnit(unit.unit, expected)
}

/** What a unit text means where `expected` is wanted. */
function unitOf(text: string, expected: Unit | undefined, isPrefix = false): Spelling | Refusal {
  if (text === '') return expected === undefined ? bare : { unit: expected, power: 0, factor: 1 }
  const tight = text.includes(' ') ? text.replaceAll(' ', '') : text
  const known = spellings.get(tight)
  if (known !== undefined && known.unit === expected && !isPrefix) return known
  if (Object.hasOwn(prefixes, tight)) {
    const wanted = expected ?? (known === undefined ? '1' : undefined)
    if (tight === 'm' && (expected === 's' || wanted === undefined))
      return refuse(
        `has "m" where ${expected === 's' ? 'milliseconds or minutes' : 'milli or metres'} could be meant`,
        expected === 's' ? 'Write ms or min.' : 'Write the whole unit, such as mA or mm.',
      )
    const takesPrefix = wanted !== undefined && wanted !== 'degC' && wanted !== 'div'
    const isKelvin = tight === 'K' && wanted !== 'ohm' && wanted !== '1' && wanted !== 'Hz'
    if (takesPrefix && !isKelvin) return { unit: wanted, power: prefixes[tight]!, factor: 1 }
  }
  if (known === undefined) return refuse(`has "${text}" where a unit should be`, example(expected))
  return expected === undefined ? known : wrongUnit(known.unit, expected)
}

const example = (expected: Unit | undefined): string =>
  expected === undefined
    ? 'Write a number and a unit, such as 12.5 mA.'
    : `Write ${unitWords[expected].what}, such as ${unitWords[expected].example}.`

const wrongUnit = (got: Unit, wanted: Unit): Refusal =>
  got === 'F' && wanted === 'degC'
    ? refuse('is in degrees Fahrenheit', 'Write it in degrees Celsius, such as 21 degC.')
    : refuse(`is ${unitWords[got].what}, not ${unitWords[wanted].what}`, example(wanted))

/** The number in SI units; refused where a double cannot hold it. */
function measured(n: Decimal, s: Spelling): Extract<Parsed, { ok: true }> | Refusal {
  const power = n.exponent + s.power
  const number = power === 0 ? Number(n.digits) : Number(`${n.digits}e${power}`)
  const value = s.factor === 1 ? number + 0 : number * s.factor
  if (!Number.isFinite(value)) return refuse('is too large for a number', 'Check the exponent.')
  if (value === 0 && /[1-9]/.test(n.digits)) return refuse('is too small for a number', 'Check the exponent.')
  return { ok: true, value, unit: s.unit }
}
