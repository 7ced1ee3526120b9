import { offersOf, partsOfBook } from '#bench'
import type { Handlers } from './handler.ts'

const namesIn = (list: string | undefined): readonly string[] =>
  (list ?? '').split(',').flatMap((name) => (name.trim() === '' ? [] : [name.trim()]))

export const matchHandlers: Handlers<'matchOffers' | 'matchParts'> = {
  matchOffers: ({ bench }) => offersOf(bench()),

  matchParts: ({ bench }, { query: { by, labels, lot, type, most } }) =>
    partsOfBook(
      bench(),
      { ...(lot === undefined ? {} : { lot }), ...(type === undefined ? {} : { type }) },
      { by: namesIn(by).map((name) => ({ name })), same: [...namesIn(labels)] },
      most,
    ),
}
