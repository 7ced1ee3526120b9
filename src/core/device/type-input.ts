import { z } from 'zod'
import { isUnit, parseValue, type Unit, units, unitWords } from '#core/quantity'
import {
  conditionUnit,
  letterSymbol,
  letterSymbols,
  type RatingSymbol,
  ratingUnits,
  unitByLetter,
} from './letter-symbols.ts'
import { conditionSymbols, type PowerRating } from './part-type.ts'

/** A refused value, with its mend, as `checkWith` of `#core/text` takes it. */
export const refusal = (message: string, mend: string, path: PropertyKey[] = []) =>
  ({ code: 'custom', message, path, params: { mend } }) as const

const typed = z.union([z.number(), z.string()])
type Typed = z.output<typeof typed>

/** A value as written: a number is in SI units (temperatures in degC), a text has its unit. */
function understood(
  value: Typed,
  unit: Unit,
): { readonly value: number } | { readonly problem: string; readonly mend: string } {
  if (typeof value === 'number') return { value }
  const parsed = parseValue(value, { unit })
  return parsed.ok ? { value: parsed.value } : { problem: parsed.problem, mend: parsed.mend }
}

/** A value with unit, as people write it. The words stand on what is written, so that they reach the JSON Schema. */
export const valueIn = (unit: Unit, description = unitWords[unit].what) =>
  typed.meta({ description, examples: [unitWords[unit].example] }).transform((value, ctx): number => {
    const got = understood(value, unit)
    if ('value' in got) return got.value
    ctx.addIssue(refusal(got.problem, got.mend))
    return z.NEVER
  })

/** A rating: a magnitude above nothing, save for temperatures. */
const ratingOf = (symbol: RatingSymbol) =>
  valueIn(ratingUnits[symbol], `Rating ${symbol}, ${unitWords[ratingUnits[symbol]].what}; a magnitude`)
    .refine((v) => symbol === 'T_Jmax' || v > 0, {
      error: 'is not above zero',
      params: { mend: 'Ratings are magnitudes: write them without a sign.' },
    })
    .optional()

const ratingSymbols = Object.keys(ratingUnits) as readonly RatingSymbol[]

/** Values by letter symbol, each in the unit its first letter stands for. */
const otherRatings = z
  .record(z.string(), typed)
  .meta({
    description: 'Ratings of field-effect transistors, thyristors and unijunction transistors, by letter symbol',
  })
  .transform((values, ctx) => {
    const read: Record<string, number> = {}
    for (const [symbol, value] of Object.entries(values)) {
      const got = otherRating(symbol, value)
      if ('value' in got) read[symbol] = got.value
      else ctx.addIssue(refusal(got.problem, got.mend, [symbol]))
    }
    return read
  })

function otherRating(symbol: string, value: Typed): ReturnType<typeof understood> {
  const unit = unitByLetter(symbol)
  if (unit !== undefined) return understood(value, unit)
  return {
    problem: 'stands under a symbol whose first letter is no quantity',
    mend: 'Begin the symbol with V, I, P, R or T.',
  }
}

const powerText = /^(.+?)(?:\s+at\s+(.+?)(?:\s+(ambient|case))?)?$/i

/** `150 mW at 25 degC ambient`, or its fields. */
const powerWritten = z
  .union([
    z.number(),
    z.string(),
    z.strictObject({
      powerW: z.number().positive(),
      of: z.enum(['ambient', 'case']),
      atC: z.number(),
      deratingWPerK: z.number().positive().optional(),
      note: z.string().optional(),
    }),
  ])
  .meta({
    description: 'Permitted power at a temperature of the air or of the case; 25 degC of the air where not said',
    examples: ['150 mW at 25 degC ambient'],
  })

const power = powerWritten.transform((value, ctx): PowerRating => {
  // Keys that were left out are not there at all, which the optional types of the schema cannot say.
  if (typeof value === 'object') return value as PowerRating
  const [, powerPart, atPart, of] = powerText.exec(String(value).trim()) ?? []
  const got = understood(typeof value === 'number' ? value : (powerPart ?? ''), 'W')
  const at = understood(atPart ?? 25, 'degC')
  if ('value' in got && 'value' in at && got.value > 0)
    return { powerW: got.value, of: of?.toLowerCase() === 'case' ? 'case' : 'ambient', atC: at.value }
  const problem = 'problem' in got ? got.problem : 'problem' in at ? at.problem : 'is not above zero'
  ctx.addIssue(refusal(problem, 'Write it as 150 mW at 25 degC ambient.'))
  return z.NEVER
})

export const ratingsInput = z
  .strictObject({
    ...(Object.fromEntries(ratingSymbols.map((s) => [s, ratingOf(s)])) as Record<
      RatingSymbol,
      ReturnType<typeof ratingOf>
    >),
    power: z
      .union([z.array(power), power.transform((p) => [p])])
      .default([])
      .meta({ description: 'One permitted power, or a list of them', examples: ['150 mW at 25 degC ambient'] }),
    other: otherRatings.optional(),
  })
  .meta({ description: 'Absolute maximum ratings, as magnitudes' })

export const conditionsInput = z
  .strictObject(
    Object.fromEntries(
      conditionSymbols.map((s) => [
        s,
        valueIn(conditionUnit(s), `Condition ${s}, ${unitWords[conditionUnit(s)].what}`).optional(),
      ]),
    ) as Record<(typeof conditionSymbols)[number], z.ZodOptional<ReturnType<typeof valueIn>>>,
  )
  .meta({ description: 'Conditions under which the limit holds', examples: [{ I_C: '2 mA', V_CE: '6 V' }] })

/** A limit; `h_FE` may be written `hFE`. */
export const limitInput = z
  .strictObject({
    symbol: z.string().meta({ description: 'Letter symbol', examples: ['h_FE'] }),
    min: typed.optional().meta({ description: 'Lower bound' }),
    typ: typed.optional().meta({ description: 'Typical value; never judged' }),
    max: typed.optional().meta({ description: 'Upper bound' }),
    unit: z.string().optional().meta({ description: 'Unit, for symbols that are not in the list' }),
    at: conditionsInput.default({}),
    note: z.string().optional(),
  })
  .transform((limit, ctx) => {
    const symbol = letterSymbol(limit.symbol)
    const unit = symbol === undefined ? limit.unit : letterSymbols[symbol]!.unit
    if (unit === undefined) {
      ctx.addIssue(refusal('is not a letter symbol that is known here', symbolMend(limit.symbol), ['symbol']))
      return z.NEVER
    }
    if (!isUnit(unit)) {
      ctx.addIssue(refusal('is not a unit that is known here', `Write one of ${units.join(', ')}.`, ['unit']))
      return z.NEVER
    }
    if (limit.unit !== undefined && limit.unit !== unit) {
      const mend = `${symbol} is in ${unit}: write the prefix with the value, such as ${unitWords[unit].example}.`
      ctx.addIssue(refusal('is not the unit of this symbol', mend, ['unit']))
      return z.NEVER
    }
    const bounds = boundsOf(limit, unit, ctx)
    const { note, at } = limit
    return { symbol: symbol ?? limit.symbol, ...bounds, unit, at, ...(note === undefined ? {} : { note }) }
  })
  .meta({ description: 'A published limit at its conditions' })

const symbolMend = (text: string): string => {
  const near = Object.keys(letterSymbols)
    .filter((s) => s.charAt(0) === text.charAt(0))
    .slice(0, 8)
  return near.length === 0
    ? 'Write a letter symbol such as h_FE or I_CBO, or add a line "unit:".'
    : `Write one of ${near.join(', ')} or another of the list, or add a line "unit:".`
}

type Bounds = { min?: number; typ?: number; max?: number }
type Sink = { addIssue: (issue: ReturnType<typeof refusal>) => void }

function boundsOf(limit: { readonly [K in keyof Bounds]: Typed | undefined }, unit: Unit, ctx: Sink): Bounds {
  const bounds: Bounds = {}
  for (const key of ['min', 'typ', 'max'] as const) {
    const value = limit[key]
    if (value === undefined) continue
    const got = understood(value, unit)
    if ('value' in got) bounds[key] = got.value
    else ctx.addIssue(refusal(got.problem, got.mend, [key]))
  }
  const { min, typ, max } = bounds
  if (limit.min === undefined && limit.typ === undefined && limit.max === undefined)
    ctx.addIssue(refusal('has no min, typ or max', 'Add a line such as max: 10 uA.'))
  if (min !== undefined && max !== undefined && min > max)
    ctx.addIssue(refusal('is above max', 'Swap min and max; values of PNP types are magnitudes.', ['min']))
  if (typ !== undefined && (typ < (min ?? typ) || typ > (max ?? typ)))
    ctx.addIssue(refusal('is not between min and max', 'Check it.', ['typ']))
  return bounds
}
