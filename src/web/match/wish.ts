import type { MatchOffers } from '#api'
import { type MatchRequest, type MatchWant, matchRequestSchema, matchWants, wantedValue } from '#core/match'
import type { Unit } from '#core/quantity'

/** What a person wishes for: a request, and which parts of the book it is about. */
export interface Wish {
  readonly request: MatchRequest
  /** Name of the common want it began with. */
  readonly want?: string
  readonly lot?: string
  readonly type?: string
}

export type Wanted = MatchRequest['by'][number]

/** Kinds of tolerance, as one chooses them. */
export type WithinKind = 'none' | 'absolute' | 'percent' | 'ratio'

export const withinKind = ({ within }: Wanted): WithinKind =>
  within === undefined ? 'none' : 'absolute' in within ? 'absolute' : 'percent' in within ? 'percent' : 'ratio'

export const withinValue = ({ within }: Wanted): number =>
  within === undefined
    ? 0
    : 'absolute' in within
      ? within.absolute
      : 'percent' in within
        ? within.percent
        : within.ratio

/** A tolerance of a kind; one that makes no sense is the nearest that does. */
export function within(kind: WithinKind, value: number): Wanted['within'] {
  if (kind === 'none') return undefined
  if (kind === 'absolute') return { absolute: Math.max(0, value) }
  return kind === 'percent' ? { percent: Math.max(0, value) } : { ratio: Math.max(1, value) }
}

/** Unit of a parameter by its name; logarithms have none. */
export function unitOf(name: string, { symbols }: MatchOffers): Unit {
  const { of, log } = wantedValue(name)
  if (log !== undefined) return '1'
  return (symbols.find((s) => s.symbol === of.split('@')[0])?.unit ?? '1') as Unit
}

/** What counts as a difference of one until somebody says otherwise. */
function usualScale(name: string, offers: MatchOffers): number {
  if (wantedValue(name).log !== undefined) return 0.1
  const unit = unitOf(name, offers)
  return unit === 'V' ? 0.005 : unit === 'A' ? 1e-5 : unit === '1' ? 10 : 1
}

export const wantedFor = (name: string, offers: MatchOffers): Wanted => ({
  name,
  scale: usualScale(name, offers),
  weight: 1,
})

/** Names one can match by: every symbol, and the logarithm of those that are compared by ratio. */
export const namesOffered = ({ symbols }: MatchOffers): readonly string[] =>
  symbols.flatMap(({ symbol, unit }) => (unit === '1' || unit === 'A' ? [symbol, `ln(${symbol})`] : [symbol]))

/** Pairs by gain and leakage or base voltage, whichever the book has. */
export function firstWish(offers: MatchOffers): Wish {
  const has = (symbol: string): boolean => offers.symbols.some((s) => s.symbol === symbol)
  const names = ['h_FE', 'I_CEO', 'V_BE', 'V_F'].filter(has).slice(0, 2)
  const by = (names.length > 0 ? names : offers.symbols.slice(0, 1).map((s) => s.symbol)).map((n) =>
    wantedFor(n, offers),
  )
  return { request: { ...empty, by } }
}

const empty: MatchRequest = {
  size: 2,
  by: [],
  objective: 'pair-distance',
  same: [],
  together: [],
  exclude: [],
  reserve: [],
  seed: 1,
}

/** The wish a common want makes; which parts it is about stays as it was. */
export const wishFor = (want: MatchWant, { lot, type }: Wish): Wish => ({
  request: matchRequestSchema.parse(want.request),
  want: want.name,
  ...(lot === undefined ? {} : { lot }),
  ...(type === undefined ? {} : { type }),
})

export const wantNamed = (name: string): MatchWant | undefined => matchWants.find((w) => w.name === name)

/** A request with some of it changed; a key that is set to nothing falls out. */
export function changed(request: MatchRequest, change: Partial<Record<keyof MatchRequest, unknown>>): MatchRequest {
  const all = Object.entries({ ...request, ...change }).filter(([, value]) => value !== undefined)
  return Object.fromEntries(all) as unknown as MatchRequest
}

/** Parts that are matched while one watches, at most: more would keep the page from answering. */
const mostParts = 2000

/** What of a wish the server is asked for. */
export const queryOf = ({ request, lot, type }: Wish) => ({
  by: request.by.map((one) => one.name).join(','),
  labels: [...request.same, ...(request.across === undefined ? [] : [request.across])].join(','),
  lot,
  type,
  most: mostParts,
})

/** Symbols of the request that no part of the book has. */
export const notMeasured = ({ request }: Wish, { symbols }: MatchOffers): readonly string[] =>
  request.by
    .map(({ name }) => wantedValue(name).of.split('@')[0]!)
    .filter((symbol) => !symbols.some((s) => s.symbol === symbol))
