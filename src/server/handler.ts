import type { AnswerOf, BodyOf, ParamsOf, QueryOf, RouteName, Routes } from '#api'
import type { Context } from './context.ts'

/** What came with a request, checked by the shapes of its route. */
export interface Given<K extends RouteName> {
  readonly params: ParamsOf<Routes[K]>
  readonly query: QueryOf<Routes[K]>
  readonly body: BodyOf<Routes[K]>
  /** Name of the window it came from. */
  readonly window: string | undefined
  /** Tells when nobody waits for the answer any more; left out where one handler asks another. */
  readonly signal?: AbortSignal
}

/** Data that is only sent may be read-only. */
export type Sent<T> = T extends readonly (infer U)[]
  ? readonly Sent<U>[]
  : T extends object
    ? { readonly [K in keyof T]: Sent<T[K]> }
    : T

/** Answers one route: calls one use case and tells the other windows what changed. */
export type Handler<K extends RouteName> = (
  context: Context,
  given: Given<K>,
) => Promise<Sent<AnswerOf<Routes[K]>>> | Sent<AnswerOf<Routes[K]>>

export type Handlers<K extends RouteName> = { readonly [N in K]: Handler<N> }

/** The name of a window as part of an event. */
export const byWindow = (window: string | undefined): { window?: string } => (window === undefined ? {} : { window })
