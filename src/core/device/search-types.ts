import type { Family, Material, PartType, Polarity } from './part-type.ts'
import { plainTypeName } from './type-name.ts'

/** A span in SI units; a missing side is open. */
export interface Span {
  readonly min?: number
  readonly max?: number
}

/** What to look for; everything given must hold. */
export interface TypeQuery {
  /** Part of the type number, or words of construction, outline and use. */
  readonly text?: string
  readonly polarity?: Polarity
  readonly material?: Material
  readonly family?: Family
  /** Part of the outline: `TO-5`. */
  readonly outline?: string
  /**
   * By letter symbol, SI units: a rating must lie in the span, or a published limit must guarantee it. `P_tot` is the
   * highest rated power. `{ V_CEO: { min: 20 }, h_FE: { min: 100 } }`
   */
  readonly within?: Readonly<Record<string, Span>>
}

/**
 * Types that answer a query, in their order.
 *
 * @example searchTypes(types, { material: 'Ge', polarity: 'PNP', within: { I_C: { min: 0.1 } } })
 */
export const searchTypes = (types: readonly PartType[], query: TypeQuery): readonly PartType[] =>
  types.filter((t) => answers(t, query))

function answers(t: PartType, q: TypeQuery): boolean {
  return (
    (q.family === undefined || t.family === q.family) &&
    (q.polarity === undefined || t.polarity === q.polarity) &&
    (q.material === undefined || t.material === q.material) &&
    (q.outline === undefined || hasOutline(t, q.outline)) &&
    (q.text === undefined || hasText(t, q.text)) &&
    Object.entries(q.within ?? {}).every(([symbol, span]) => holds(t, symbol, span))
  )
}

/** Whole names only, so that TO-3 does not find TO-39. */
function hasOutline(t: PartType, outline: string): boolean {
  const names = (t.outline ?? '').toUpperCase().match(/[A-Z]+-\d+[A-Z]*|[A-Z]+/g)
  return outline
    .toUpperCase()
    .split(/\s+/)
    .every((wanted) => names?.some((n) => n === wanted))
}

function hasText(t: PartType, text: string): boolean {
  const name = plainTypeName(text)
  if (name !== '' && plainTypeName(t.type).includes(name)) return true
  const words = text
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => w !== '')
  const about = [t.construction, t.outline, t.use].join(' ').toLowerCase()
  return words.length > 0 && words.every((w) => about.includes(w))
}

function holds(t: PartType, symbol: string, span: Span): boolean {
  const rating = ratingOf(t, symbol)
  if (rating !== undefined) return (span.min ?? rating) <= rating && rating <= (span.max ?? rating)
  return t.limits.some(
    (l) =>
      l.symbol === symbol &&
      (span.min === undefined || (l.min !== undefined && l.min >= span.min)) &&
      (span.max === undefined || (l.max !== undefined && l.max <= span.max)),
  )
}

function ratingOf(t: PartType, symbol: string): number | undefined {
  if (symbol === 'P_tot')
    return t.ratings.power.length === 0 ? undefined : Math.max(...t.ratings.power.map((p) => p.powerW))
  if (symbol === 'power' || symbol === 'other') return undefined
  const value = Object.hasOwn(t.ratings, symbol)
    ? t.ratings[symbol as keyof typeof t.ratings]
    : t.ratings.other?.[symbol]
  return typeof value === 'number' ? value : undefined
}
