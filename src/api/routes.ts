import type { z } from 'zod'
import { bookRoutes } from './book.ts'
import { curveRoutes } from './curve.ts'
import { drawerRoutes } from './drawer.ts'
import { eventRoutes } from './event.ts'
import { jobRoutes } from './job.ts'
import { matchRoutes } from './match.ts'
import { pairingRoutes } from './pairing.ts'
import { partRoutes } from './part.ts'
import type { Route } from './route.ts'
import { runRoutes } from './run.ts'
import { searchRoutes } from './search.ts'
import { stageRoutes } from './stage.ts'
import { standInRoutes } from './standin.ts'
import { testerRoutes } from './tester.ts'
import { typeRoutes } from './type.ts'
import { undoRoutes } from './undo.ts'
import { upkeepRoutes } from './upkeep.ts'
import { workRoutes } from './work.ts'

/** Every exchange there is, by name. */
export const routes = {
  ...bookRoutes,
  ...testerRoutes,
  ...typeRoutes,
  ...standInRoutes,
  ...runRoutes,
  ...drawerRoutes,
  ...partRoutes,
  ...curveRoutes,
  ...jobRoutes,
  ...upkeepRoutes,
  ...undoRoutes,
  ...searchRoutes,
  ...matchRoutes,
  ...stageRoutes,
  ...workRoutes,
  ...eventRoutes,
  ...pairingRoutes,
} as const

export type Routes = typeof routes
export type RouteName = keyof Routes

type Out<S> = S extends z.ZodType ? z.output<S> : undefined

/** What a route's body is to whoever answers it. */
export type BodyOf<R> = R extends Route<infer _P, infer _Q, infer B, infer _A> ? Out<B> : never
export type ParamsOf<R> = R extends Route<infer P, infer _Q, infer _B, infer _A> ? Out<P> : never
export type QueryOf<R> = R extends Route<infer _P, infer Q, infer _B, infer _A> ? Out<Q> : never
export type AnswerOf<R> = R extends Route<infer _P, infer _Q, infer _B, infer A> ? Out<A> : never
