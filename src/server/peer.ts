import { getConnInfo } from '@hono/node-server/conninfo'
import type { Context as Exchange } from 'hono'

/** Address a request came from; undefined where it came from no network, as in a test. */
export function addressOf(c: Exchange): string | undefined {
  return (c.env as { incoming?: unknown } | undefined)?.incoming === undefined
    ? undefined
    : getConnInfo(c).remote.address
}
