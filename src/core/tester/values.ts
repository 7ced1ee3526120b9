import { z } from 'zod'
import { type Parsed, parseValue, type Unit, unitWords } from '#core/quantity'

/** Pieces of the description's schema: values as people write them, turned into SI numbers. */

/** Bounds of a value in SI units. */
interface Bounds {
  readonly above?: number
  readonly from?: number
  readonly upTo?: number
}

interface ValueWords extends Bounds {
  readonly description: string
  readonly example: string
}

type Refuse = (problem: string, mend: string) => never

const written = z.union([z.string(), z.number()])

const isPlainNumber = (text: string): boolean => /^[+-]?[\d.,]+$/.test(text)

/** What a value breaks of its bounds, as a clause. */
function beyond(value: number, bounds: Bounds): string | undefined {
  if (bounds.above !== undefined && value <= bounds.above) return `is not more than ${bounds.above}`
  if (bounds.from !== undefined && value < bounds.from) return `is less than ${bounds.from}`
  if (bounds.upTo !== undefined && value > bounds.upTo) return `is more than ${bounds.upTo}`
  return undefined
}

/** A value in the text that goes through `read`; the words show in faults and in the JSON Schema. */
function value<T>(words: ValueWords, read: (text: string, refuse: Refuse) => T) {
  return written.meta({ description: words.description, examples: [words.example] }).transform((input, ctx): T => {
    const refuse = (problem: string, mend: string): never => {
      ctx.addIssue({ code: 'custom', message: problem, params: { mend } })
      return z.NEVER
    }
    if (typeof input === 'number' && !Number.isFinite(input))
      return refuse('is not a number', `Write ${words.example}.`)
    return read(String(input).trim(), refuse)
  })
}

const needsUnit = (words: ValueWords): readonly [string, string] => [
  'has no unit',
  `Write the unit with it, as in ${words.example}.`,
]

function inUnit(text: string, unit: Unit, words: ValueWords, refuse: Refuse): Extract<Parsed, { ok: true }> {
  const parsed = parseValue(text, { unit })
  if (!parsed.ok) return refuse(parsed.problem, `Write it as ${words.example}.`)
  if (isPlainNumber(text) && parsed.value !== 0 && unit !== '1') return refuse(...needsUnit(words))
  const broken = beyond(parsed.value, words)
  return broken === undefined ? parsed : refuse(broken, `Write a value such as ${words.example}.`)
}

/** A value in a unit, which must stand with it. */
export const valueIn = (unit: Unit, words: ValueWords) =>
  value(words, (text, refuse) => inUnit(text, unit, words, refuse).value)

/** A current or a voltage; the unit says which. */
export const currentOrVoltage = (words: ValueWords) =>
  value(words, (text, refuse): { readonly value: number; readonly unit: 'A' | 'V' } => {
    const parsed = parseValue(text)
    if (!parsed.ok) return refuse(parsed.problem, `Write it as ${words.example}.`)
    if (isPlainNumber(text)) return refuse(...needsUnit(words))
    const { unit } = parsed
    if (unit !== 'A' && unit !== 'V')
      return refuse(`is ${unitWords[unit].what}`, `Write a current or a voltage: ${words.example}.`)
    const broken = beyond(parsed.value, words)
    return broken === undefined ? { value: parsed.value, unit } : refuse(broken, `Write it as ${words.example}.`)
  })

/** A current, a voltage or a gain; a gain is a number without a unit. */
export const currentVoltageOrGain = (words: ValueWords) =>
  value(words, (text, refuse): { readonly value: number; readonly unit: 'A' | 'V' | '1' } => {
    const parsed = parseValue(text)
    if (!parsed.ok) return refuse(parsed.problem, `Write it as ${words.example}.`)
    const { unit } = parsed
    if ((unit !== 'A' && unit !== 'V' && unit !== '1') || (unit === '1' && text.endsWith('%')))
      return refuse(`is ${unitWords[unit].what}`, `Write a current, a voltage or a plain gain: ${words.example}.`)
    const broken = beyond(parsed.value, words)
    return broken === undefined ? { value: parsed.value, unit } : refuse(broken, `Write it as ${words.example}.`)
  })

/** A measured resistance with its standard uncertainty behind a plus-minus. */
export const measuredOhm = (words: ValueWords) =>
  value(words, (text, refuse): { readonly ohm: number; readonly uOhm: number } => {
    const parsed = inUnit(text, 'ohm', words, refuse)
    if (parsed.u === undefined || parsed.u === 0)
      return refuse('does not say how well it was measured', `Write its uncertainty with it: ${words.example}.`)
    return { ohm: parsed.value, uOhm: parsed.u }
  })

/** A part of a whole: `2 %`, `0.02`. A plain number of 1 or more would be a percentage without its sign. */
export const fraction = (words: ValueWords) =>
  value(words, (text, refuse) => {
    if (isPlainNumber(text) && Math.abs(Number(text.replace(',', '.'))) >= 1)
      return refuse('has no percent sign', `Write ${text} % if percent is meant.`)
    return inUnit(text, '1', words, refuse).value
  })

/** An accuracy class, in percent with or without the sign (IEC 60051-1 names classes by the bare number). */
export const classIndex = (words: ValueWords) =>
  value(words, (text, refuse) => {
    const bare = isPlainNumber(text)
    const parsed = inUnit(text, '1', { description: words.description, example: words.example }, refuse)
    const percent = bare ? parsed.value : parsed.value * 100
    const broken = beyond(percent, words)
    return broken === undefined ? percent : refuse(broken, `Write a class such as ${words.example}.`)
  })

/** A plain number, or one over another: `0.2`, `1/5`. */
export const ratio = (words: ValueWords) =>
  value(words, (text, refuse) => {
    const over = /^(\d+)\s*\/\s*(\d+)$/.exec(text)
    if (over === null) return inUnit(text, '1', words, refuse).value
    const value = Number(over[1]) / Number(over[2])
    const broken = Number.isFinite(value) ? beyond(value, words) : 'is not a number'
    return broken === undefined ? value : refuse(broken, `Write it as ${words.example}.`)
  })

/** A difference of temperature: a kelvin and a degree Celsius are the same step. */
export const temperatureStep = (words: ValueWords) =>
  value(words, (text, refuse) => {
    const inCelsius = parseValue(text, { unit: 'degC' })
    return inCelsius.ok && !isPlainNumber(text)
      ? inUnit(text, 'degC', words, refuse).value
      : inUnit(text, 'K', words, refuse).value
  })

/** A name as printed on the tester: any short text; `10` is a name too. */
export const label = (description: string, example: string) =>
  value({ description, example }, (text, refuse) => {
    if (text === '') return refuse('is empty', `Write a name such as ${example}.`)
    if (text.length > 40) return refuse('is too long for a name', 'Use at most 40 letters.')
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    if (/[\x00-\x1f]/.test(text)) return refuse('has a line break or control letter', 'Write it on one line.')
    return text
  })

/** An object without the keys whose value is undefined, typed so that those keys may be absent. */
export function given<T extends object>(object: T): Given<T> {
  return Object.fromEntries(Object.entries(object).filter(([, v]) => v !== undefined)) as Given<T>
}
type Given<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>
}
