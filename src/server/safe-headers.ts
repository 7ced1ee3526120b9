import { createHash } from 'node:crypto'
import type { MiddlewareHandler } from 'hono'

/** Nothing but this server's own files; no text becomes code or style; nobody frames the page. */
export const pagePolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "frame-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ')

/** For data: nothing at all is loaded from it, wherever it is opened. */
export const dataPolicy = "default-src 'none'; frame-ancestors 'none'; sandbox"

/**
 * For a report: its own style sheet, known by its content, and nothing else. Our page may show it in a frame of its own.
 */
export function reportPolicy(html: string): string {
  const styles = [...html.matchAll(/<style>([\s\S]*?)<\/style>/g)].map(([, css]) => {
    const hash = createHash('sha256').update(css!).digest('base64')
    return `'sha256-${hash}'`
  })
  return [
    "default-src 'none'",
    `style-src ${styles.join(' ') || "'none'"}`,
    'img-src data:',
    'font-src data:',
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'self'",
    'sandbox allow-same-origin allow-modals allow-popups',
  ].join('; ')
}

/** Headers that every answer has. */
export const safeHeaders = (): MiddlewareHandler => async (c, next) => {
  await next()
  const set = (name: string, value: string): void => c.res.headers.set(name, value)
  set('x-content-type-options', 'nosniff')
  set('referrer-policy', 'no-referrer')
  set('cross-origin-opener-policy', 'same-origin')
  set('cross-origin-resource-policy', 'same-origin')
  set('permissions-policy', 'camera=(), microphone=(), geolocation=(), payment=(), usb=()')
  set('x-frame-options', c.res.headers.get('x-frame-options') ?? 'DENY')
  if (!c.res.headers.has('content-security-policy')) set('content-security-policy', dataPolicy)
  if (!c.res.headers.has('cache-control')) set('cache-control', 'no-store')
}
