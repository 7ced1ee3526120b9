import type { z } from 'zod'

type Keys = z.ZodObject

/** One exchange between page and server, as data: server, description and tests are made from it. */
export interface Route<
  P extends Keys | undefined = Keys | undefined,
  Q extends Keys | undefined = Keys | undefined,
  B extends z.ZodType | undefined = z.ZodType | undefined,
  A extends z.ZodType | undefined = z.ZodType | undefined,
> {
  readonly method: 'get' | 'post' | 'patch' | 'delete'
  /** Path with `{name}` for what stands in it. */
  readonly path: string
  readonly summary: string
  readonly params?: P
  readonly query?: Q
  /** JSON body; left out where there is none, or where `upload` says what comes. */
  readonly body?: B
  /** JSON answer; left out where `gives` says what comes. */
  readonly answer?: A
  /** Media types of a body that is not JSON. */
  readonly upload?: readonly string[]
  /** Media type of an answer that is not JSON. */
  readonly gives?: string
}

/** Declares a route and keeps the types of its parts. */
export const route = <
  P extends Keys | undefined = undefined,
  Q extends Keys | undefined = undefined,
  B extends z.ZodType | undefined = undefined,
  A extends z.ZodType | undefined = undefined,
>(
  given: Route<P, Q, B, A>,
): Route<P, Q, B, A> => given
