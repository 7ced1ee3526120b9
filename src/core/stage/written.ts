import { z } from 'zod'
import { parseValue, type Unit } from '#core/quantity'
import type { Between } from './part-numbers.ts'

/** A value as written, with what stood after a plus-minus in the same unit. */
export interface Written {
  readonly value: number
  readonly u?: number
}

interface Words {
  readonly description: string
  readonly example: string
  readonly from?: number
  readonly above?: number
  readonly upTo?: number
}

/** A value with its unit, as people write it: `33 kohm`, `1 kohm +- 5 %`, or a plain number in SI units. */
export const written = (unit: Unit, words: Words) =>
  z
    .union([z.string(), z.number()])
    .meta({ description: words.description, examples: [words.example] })
    .transform((input, ctx): Written => {
      const refuse = (message: string): never => {
        ctx.addIssue({ code: 'custom', message, params: { mend: `Write it as ${words.example}.` } })
        return z.NEVER
      }
      const parsed = parseValue(String(input), { unit })
      if (!parsed.ok) return refuse(parsed.problem)
      const { value, u } = parsed
      if (words.above !== undefined && value <= words.above) return refuse(`is not more than ${words.above}`)
      if (words.from !== undefined && value < words.from) return refuse(`is less than ${words.from}`)
      if (words.upTo !== undefined && value > words.upTo) return refuse(`is more than ${words.upTo}`)
      return u === undefined ? { value } : { value, u }
    })

export const plain = (unit: Unit, words: Words) => written(unit, words).transform(({ value }) => value)

/** A number between two ends: `80 +- 10` is from 70 to 90; without a plus-minus it is taken as it is. */
export const between = (unit: Unit, words: Words) =>
  written(unit, { above: 0, ...words }).transform(({ value, u = 0 }): Between => {
    const half = Math.min(u, 0.95 * value)
    return { low: value - half, usual: value, high: value + half }
  })

export const share = (description: string, example: string, upTo = 0.9) =>
  plain('1', { description, example, from: 0, upTo })
export const degrees = (description: string, example: string) =>
  plain('degC', { description, example, from: -60, upTo: 150 })
