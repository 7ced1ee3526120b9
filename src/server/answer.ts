import type { Context as Exchange } from 'hono'
import { type ParamsOf, type QueryOf, type RouteName, type Routes, routes, windowHeader } from '#api'
import { bookHandlers } from './book-handlers.ts'
import type { Context } from './context.ts'
import { curveHandlers } from './curve-handlers.ts'
import { sendEvents } from './events-route.ts'
import type { Given, Handlers } from './handler.ts'
import { jobHandlers } from './job-handlers.ts'
import { knownHandlers } from './known-handlers.ts'
import { matchHandlers } from './match-handlers.ts'
import { partHandlers } from './part-handlers.ts'
import {
  sendDrawer,
  sendJobReport,
  sendPage,
  sendPhoto,
  sendReport,
  sendTypes,
  takeJobPhoto,
  takePhoto,
} from './raw-routes.ts'
import { runHandlers } from './run-handlers.ts'
import { stageHandlers } from './stage-handlers.ts'
import { standInHandlers } from './standin-handlers.ts'
import { upkeepHandlers } from './upkeep-handlers.ts'
import { workHandlers } from './work-handlers.ts'

/** Routes whose answer is plain JSON. */
const handlers = {
  ...bookHandlers,
  ...knownHandlers,
  ...standInHandlers,
  ...runHandlers,
  ...partHandlers,
  ...curveHandlers,
  ...jobHandlers,
  ...matchHandlers,
  ...stageHandlers,
  ...upkeepHandlers,
  ...workHandlers,
} satisfies Partial<Handlers<RouteName>>

type Plain = keyof typeof handlers

/** Routes that answer in their own way. */
type Raw = Exclude<RouteName, Plain | 'pairing' | 'pair'> | 'types'

const raw: { readonly [K in Raw]: (context: Context, c: Exchange, given: Checked) => Promise<Response> | Response } = {
  types: (context, c) => sendTypes(context, c),
  drawer: (context, c, { query }) => sendDrawer(context, c, query as QueryOf<Routes['drawer']>),
  addPhoto: async (context, c, { params, query }) => {
    const { tag } = params as ParamsOf<Routes['addPhoto']>
    const { name } = query as QueryOf<Routes['addPhoto']>
    return c.json(await takePhoto(context, c, { tag, name }))
  },
  addJobPhoto: async (context, c, { params, query }) => {
    const { job } = params as ParamsOf<Routes['addJobPhoto']>
    const { name } = query as QueryOf<Routes['addJobPhoto']>
    return c.json(await takeJobPhoto(context, c, { job, name }))
  },
  jobReport: (context, c, { params, query }) =>
    sendJobReport(context, c, {
      job: (params as ParamsOf<Routes['jobReport']>).job,
      save: (query as QueryOf<Routes['jobReport']>).save,
    }),
  photo: (context, c, { params }) => sendPhoto(context, c, (params as ParamsOf<Routes['photo']>).photo),
  report: (context, c, { query }) => sendReport(context, c, query as QueryOf<Routes['report']>),
  workPage: ({ works }, c, { params }) => sendPage(c, works.page((params as ParamsOf<Routes['workPage']>).work), false),
  events: (context, c) => sendEvents(context, c),
}

/** What the shapes of a route let through. */
export interface Checked {
  readonly params: unknown
  readonly query: unknown
  readonly body: unknown
}

/** Answers a request whose parts were checked. */
export async function answer(
  context: Context,
  name: Exclude<RouteName, 'pairing' | 'pair'>,
  c: Exchange,
  checked: Checked,
): Promise<Response> {
  if (name in raw) return raw[name as Raw](context, c, checked)
  const handler = handlers[name as Plain] as (context: Context, given: Given<RouteName>) => unknown
  const given = { ...checked, window: c.req.header(windowHeader), signal: c.req.raw.signal } as Given<RouteName>
  return c.json((await handler(context, given)) as object)
}

/** Names of all routes but those of pairing, which need no pairing. */
export const answered = (Object.keys(routes) as RouteName[]).filter(
  (name): name is Exclude<RouteName, 'pairing' | 'pair'> => name !== 'pairing' && name !== 'pair',
)
