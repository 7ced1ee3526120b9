import type { SaidFault } from '#api'
import {
  coverageOf,
  keepTesterText,
  keepTypesText,
  ownTypes,
  readTesterText,
  readTypesText,
  type TextRead,
  testerStory,
  typeStory,
} from '#bench'
import { byWindow, type Handlers } from './handler.ts'
import { saidFaults } from './said.ts'

export const knownHandlers: Handlers<
  'testers' | 'checkTester' | 'saveTester' | 'tester' | 'coverage' | 'types' | 'checkType' | 'saveType' | 'type'
> = {
  testers: ({ bench }) => ({
    testers: bench().testers.map(({ tester, from, version }) => ({
      id: tester.id,
      name: tester.name,
      kind: tester.kind,
      from,
      ...(version === undefined ? {} : { version }),
      ...(tester.note === undefined ? {} : { note: tester.note }),
      tester,
    })),
  }),

  checkTester: (_, { body }) => {
    const read = readTesterText(body.text)
    return read.ok ? { ok: true as const, tester: read.read } : refused(read)
  },

  saveTester: async ({ bench, events, refresh }, { body, window }) => {
    const saved = await keepTesterText(bench(), body.text)
    await refresh()
    events.tell({ kind: 'tester', id: saved.name, ...byWindow(window) })
    if (saved.edit !== undefined) events.tell({ kind: 'edits', ...byWindow(window) })
    return saved
  },

  tester: ({ bench }, { params, query }) => testerStory(bench(), params.id, query.version),

  coverage: ({ bench }, { params, query }) => coverageOf(bench(), params.id, query.type),

  types: async ({ bench }) => {
    const own = await ownTypes(bench())
    return {
      types: bench().types,
      own: own.map(({ partType, version, at }) => ({ type: partType.type, version, at })),
    }
  },

  checkType: (_, { body }) => {
    const read = readTypesText(body.text)
    return read.ok ? { ok: true as const, types: read.read } : refused(read)
  },

  saveType: async ({ bench, events, refresh }, { body, window }) => {
    const saved = await keepTypesText(bench(), body.text)
    await refresh()
    events.tell({ kind: 'types', ...byWindow(window) })
    if (saved.some((one) => one.edit !== undefined)) events.tell({ kind: 'edits', ...byWindow(window) })
    return { saved }
  },

  type: async ({ bench }, { params }) => {
    const { explained, ...story } = await typeStory(bench(), params.type)
    return { ...story, explained: explained.map((one) => ({ ...one })) }
  },
}

const refused = (read: Extract<TextRead<unknown>, { ok: false }>): { ok: false; faults: SaidFault[] } => ({
  ok: false,
  faults: saidFaults(read.faults),
})
