import { OpenAPIHono } from '@hono/zod-openapi'
import type { Context as Exchange, MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { getCookie, setCookie } from 'hono/cookie'
import { HTTPException } from 'hono/http-exception'
import { largestPhoto, type Route, routes } from '#api'
import type { Fault } from '#core/fault'
import { answer, answered, type Checked } from './answer.ts'
import type { Context } from './context.ts'
import { guard, requireType } from './guard.ts'
import { describedRoute, description } from './open-api.ts'
import { pageFiles } from './page-files.ts'
import { isLoopback, type Pairing, pairingCookie } from './pairing.ts'
import { addressOf } from './peer.ts'
import { safeHeaders } from './safe-headers.ts'
import { type Refusal, Refused, refusalOf, saidFaults } from './said.ts'

export interface AppOptions {
  readonly context: Context
  /** Folder of the built page. */
  readonly pageFolder: string
  /** Names the server may be called by. */
  readonly hosts: () => ReadonlySet<string>
  /** Where the server is open to the local network. */
  readonly pairing?: Pairing
  /** Looks whether another program wrote to the book. */
  readonly sync: () => Promise<void>
  /** Where faults of the server itself are written. */
  readonly complain: (error: unknown) => void
}

const isUpload = (path: string): boolean => /^\/api\/(?:parts|jobs)\/[^/]+\/photos$/.test(path)

/** The server without its socket: guards, then one route after the other, then the files of the page. */
export function app(options: AppOptions): OpenAPIHono {
  const hono = new OpenAPIHono({ defaultHook: refuseUnfit })
  hono.onError((error, c) => refuse(c, refusalOfAny(error, options.complain)))
  hono.use(safeHeaders())
  hono.use(guard(options.hosts))
  hono.use(requireType(isUpload))
  hono.use('/api/*', limits)
  addPairing(hono, options)
  hono.use('/api/*', async (_, next) => {
    await options.sync()
    await next()
  })
  for (const name of answered) {
    const route = describedRoute(name, routes[name] as Route)
    hono.openapi(route, ((c: Exchange) => answer(options.context, name, c, checkedOf(c))) as never)
  }
  let described: object | undefined
  hono.get('/api/openapi.json', (c) => {
    described ??= description(hono, options.context.version)
    return c.json(described)
  })
  hono.all('/api/*', () => {
    throw new Refused(404, 'There is no such address', 'See /api/openapi.json for all there are.')
  })
  hono.get('*', pageFiles(options.pageFolder))
  return hono
}

/** What the shapes of the route let through. */
function checkedOf(c: Exchange): Checked {
  const valid = (part: string): unknown => (c.req as unknown as { valid: (part: string) => unknown }).valid(part)
  return { params: valid('param'), query: valid('query'), body: valid('json') }
}

const limit = (maxSize: number): MiddlewareHandler =>
  bodyLimit({
    maxSize,
    onError: () => {
      throw new Refused(413, `The body is larger than ${Math.floor(maxSize / 1_000_000)} MB`, 'Send less at once.')
    },
  })

const small = limit(2_000_000)
const picture = limit(largestPhoto + 1000)
const file = limit(64_000_000)

/** No more is read than a route can need. */
const limits: MiddlewareHandler = (c, next) => {
  const { path } = c.req
  return (isUpload(path) ? picture : path === '/api/work' ? file : small)(c, next)
}

/** The two routes of pairing, and the gate before all others. */
function addPairing(hono: OpenAPIHono, { pairing }: AppOptions): void {
  const isPaired = (c: Exchange): boolean =>
    pairing === undefined || isLoopback(addressOf(c)) || pairing.isPaired(getCookie(c, pairingCookie))
  const state = (c: Exchange) => ({ isNeeded: pairing !== undefined, isPaired: isPaired(c) })
  hono.openapi(describedRoute('pairing', routes.pairing as Route), ((c: Exchange) => c.json(state(c))) as never)
  hono.openapi(describedRoute('pair', routes.pair as Route), ((c: Exchange) => {
    const { code } = checkedOf(c).body as { code: string }
    if (pairing === undefined) return c.json(state(c))
    const token = pairing.pair(code, addressOf(c) ?? 'unknown')
    setCookie(c, pairingCookie, token, { path: '/', httpOnly: true, sameSite: 'Strict', maxAge: 12 * 60 * 60 })
    return c.json({ isNeeded: true, isPaired: true })
  }) as never)
  hono.use('/api/*', async (c, next) => {
    if (!isPaired(c))
      throw new Refused(401, 'This browser is not paired', 'Give the code that germane serve --lan printed.')
    await next()
  })
}

const refuse = (c: Exchange, { status, faults }: Refusal): Response => {
  if (status === 429) c.header('retry-after', '60')
  return c.json({ format: 'germane/faults/1', faults: saidFaults(faults) }, status)
}

function refusalOfAny(error: unknown, complain: AppOptions['complain']): Refusal {
  if (error instanceof HTTPException && error.status < 500)
    return {
      status: error.status === 415 ? 415 : 400,
      faults: [{ code: 'usage', problem: error.message, mend: 'Send what the description of the route says.' }],
    }
  const refusal = refusalOf(error)
  if (refusal.status === 500) complain(error)
  return refusal
}

interface Unfit {
  readonly success: boolean
  /** What came. */
  readonly data?: unknown
  readonly error?: { readonly issues: readonly { readonly path: readonly PropertyKey[]; readonly message: string }[] }
}

/** A request that does not fit the shapes of its route: all that is wrong with it, field by field. */
function refuseUnfit(result: Unfit, c: Exchange): Response | undefined {
  if (result.success) return undefined
  const faults = (result.error?.issues ?? []).map(
    ({ path, message }): Fault => ({
      code: 'bad-input',
      place: { field: path.map(String).join('.') || 'request' },
      value: shortly(
        path.reduce((data, key) => (data as Record<PropertyKey, unknown> | undefined)?.[key], result.data),
      ),
      problem: `does not fit (${message})`,
      mend: 'Send what the description of the route says.',
    }),
  )
  return refuse(c, { status: 400, faults })
}

/** A value as it stood in the request, cut where it is long. */
function shortly(value: unknown): string {
  const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? 'nothing')
  return text.length > 60 ? `${text.slice(0, 60)}…` : text
}
