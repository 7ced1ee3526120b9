import type { Parameter } from '#core/reduce'
import type { Book } from './book.ts'
import { fromJson, withoutNulls } from './json.ts'
import type { Figure } from './newest.ts'
import type { PartStatus } from './part.ts'
import { read } from './transaction.ts'

/** A part with what its newest run gave of some parameters. */
export interface PartParameters {
  readonly tag: string
  readonly type?: string
  readonly lot?: string
  readonly place?: string
  readonly status: PartStatus
  readonly parameters: readonly Parameter[]
  /** The newest values in short, by letter symbol: of parts whose results are not kept whole, all there is. */
  readonly figures: Readonly<Record<string, Figure>>
}

export interface ParametersFilter {
  /** Letter symbols. */
  readonly symbols: readonly string[]
  readonly lot?: string
  readonly type?: string
  readonly tag?: string
  /** So many parts from one on, counted from 0; all where left out. */
  readonly from?: number
  readonly count?: number
}

type Row = {
  readonly tag: string
  readonly type: string | null
  readonly lot: string | null
  readonly place: string | null
  readonly status: PartStatus
  readonly figures: string | null
  readonly record: string | null
}

/** Parts that fit a filter. */
const chosen = `FROM part LEFT JOIN lot ON lot.id = part.lot
  WHERE (@lot IS NULL OR lot.name = @lot) AND (@type IS NULL OR part.type = @type) AND (@tag IS NULL OR part.tag = @tag)`

const chosenBy = ({ lot, type, tag }: Omit<ParametersFilter, 'symbols'>) => ({
  lot: lot ?? null,
  type: type ?? null,
  tag: tag ?? null,
})

/** How many parts fit a filter, whichever of them are looked at. */
export const partsChosen = (book: Book, filter: Omit<ParametersFilter, 'symbols'>): Promise<number> =>
  read(
    book,
    async ({ driver }) =>
      driver
        .prepare<[ReturnType<typeof chosenBy>], number>(`SELECT count(*) ${chosen}`)
        .pluck()
        .get(chosenBy(filter)) ?? 0,
  )

/** Parameters of all parts that fit, in the order in which the parts came; those never measured have none. */
export const newestParameters = (book: Book, filter: ParametersFilter): Promise<PartParameters[]> =>
  read(book, async ({ driver }) => {
    const rows = driver
      .prepare<[ReturnType<typeof chosenBy> & { symbols: string; from: number; count: number }], Row>(
        `SELECT part.tag, part.type, lot.name AS lot, part.place, part.status, newest.figures, parameter.record
         FROM part LEFT JOIN lot ON lot.id = part.lot LEFT JOIN newest ON newest.part = part.id
           LEFT JOIN parameter ON parameter.part = part.id AND parameter.run = newest.run
             AND parameter.symbol IN (SELECT value FROM json_each(@symbols))
         WHERE part.id IN (SELECT part.id ${chosen} ORDER BY part.id LIMIT @count OFFSET @from)
         ORDER BY part.id, parameter.id`,
      )
      .iterate({
        ...chosenBy(filter),
        symbols: JSON.stringify(filter.symbols),
        from: filter.from ?? 0,
        count: filter.count ?? -1,
      })
    const found: (Omit<PartParameters, 'parameters'> & { parameters: Parameter[] })[] = []
    for (const { record, figures, ...part } of rows) {
      if (found.at(-1)?.tag !== part.tag)
        found.push({
          ...withoutNulls(part),
          figures: figures === null ? {} : fromJson<Record<string, Figure>>(figures),
          parameters: [],
        } as unknown as (typeof found)[number])
      if (record !== null) found.at(-1)!.parameters.push(fromJson<Parameter>(record))
    }
    return found
  })

/** What parts of a book can be chosen and matched by. */
export interface MatchOffers {
  readonly symbols: readonly { readonly symbol: string; readonly unit: string }[]
  readonly types: readonly string[]
  readonly lots: readonly string[]
}

/** Symbols that were measured, types and lots there are parts of. */
export const matchOffers = (book: Book): Promise<MatchOffers> =>
  read(book, async ({ driver }) => ({
    symbols: driver
      .prepare<[], { symbol: string; unit: string }>(
        // the unit is asked of one part each: asking it of all takes as long again
        `SELECT symbol, json_extract(figures, '$."' || symbol || '"[0]') AS unit
         FROM (SELECT key AS symbol, count(*) AS parts, min(part) AS first
               FROM newest, json_each(newest.figures) GROUP BY key)
           JOIN newest ON newest.part = first
         ORDER BY parts DESC, symbol`,
      )
      .all(),
    types: driver
      .prepare<[], string>('SELECT DISTINCT type FROM part WHERE type IS NOT NULL ORDER BY type')
      .pluck()
      .all(),
    lots: driver.prepare<[], string>('SELECT name FROM lot ORDER BY name').pluck().all(),
  }))
