import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs'
import { request } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import { afterAll, beforeAll, expect, vi } from 'vitest'
import { type ApiClient, apiClient, type ChangeEvent, faultsShape, type Route, type RouteName, routes } from '#api'
import { type RunningServer, type ServerOptions, startServer } from '#server'

/** A server on a book of its own, with a client whose answers are all held against the shapes of their routes. */
export interface Serving {
  readonly server: () => RunningServer
  readonly api: () => ApiClient
  readonly bookFile: () => string
  /** Names of the routes that were answered so far. */
  readonly answered: ReadonlySet<string>
  /** A plain request, for headers that a client of its own would not send. */
  readonly ask: (path: string, wish?: Wish) => Promise<Answered>
  readonly path: (name: string) => string
  /** Events from now on; `until` waits for one that fits. */
  readonly listen: () => Promise<Listening>
  /** Stops the server and starts it again on the same book. */
  readonly again: (options?: Partial<ServerOptions>) => Promise<void>
}

export interface Wish {
  readonly method?: string
  readonly headers?: Readonly<Record<string, string>>
  readonly body?: string | Uint8Array
}

export interface Answered {
  readonly status: number
  readonly headers: Readonly<Record<string, string | string[] | undefined>>
  readonly bytes: Buffer
  readonly text: string
}

export interface Listening {
  readonly events: readonly ChangeEvent[]
  readonly until: (fits: (event: ChangeEvent) => boolean) => Promise<ChangeEvent>
  readonly close: () => void
}

const root = join(import.meta.dirname, '..', '..')

/** Starts a server for one test file. */
export function serving(options: Partial<ServerOptions> = {}): Serving {
  vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 })
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'germane-server-')))
  const cache = join(root, 'node_modules', '.cache', `germane-server-${process.pid}`)
  const path = (name: string): string => join(folder, name)
  const answered = new Set<string>()
  let server: RunningServer
  const start = async (more: Partial<ServerOptions> = {}): Promise<void> => {
    server = await startServer({
      bookFile: path('bench.germane'),
      port: 0,
      pageFolder: path('page'),
      workerFile: join(cache, 'worker.mjs'),
      version: '9.9.9',
      ...options,
      ...more,
    })
  }
  beforeAll(async () => {
    makePage(path('page'))
    await bundleWorker(cache)
    await start()
  })
  afterAll(async () => {
    await server.close()
    for (const one of [folder, cache]) rmSync(one, { recursive: true, force: true })
  })
  return {
    server: () => server,
    api: () => apiClient(server.url, { fetch: holding(answered), window: 'test-window' }),
    bookFile: () => path('bench.germane'),
    answered,
    ask: (where, wish) => ask(server.port, where, wish),
    path,
    listen: () => listen(server.url),
    again: async (more) => {
      await server.close()
      await start(more)
    },
  }
}

/** A page as a build would leave it. */
function makePage(folder: string): void {
  mkdirSync(join(folder, 'assets'), { recursive: true })
  const write = (name: string, text: string): void => writeFileSync(join(folder, name), text)
  write(
    'index.html',
    '<!doctype html><title>Germane</title><script type="module" src="/assets/main-AbCd1234.js"></script>',
  )
  write('assets/main-AbCd1234.js', 'console.log("whole")')
  write('assets/main-AbCd1234.js.br', 'pretend brotli')
  write('assets/main-AbCd1234.js.gz', 'pretend gzip')
  write('.sources', 'not for anyone')
  write('files.json', '{}')
  writeFileSync(join(folder, '..', 'secret.json'), '{"secret":true}')
}

async function bundleWorker(folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true })
  await build({
    entryPoints: { worker: join(root, 'src/server/worker.ts') },
    outdir: folder,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external: ['better-sqlite3', '@resvg/resvg-js', 'highs'],
    banner: { js: "import { createRequire as r } from 'node:module'; const require = r(import.meta.url);" },
    outExtension: { '.js': '.mjs' },
    logLevel: 'warning',
  })
}

/** The route that a request is for. */
export function routeOf(method: string, url: string): [RouteName, Route] | undefined {
  const { pathname } = new URL(url)
  const fits = (path: string): boolean => new RegExp(`^${path.replaceAll(/\{\w+\}/g, '[^/]+')}$`).test(pathname)
  const all = Object.entries(routes) as [RouteName, Route][]
  const found = all.filter(([, route]) => route.method === method.toLowerCase() && fits(route.path))
  return found.sort(([, a], [, b]) => a.path.split('{').length - b.path.split('{').length)[0]
}

/** A fetch that looks whether each answer has the shape of its route, and nothing beyond it. */
function holding(answered: Set<string>): typeof fetch {
  return async (input, init) => {
    const response = await fetch(input, init)
    const found = routeOf(init?.method ?? 'GET', String(input))
    expect(found, String(input)).toBeDefined()
    const [name, route] = found!
    if (!/json/.test(response.headers.get('content-type') ?? '')) return response
    const json: unknown = await response.clone().json()
    if (response.ok) answered.add(name)
    const shape = response.ok ? route.answer! : faultsShape
    expect(shape.parse(json), name).toEqual(json)
    return response
  }
}

function ask(port: number, path: string, { method = 'GET', headers = {}, body }: Wish = {}): Promise<Answered> {
  return new Promise((keep, lose) => {
    const sent = request({ host: '127.0.0.1', port, path, method, headers, agent: false }, (response) => {
      const pieces: Buffer[] = []
      response.on('data', (piece: Buffer) => pieces.push(piece))
      response.on('end', () => {
        const bytes = Buffer.concat(pieces)
        keep({ status: response.statusCode ?? 0, headers: response.headers, bytes, text: bytes.toString() })
      })
    })
    sent.on('error', lose)
    sent.end(body)
  })
}

/** Listens to the events of a server, as a browser's EventSource does. */
async function listen(url: string): Promise<Listening> {
  const stop = new AbortController()
  const response = await fetch(`${url}/api/events`, { signal: stop.signal })
  const events: ChangeEvent[] = []
  const ears = new Set<() => void>()
  const reading = async (): Promise<void> => {
    let rest = ''
    for await (const piece of response.body!.pipeThrough(new TextDecoderStream())) {
      const blocks = (rest + piece).split('\n\n')
      rest = blocks.pop() ?? ''
      for (const block of blocks)
        for (const line of block.split('\n'))
          if (line.startsWith('data: ')) events.push(JSON.parse(line.slice('data: '.length)) as ChangeEvent)
      for (const hear of [...ears]) hear()
    }
  }
  void reading().catch(() => undefined)
  let looked = 0
  return {
    events,
    until: (fits) =>
      new Promise((keep) => {
        const look = (): void => {
          while (looked < events.length) {
            const event = events[looked++]!
            if (!fits(event)) continue
            ears.delete(look)
            keep(event)
            return
          }
        }
        ears.add(look)
        look()
      }),
    close: () => stop.abort(),
  }
}

/** The smallest of each picture that passes for one. */
export const pictures = {
  png: Uint8Array.from([
    0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52, 0, 0, 0, 1,
  ]),
  jpeg: Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0]),
  webp: Uint8Array.from([...Buffer.from('RIFF\x10\0\0\0WEBPVP8L', 'latin1'), 0, 0]),
} as const
