import type { Context as Exchange } from 'hono'
import { streamSSE } from 'hono/streaming'
import type { ChangeEvent } from '#api'
import { drawerOf } from '#bench'
import type { Context } from './context.ts'

/** Windows that listen at a time: more are a mistake. */
const listenersAtMost = 100
/** A line now and then keeps the connection known to be there, ms. */
const beatMs = 20_000

/** Sends what changes, as it changes, until the window goes. */
export function sendEvents(context: Context, c: Exchange): Response | Promise<Response> {
  if (context.events.listeners() >= listenersAtMost) return c.body(null, 503)
  c.header('x-accel-buffering', 'no')
  return streamSSE(c, async (stream) => {
    const send = (event: ChangeEvent): void => void stream.writeSSE({ data: JSON.stringify(event) })
    const stop = context.events.listen(send)
    const beat = setInterval(() => void stream.write(': here\n\n'), beatMs)
    send({ kind: 'book', version: await drawerOf(context.bench()).version() })
    await new Promise<void>((keep) => stream.onAbort(keep))
    clearInterval(beat)
    stop()
  })
}
