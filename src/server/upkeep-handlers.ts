import { dropFound, dropStandard, examine, keepFound, keepStandard, pairedOfBook, testerNamed, upkeepOf } from '#bench'
import type { Context } from './context.ts'
import { byWindow, type Handlers } from './handler.ts'

type UpkeepRoute = 'health' | 'upkeep' | 'keepFound' | 'dropFound' | 'keepStandard' | 'dropStandard' | 'paired'

export const upkeepHandlers: Handlers<UpkeepRoute> = {
  health: async ({ bench }) => {
    const testers = []
    for (const known of bench().ownTesters) {
      const { tester, word, say } = (await examine(bench(), known)).health
      testers.push({ tester, word, say })
    }
    return { testers }
  },

  upkeep: ({ bench }, { params }) => upkeepOf(bench(), params.id),

  keepFound: async (context, { params, body: { day, note, parts }, window }) => {
    const known = testerNamed(context.bench(), params.id)
    const record = { day, parts, ...(note === undefined ? {} : { note }) }
    const kept = await keepFound(context.bench(), known, record)
    await tell(context, params.id, window)
    return kept
  },

  dropFound: async (context, { params, window }) => {
    const done = await dropFound(context.bench(), params.row)
    await tell(context, done.tester, window)
    return done
  },

  keepStandard: async (context, { params, body: { part, symbol, low, high }, window }) => {
    const known = testerNamed(context.bench(), params.id)
    const bounds = { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) }
    const kept = await keepStandard(context.bench(), known, { part, symbol, ...bounds })
    await tell(context, params.id, window)
    return kept
  },

  dropStandard: async (context, { params, window }) => {
    const done = await dropStandard(context.bench(), params.row)
    await tell(context, done.tester, window)
    return done
  },

  paired: ({ bench }, { params, query }) => {
    const id = (name: string): string => testerNamed(bench(), name).tester.id
    return pairedOfBook(bench(), { testers: [id(params.id), id(query.other)], symbol: query.symbol })
  },
}

/** A sample may have come into the book, so the bench is laid anew. */
async function tell({ events, refresh }: Context, id: string, window: string | undefined): Promise<void> {
  await refresh()
  events.tell({ kind: 'tester', id, ...byWindow(window) })
  events.tell({ kind: 'edits', ...byWindow(window) })
}
