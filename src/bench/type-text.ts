import { isDeepStrictEqual } from 'node:util'
import { Document, isMap, isSeq, visit } from 'yaml'
import { type Conditions, type Limit, type PartType, type Ratings, ratingUnits, readPartTypes } from '#core/device'
import { isUnit, parseValue, printPlain, type Unit } from '#core/quantity'

/**
 * A part type as the text a person edits: YAML, values with their units. Reading it again gives the same record.
 *
 * @example typeText(record) // 'type: GX-17\nfamily: bjt\n...'
 */
export function typeText(type: PartType): string {
  const text = yamlOf({ ...type, ratings: ratingsWritten(type.ratings), limits: type.limits.map(limitWritten) })
  return isDeepStrictEqual(readPartTypes(text), [type]) ? text : yamlOf(type)
}

/** One limit to a line, as in the example people start from. */
function yamlOf(data: unknown): string {
  const document = new Document(data, { aliasDuplicateObjects: false })
  visit(document, {
    Pair: (_, pair) => {
      const key = String((pair.key as { value?: unknown }).value)
      if (key === 'limits' && isSeq(pair.value)) for (const item of pair.value.items) if (isMap(item)) item.flow = true
    },
  })
  return document.toString({ lineWidth: 0 })
}

/** A value with its unit, where that reads as the very same number; else the bare number. */
function written(value: number, unit: Unit): string | number {
  if (unit === '1') return value
  const text = printPlain(value, unit, { digits: 6, ascii: true })
  const again = parseValue(text, { unit })
  return again.ok && again.value === value ? text : value
}

const byLetter: Readonly<Record<string, Unit>> = { I: 'A', V: 'V', R: 'ohm', T: 'degC', f: 'Hz', P: 'W' }

const writtenAs = (symbol: string, value: number): string | number => {
  const unit = byLetter[symbol.charAt(0)]
  return unit === undefined ? value : written(value, unit)
}

function limitWritten({ min, typ, max, at, ...limit }: Limit) {
  const { symbol, unit, ...rest } = limit
  const bound = (value: number | undefined) =>
    value === undefined ? undefined : isUnit(unit) ? written(value, unit) : value
  const bounds = Object.entries({ min: bound(min), typ: bound(typ), max: bound(max) })
  const given = Object.fromEntries(bounds.filter(([, value]) => value !== undefined))
  return { symbol, ...given, unit, at: conditionsWritten(at), ...rest }
}

const conditionsWritten = (at: Conditions) =>
  Object.fromEntries(Object.entries(at).map(([symbol, value]) => [symbol, writtenAs(symbol, value as number)]))

function ratingsWritten({ power, other, ...ratings }: Ratings) {
  const known = Object.entries(ratings).map(([symbol, value]) => {
    const unit = ratingUnits[symbol as keyof typeof ratingUnits]
    return [symbol, typeof value === 'number' ? written(value, unit) : value]
  })
  const more = other === undefined ? [] : Object.entries(other).map(([s, value]) => [s, writtenAs(s, value)])
  return { ...Object.fromEntries(known), power, ...(other === undefined ? {} : { other: Object.fromEntries(more) }) }
}
