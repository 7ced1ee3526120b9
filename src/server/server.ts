import type { Server } from 'node:http'
import { createAdaptorServer } from '@hono/node-server'
import { type Bench, clearBench, drawerOf, layBench, refreshed, waitOutside } from '#bench'
import { FaultError } from '#core/fault'
import { app } from './app.ts'
import type { Context } from './context.ts'
import { drawerCache } from './drawer-cache.ts'
import { eventHub } from './event-hub.ts'
import { lanNames, ownHosts } from './guard.ts'
import { type PairingOptions, pairing } from './pairing.ts'
import { works } from './works.ts'

export interface ServerOptions {
  /** The book; made where there is none. */
  readonly bookFile: string
  /** Port to listen on; 0 for any that is free. */
  readonly port: number
  /** Opens the server to the local network, behind a pairing code. */
  readonly lan?: boolean
  /** Folder of the built page. */
  readonly pageFolder: string
  /** The program of the threads for long work. */
  readonly workerFile: string | URL
  /** Version of Germane. */
  readonly version: string
  readonly now?: () => string
  readonly complain?: (error: unknown) => void
  readonly pairing?: Partial<PairingOptions>
}

export const serverDefaults = {
  port: 4747,
  now: (): string => new Date().toISOString(),
  complain: (error: unknown): void => console.error(error),
} as const

/** A server that listens. */
export interface RunningServer {
  readonly port: number
  /** Address for this computer. */
  readonly url: string
  /** Addresses for others on the local network, where it is open to them. */
  readonly lanUrls: readonly string[]
  /** What they have to type. */
  readonly pairingCode?: string
  /** Ends long work, lets go of all windows and closes the book. */
  readonly close: () => Promise<void>
}

/** When what takes a moment is made ready, ms after the server is there: by then it has answered the first requests. */
const warmUpAfterMs = 300
/** How often it is looked whether another program wrote to the book, ms. */
const lookEveryMs = 1000

/**
 * Opens a book and serves it.
 *
 * @throws {FaultError} the book can't be used; `usage` where the port is taken
 */
export async function startServer(given: ServerOptions): Promise<RunningServer> {
  const options = { ...serverDefaults, ...given }
  let bench = await layBench({ bookFile: options.bookFile, create: true, now: options.now })
  waitOutside(bench)
  const refresh = async (): Promise<void> => {
    bench = await refreshed(bench)
  }
  const context = contextOf(options, () => bench, refresh)
  const look = watcher(context)
  const gate = options.lan === true ? pairing(() => performance.now(), options.pairing) : undefined
  let hosts: ReadonlySet<string> = new Set()
  const hono = app({
    context,
    pageFolder: options.pageFolder,
    hosts: () => hosts,
    sync: look.sync,
    complain: options.complain,
    ...(gate === undefined ? {} : { pairing: gate }),
  })
  const server = createAdaptorServer({ fetch: hono.fetch }) as Server
  const port = await listen(server, options).catch(async (error: unknown) => {
    await clearBench(bench)
    throw error
  })
  hosts = ownHosts(port, options.lan === true)
  const stopBackground = inBackground(context, look.tell, options.complain)
  return {
    port,
    url: `http://127.0.0.1:${port}`,
    lanUrls: options.lan === true ? lanNames().map((name) => `http://${name}:${port}`) : [],
    ...(gate === undefined ? {} : { pairingCode: gate.code }),
    close: async () => {
      stopBackground()
      await context.works.close()
      await stop(server)
      await clearBench(bench)
    },
  }
}

/** Begins what goes on by itself; gives the function that stops it. That a book is closed under it is no fault. */
function inBackground(context: Context, look: () => Promise<void>, complain: (error: unknown) => void): () => void {
  let isStopped = false
  const go = (work: Promise<void>): void => {
    work.catch((error: unknown) => {
      if (!isStopped) complain(error)
    })
  }
  const warm = setTimeout(() => go(warmUp(context)), warmUpAfterMs)
  const timer = setInterval(() => go(look()), lookEveryMs)
  return () => {
    isStopped = true
    clearTimeout(warm)
    clearInterval(timer)
  }
}

/** Makes ready what the first pages need, once the server is there. */
async function warmUp({ bench, drawer }: Context): Promise<void> {
  if (bench().testers.length > 0) await drawer.blocks()
}

function contextOf(
  options: Pick<ServerOptions, 'bookFile' | 'workerFile' | 'version'> & { readonly now: () => string },
  bench: () => Bench,
  refresh: () => Promise<void>,
): Context {
  const events = eventHub()
  const { bookFile, workerFile, now, version } = options
  const onEnd = async (): Promise<void> => {
    await refresh()
    events.tell({ kind: 'book', version: await drawerOf(bench()).version() })
  }
  return {
    bench,
    refresh,
    events,
    drawer: drawerCache(bench),
    works: works({ bookFile, workerFile, now, events, onEnd }),
    version,
  }
}

/** Notices what other programs, and our own threads, write to the book. */
function watcher({ bench, refresh, events, works }: Context) {
  let seen = drawerOf(bench()).foreignWrites()
  let isTold = true
  const sync = async (): Promise<void> => {
    const now = drawerOf(bench()).foreignWrites()
    if (now === seen) return
    seen = now
    isTold = false
    await refresh()
  }
  return {
    sync,
    /** Tells all windows; while long work goes on, its own events do. */
    tell: async (): Promise<void> => {
      await sync()
      if (isTold || works.list().some((work) => work.state === 'running')) return
      isTold = true
      events.tell({ kind: 'book', version: await drawerOf(bench()).version() })
    },
  }
}

/** All addresses, of both kinds where this machine has both. */
const everywhere = ['::', '0.0.0.0'] as const

async function listen(server: Server, { port, lan }: ServerOptions): Promise<number> {
  if (lan !== true) return listenOn(server, port, '127.0.0.1')
  return listenOn(server, port, everywhere[0]).catch((error: unknown) => {
    if (!isWithout(error)) throw error
    return listenOn(server, port, everywhere[1])
  })
}

/** Whether a machine has no addresses of this kind. */
const isWithout = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && /^(EAFNOSUPPORT|EADDRNOTAVAIL|EINVAL)$/.test(String(error.code))

function listenOn(server: Server, port: number, host: string): Promise<number> {
  return new Promise((keep, lose) => {
    const fail = (error: NodeJS.ErrnoException): void => lose(cannotListen(error, port))
    server.once('error', fail)
    server.listen({ port, host }, () => {
      server.off('error', fail)
      const address = server.address()
      keep(typeof address === 'object' && address !== null ? address.port : port)
    })
  })
}

function cannotListen(error: NodeJS.ErrnoException, port: number): unknown {
  if (error.code === 'EADDRINUSE')
    return new FaultError({
      code: 'usage',
      problem: `Port ${port} is used by another program, perhaps by Germane in another window`,
      mend: 'Close that one, or take another port: germane serve --port 0 finds a free one.',
    })
  if (error.code === 'EACCES')
    return new FaultError({
      code: 'usage',
      problem: `Port ${port} may not be used without special rights`,
      mend: 'Take a port above 1023, such as 4747.',
    })
  return error
}

/** Takes no new requests, lets those under way end for a moment, and hangs up on listeners. */
function stop(server: Server): Promise<void> {
  return new Promise((keep) => {
    server.close(() => keep())
    server.closeIdleConnections()
    setTimeout(() => server.closeAllConnections(), 200).unref()
  })
}
