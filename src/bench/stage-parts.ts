import { newestParameters, type PartParameters, partsChosen, usableStatuses } from '#book'
import { FaultError } from '#core/fault'
import type { Parameter } from '#core/reduce'
import { measuredNumbers, type PartNumbers, stageSymbols } from '#core/stage'
import { type Bench, bookOf, typeNamed } from './bench.ts'
import { inShort } from './match.ts'

/** Which parts of the book, and at which current what is published of them is to be taken, A. */
export interface StagePartsWish {
  readonly lot?: string
  readonly type?: string
  readonly tag?: string
  readonly nearA?: number
  /** So many from one on, counted from 0; all where left out. */
  readonly from?: number
  readonly count?: number
}

/** Parts as the numbers a stage needs. */
export interface StageParts {
  readonly parts: readonly PartNumbers[]
  /** Parts that cannot be tried, each with the reason. */
  readonly leftOut: readonly { readonly name: string; readonly why: string }[]
  /** How many parts there are, with those that were not asked for. */
  readonly of: number
}

/**
 * Parts of the book as the numbers a stage needs, from the newest run of each. Parts that are bad, used or gone, or of no
 * known type, or never measured, are left out and named; a part that is asked for by its tag is tried wherever it is.
 */
export async function partsForStages(bench: Bench, wish: StagePartsWish = {}): Promise<StageParts> {
  const { nearA, ...filter } = wish
  const isFree = (part: PartParameters): boolean => wish.tag !== undefined || usableStatuses.includes(part.status)
  const of = await partsChosen(bookOf(bench), filter)
  const found = await newestParameters(bookOf(bench), { symbols: stageSymbols, ...filter })
  const tried = found.map((part) => ({
    name: part.tag,
    numbers: isFree(part) ? numbersOrWhy(bench, part, nearA) : `it is ${part.status}`,
  }))
  return {
    parts: tried.flatMap(({ numbers }) => (typeof numbers === 'string' ? [] : [numbers])),
    leftOut: tried.flatMap(({ name, numbers }) => (typeof numbers === 'string' ? [{ name, why: numbers }] : [])),
    of,
  }
}

function numbersOrWhy(bench: Bench, part: PartParameters, nearA: number | undefined): PartNumbers | string {
  const { tag, type, parameters } = part
  if (type === undefined) return 'its type is not known'
  const told = parameters.length > 0 ? parameters : parametersInShort(part)
  if (told.length === 0) return 'nothing of it that counts here was measured'
  try {
    return measuredNumbers(tag, typeNamed(bench, type), told, nearA)
  } catch (error) {
    // a part of a family no stage is computed with is left out, not refused
    if (error instanceof FaultError) return `${type} cannot be computed in a stage`
    throw error
  }
}

/** Where a part has only its newest values in short: those, as if read under the conditions of its type. */
function parametersInShort(part: PartParameters): readonly Parameter[] {
  return stageSymbols.flatMap((symbol) => {
    const quantity = inShort(part, symbol)
    if (quantity === undefined) return []
    const at = { conditions: {}, temperatureC: 25, temperatureU: 0, points: [] }
    return [{ part: part.tag, symbol, quantity, ...at, standing: 'measured', doubts: [] }]
  })
}
