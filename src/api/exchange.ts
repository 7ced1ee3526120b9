import type { Faults, SaidFault } from './fault.ts'

/** The server refused a request and said why. */
export class ApiFault extends Error {
  override readonly name = 'ApiFault'
  readonly status: number
  readonly faults: readonly SaidFault[]
  constructor(status: number, faults: readonly SaidFault[]) {
    super(faults.map((f) => f.sentence).join('\n'))
    this.status = status
    this.faults = faults
  }
}

/** No answer came: the server has stopped, or is out of reach. The same request may be sent again. */
export class ApiUnreachable extends Error {
  override readonly name = 'ApiUnreachable'
}

export interface ClientOptions {
  /** In place of the browser's own. */
  readonly fetch?: typeof fetch
  /** Name of this window; comes back with the events of its own changes. */
  readonly window?: string
}

export interface Request {
  readonly method?: 'GET' | 'POST' | 'PATCH' | 'DELETE'
  readonly query?: Readonly<Record<string, string | number | readonly string[] | undefined>>
  /** Sent as JSON. */
  readonly body?: unknown
  /** Sent as it is. */
  readonly upload?: Blob
  /** Ends it before an answer has come. */
  readonly signal?: AbortSignal | undefined
}

/** A path with its query, in which what is undefined is left out. */
export function pathWith(path: string, query: Request['query'] = {}): string {
  const pairs = Object.entries(query).flatMap(([key, value]) => {
    if (value === undefined) return []
    const list: readonly (string | number)[] = Array.isArray(value) ? value : [value as string | number]
    return list.map((one) => `${key}=${encodeURIComponent(one)}`)
  })
  return pairs.length === 0 ? path : `${path}?${pairs.join('&')}`
}

/** Letters of a request that a browser still sends where the page is closed before it has gone: it takes 64 kB in all. */
const outlives = 16_000

export type Exchange = <T>(path: string, request?: Request) => Promise<T>

/** Sends requests to a server and takes its JSON. @throws {ApiFault} {ApiUnreachable} */
export function exchangeWith(baseUrl: string, options: ClientOptions): Exchange {
  const send = options.fetch ?? ((...given: Parameters<typeof fetch>) => fetch(...given))
  return async <T>(path: string, request: Request = {}): Promise<T> => {
    const { method = 'GET', body, upload, signal } = request
    const headers: Record<string, string> = { accept: 'application/json' }
    if (body !== undefined) headers['content-type'] = 'application/json'
    if (upload !== undefined) headers['content-type'] = upload.type
    if (options.window !== undefined) headers['germane-window'] = options.window
    const content = upload ?? (body === undefined ? undefined : JSON.stringify(body))
    const response = await send(`${baseUrl}${pathWith(path, request.query)}`, {
      method,
      headers,
      credentials: 'same-origin',
      ...(content === undefined ? {} : { body: content }),
      ...(typeof content === 'string' && content.length <= outlives ? { keepalive: true } : {}),
      ...(signal === undefined ? {} : { signal }),
    }).catch((cause: unknown) => {
      throw new ApiUnreachable('The server does not answer.', { cause })
    })
    return (await answerOf(response)) as T
  }
}

async function answerOf(response: Response): Promise<unknown> {
  const text = await response.text().catch((cause: unknown) => {
    throw new ApiUnreachable('The answer of the server broke off.', { cause })
  })
  const isJson = /\bjson\b/.test(response.headers.get('content-type') ?? '')
  if (response.ok && isJson) return JSON.parse(text)
  if (isJson) throw new ApiFault(response.status, (JSON.parse(text) as Faults).faults)
  const sentence = `The server answered ${response.status} to a request of this page. Load the page again.`
  throw new ApiFault(response.status, [{ code: 'usage', sentence }])
}
