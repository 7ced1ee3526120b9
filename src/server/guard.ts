import { hostname, networkInterfaces } from 'node:os'
import type { MiddlewareHandler } from 'hono'
import { Refused } from './said.ts'

/** Names by which this server may be called: with its port, as they stand in a Host header. */
export function ownHosts(port: number, isLan: boolean): ReadonlySet<string> {
  const names = ['localhost', '127.0.0.1', '[::1]', ...(isLan ? lanNames() : [])]
  return new Set(names.flatMap((name) => (port === 80 ? [name, `${name}:80`] : [`${name}:${port}`])))
}

/** Addresses of this machine on its networks, and its name; without those that only hold on one cable (fe80::/10). */
export function lanNames(): readonly string[] {
  const own = hostname().toLowerCase()
  const addresses = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter((one) => !one.internal && !/^fe80:/i.test(one.address))
    .map((one) => (one.family === 'IPv4' ? one.address : `[${one.address}]`))
  return [...addresses, own, `${own}.local`]
}

/**
 * Refuses requests that another site's page sent, or that reached us under a name that is not ours: a foreign name that
 * was made to point here (DNS rebinding) has the Host header of that name, and a foreign page its Origin.
 */
export function guard(hosts: () => ReadonlySet<string>): MiddlewareHandler {
  return async (c, next) => {
    const host = c.req.header('host')?.toLowerCase()
    if (host === undefined || !hosts().has(host))
      throw new Refused(421, 'This server is not called by that name', 'Use the address that germane serve printed.')
    const origin = c.req.header('origin')?.toLowerCase()
    if (origin !== undefined && origin !== `http://${host}`)
      throw new Refused(403, 'A page of another address asked', 'Use the page that this server serves.')
    const isApi = c.req.path.startsWith('/api/')
    const site = c.req.header('sec-fetch-site')
    if (isApi && (site === 'cross-site' || site === 'same-site'))
      throw new Refused(403, 'A page of another address asked', 'Use the page that this server serves.')
    await next()
  }
}

const changes: ReadonlySet<string> = new Set(['POST', 'PATCH', 'PUT', 'DELETE'])

/**
 * A body must say that it is JSON, or a picture where one is taken: forms of other sites can't say either without asking
 * first.
 *
 * @param isUpload whether a path takes pictures
 */
export function requireType(isUpload: (path: string) => boolean): MiddlewareHandler {
  return async (c, next) => {
    const { method, path } = c.req
    if (path.startsWith('/api/') && changes.has(method)) {
      const type = c.req.header('content-type')?.split(';')[0]?.trim().toLowerCase()
      const isFine = isUpload(path) ? /^image\//.test(type ?? '') : type === 'application/json'
      const hasBody = method !== 'DELETE' || type !== undefined
      if (hasBody && !isFine)
        throw new Refused(
          415,
          isUpload(path) ? 'The body does not say that it is a picture' : 'The body does not say that it is JSON',
          isUpload(path) ? 'Send it as image/png, image/jpeg or image/webp.' : 'Send it as application/json.',
        )
    }
    await next()
  }
}
