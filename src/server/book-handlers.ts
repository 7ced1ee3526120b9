import { bookPage, drawerOf, editList, putDemo, searchBook, type Undone, undo } from '#bench'
import type { Context } from './context.ts'
import { partsEvent } from './event-hub.ts'
import { byWindow, type Handlers } from './handler.ts'

export const bookHandlers: Handlers<'bookSummary' | 'makeDemo' | 'edits' | 'undo' | 'search'> = {
  bookSummary: async ({ bench, version }) => ({ ...(await bookPage(bench())), germane: version }),

  makeDemo: async ({ bench, events, refresh }) => {
    const { run, judged, lot } = await putDemo(bench())
    await refresh()
    events.tell({ kind: 'book', version: await drawerOf(bench()).version() })
    return { lot, run: run.id, parts: judged.results.map((one) => one.part) }
  },

  edits: async ({ bench }, { query }) => ({ edits: await editList(bench(), query.limit) }),

  undo: async (context, { body, window }) => {
    const done = await undo(context.bench(), body.edit)
    await tellUndone(context, done, window)
    return { undone: done.undone, edit: done.edit }
  },

  search: async ({ bench }, { query }) => ({ query: query.q, ...(await searchBook(bench(), query.q, query.limit)) }),
}

async function tellUndone({ bench, events, refresh }: Context, { change }: Undone, window: string | undefined) {
  const version = await drawerOf(bench()).version()
  switch (change.kind) {
    case 'part': {
      const tags = change.parts.map((one) => one.tag)
      events.tell(partsEvent(tags, version, window))
      break
    }
    case 'photo':
      if (change.part !== undefined) events.tell(partsEvent([change.part], version, window))
      if (change.job !== undefined) events.tell({ kind: 'job', job: change.job, ...byWindow(window) })
      break
    case 'job':
      events.tell({ kind: 'job', job: change.job, ...byWindow(window) })
      events.tell(partsEvent(change.tags, version, window))
      break
    case 'reading':
      events.tell(partsEvent([change.part], version, window))
      events.tell({ kind: 'run', run: change.run, ...byWindow(window) })
      break
    case 'tester':
      await refresh()
      for (const { name } of change.versions) events.tell({ kind: 'tester', id: name, ...byWindow(window) })
      break
    case 'upkeep':
      events.tell({ kind: 'tester', id: change.tester, ...byWindow(window) })
      break
    case 'mark':
      events.tell({ kind: 'types', ...byWindow(window) })
      break
    case 'part type':
      await refresh()
      events.tell({ kind: 'types', ...byWindow(window) })
  }
  events.tell({ kind: 'edits', ...byWindow(window) })
}
