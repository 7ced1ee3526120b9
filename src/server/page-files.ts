import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs'
import { extname, join } from 'node:path'
import type { Context as Exchange } from 'hono'
import { pagePolicy } from './safe-headers.ts'

/** One file of the page. */
interface PageFile {
  readonly file: string
  readonly type: string
  readonly etag: string
  /** Compressed forms beside it. */
  readonly forms: readonly ('br' | 'gzip')[]
  /** Its name changes with its content. */
  readonly isHashed: boolean
}

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
  '.webmanifest': 'application/manifest+json',
  '.txt': 'text/plain; charset=utf-8',
}

const ending = { br: '.br', gzip: '.gz' } as const

/**
 * The files of a built page, by path. Only what was there when the folder was read is given, by its exact path: a path
 * never reaches the file system.
 */
export function pageFiles(folder: string): (c: Exchange) => Response | Promise<Response> {
  const index = join(folder, 'index.html')
  let known: ReadonlyMap<string, PageFile> = new Map()
  let readAt = -1
  const files = (): ReadonlyMap<string, PageFile> => {
    const changed = statSync(index, { throwIfNoEntry: false })?.mtimeMs ?? 0
    if (changed !== readAt) {
      known = changed === 0 ? new Map() : readFolder(folder)
      readAt = changed
    }
    return known
  }
  return (c) => {
    const { path } = c.req
    const found = files().get(path)
    if (found !== undefined && path !== '/index.html') return send(c, found)
    const isScreen = extname(path) === '' || path === '/index.html'
    const page = isScreen ? files().get('/index.html') : undefined
    if (page !== undefined) return send(c, page)
    return c.text(isScreen ? notBuilt : 'There is no such file.\n', isScreen ? 503 : 404)
  }
}

const notBuilt = 'The page was not built. Run: npm run build\n'

function readFolder(folder: string): ReadonlyMap<string, PageFile> {
  const found = new Map<string, PageFile>()
  if (!existsSync(folder)) return found
  const all = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => name.replaceAll('\\', '/'))
  const names = new Set(all)
  for (const name of all) {
    const type = types[extname(name)]
    const file = join(folder, name)
    if (type === undefined || name.split('/').some((piece) => piece.startsWith('.')) || !statSync(file).isFile())
      continue
    const etag = `"${createHash('sha256').update(readFileSync(file)).digest('base64url').slice(0, 22)}"`
    const forms = (['br', 'gzip'] as const).filter((form) => names.has(`${name}${ending[form]}`))
    found.set(`/${name}`, { file, type, etag, forms, isHashed: /-[\w-]{8,}\.\w+$/.test(name) })
  }
  return found
}

function send(c: Exchange, { file, type, etag, forms, isHashed }: PageFile): Response {
  const isPage = type.startsWith('text/html')
  c.header('content-type', type)
  c.header('vary', 'accept-encoding')
  c.header('cache-control', isHashed && !isPage ? 'public, max-age=31536000, immutable' : 'no-cache')
  c.header('content-security-policy', pagePolicy)
  const form = forms.find((one) => accepts(c.req.header('accept-encoding'), one))
  const tag = form === undefined ? etag : `${etag.slice(0, -1)}-${form}"`
  c.header('etag', tag)
  if (hasTag(c.req.header('if-none-match'), tag)) return c.body(null, 304)
  if (form !== undefined) c.header('content-encoding', form)
  return c.body(readFileSync(form === undefined ? file : `${file}${ending[form]}`))
}

/** Whether an Accept-Encoding header takes a form (RFC 9110, 12.5.3). */
export const accepts = (header: string | undefined, form: string): boolean =>
  (header ?? '').split(',').some((one) => {
    const [name, ...rest] = one
      .trim()
      .toLowerCase()
      .split(/\s*;\s*/)
    return name === form && !rest.some((weight) => /^q=0(\.0*)?$/.test(weight))
  })

/** Whether an If-None-Match header names a tag (RFC 9110, 13.1.2). */
export const hasTag = (header: string | undefined, tag: string): boolean =>
  header === '*' || (header ?? '').split(',').some((one) => one.trim().replace(/^W\//, '') === tag)
