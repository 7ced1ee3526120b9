import type { Outcome as OutcomeAnswer } from '#api'
import {
  beginPlannedRun,
  correctTyped,
  drawerOf,
  endRunAs,
  planRun,
  runList,
  runStory,
  type Settled,
  settleParts,
  takeTyped,
  testerNamed,
} from '#bench'
import { partWord } from '#core/judge'
import type { Context } from './context.ts'
import { partsEvent } from './event-hub.ts'
import { byWindow, type Handlers, type Sent } from './handler.ts'

export const runHandlers: Handlers<
  'plan' | 'runs' | 'startRun' | 'run' | 'addReading' | 'correctReading' | 'settleRun' | 'finishRun'
> = {
  plan: ({ bench }, { body }) => {
    const { tester } = testerNamed(bench(), body.tester)
    return planRun(bench(), { tester, typeName: body.type, wishes: given(body.wishes) })
  },

  runs: async ({ bench }, { query }) => ({ runs: await runList(bench(), given(query)) }),

  startRun: async ({ bench, events, refresh }, { body, window }) => {
    const { tester, type, note } = body
    const wishes = given(body.wishes)
    const begun = await beginPlannedRun(bench(), { tester, typeName: type, wishes, ...given({ note }) })
    await refresh()
    events.tell({ kind: 'run', run: begun.run.id, ...byWindow(window) })
    return begun
  },

  run: ({ bench }, { params, query }) => runStory(bench(), params.run, query.part),

  addReading: async (context, { params, body, window }) => {
    const taken = await takeTyped(context.bench(), params.run, body)
    if (!taken.isRepeat) await tellRead(context, params.run, taken.reading.reading.part, window)
    return taken
  },

  correctReading: async (context, { params, body, window }) => {
    const taken = await correctTyped(context.bench(), { run: params.run, reading: params.reading, ...body })
    if (!taken.isRepeat) await tellRead(context, params.run, taken.reading.reading.part, window)
    return taken
  },

  settleRun: async (context, { params, body, window }) => {
    const tags = body.part === undefined ? undefined : [body.part]
    return settled(context, params.run, await settleParts(context.bench(), params.run, tags), window)
  },

  finishRun: async (context, { params, body, window }) =>
    settled(context, params.run, await endRunAs(context.bench(), params.run, body.state ?? 'finished'), window),
}

type Filled<T> = { [K in keyof T]: Exclude<T[K], undefined> }

/** What was given, without what was not. */
const given = <T extends object>(from: T | undefined): Partial<Filled<T>> =>
  Object.fromEntries(Object.entries(from ?? {}).filter(([, value]) => value !== undefined)) as Partial<Filled<T>>

async function tellRead({ bench, events }: Context, run: number, part: string, window: string | undefined) {
  events.tell({ kind: 'run', run, ...byWindow(window) })
  events.tell(partsEvent([part], await drawerOf(bench()).version(), window))
}

async function settled({ bench, events }: Context, run: number, done: Settled, window: string | undefined) {
  const tags = done.outcomes.map((one) => one.result.part)
  events.tell({ kind: 'run', run, ...byWindow(window) })
  events.tell(partsEvent(tags, await drawerOf(bench()).version(), window))
  return {
    run: (await runList(bench(), { id: run }))[0]!,
    outcomes: done.outcomes.map(outcomeAnswer),
    notes: done.notes,
  }
}

/** What became of a part, with its word. */
export function outcomeAnswer({ result, verdicts }: Settled['outcomes'][number]): Sent<OutcomeAnswer> {
  const word = partWord(result.state, verdicts)
  return {
    part: result.part,
    ...(result.type === undefined ? {} : { type: result.type }),
    result,
    verdicts,
    ...(word === undefined ? {} : { word }),
  }
}
