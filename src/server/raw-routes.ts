import { createHash } from 'node:crypto'
import { promisify } from 'node:util'
import { gzip } from 'node:zlib'
import type { Context as Exchange } from 'hono'
import { type AnswerOf, type QueryOf, type Routes, type WorkBody, windowHeader } from '#api'
import { drawerOf, jobNamed, jobReport, keepPhoto, partsOf, pictureOf, reportOfKept, sheetFile } from '#bench'
import type { Context } from './context.ts'
import { drawerJson } from './drawer-cache.ts'
import { knownHandlers } from './known-handlers.ts'
import { accepts, hasTag } from './page-files.ts'
import { isLoopback } from './pairing.ts'
import { photoAnswer, tellEdited, tellJob } from './part-handlers.ts'
import { addressOf } from './peer.ts'
import { reportPolicy } from './safe-headers.ts'
import { Refused } from './said.ts'

const press = promisify(gzip)

/** The drawer: made once, sent as it lies in memory; compressed only on its way over a network. */
export async function sendDrawer(context: Context, c: Exchange, query: QueryOf<Routes['drawer']>): Promise<Response> {
  const version = await drawerOf(context.bench()).version()
  const etag = `"drawer-${version}-${query.from ?? 0}-${query.blocks ?? 'all'}"`
  c.header('etag', etag)
  c.header('cache-control', 'no-cache')
  if (hasTag(c.req.header('if-none-match'), etag)) return c.body(null, 304)
  const json = drawerJson(await context.drawer.blocks(query.from, query.blocks))
  c.header('content-type', 'application/json')
  if (isLoopback(addressOf(c)) || !accepts(c.req.header('accept-encoding'), 'gzip')) return c.body(asBody(json))
  c.header('content-encoding', 'gzip')
  return c.body(asBody(await press(json, { level: 1 })))
}

interface TypesText {
  readonly etag: string
  readonly json: Buffer
  readonly pressed: Buffer
}

/** The list of part types as text; the list is a new one whenever the bench was laid anew. */
const typesTexts = new WeakMap<object, Promise<TypesText>>()

async function typesText(context: Context): Promise<TypesText> {
  const answer = await knownHandlers.types(context, nothingGiven)
  const json = Buffer.from(JSON.stringify(answer))
  const etag = `"types-${createHash('sha256').update(json).digest('base64url').slice(0, 22)}"`
  return { etag, json, pressed: await press(json) }
}

const nothingGiven = { params: undefined, query: undefined, body: undefined, window: undefined }

/** All part types; the browser keeps them and asks whether they changed. */
export async function sendTypes(context: Context, c: Exchange): Promise<Response> {
  const { types } = context.bench()
  const made = typesTexts.get(types) ?? typesText(context)
  typesTexts.set(types, made)
  const { etag, json, pressed } = await made
  c.header('etag', etag)
  c.header('cache-control', 'no-cache')
  c.header('vary', 'accept-encoding')
  if (hasTag(c.req.header('if-none-match'), etag)) return c.body(null, 304)
  c.header('content-type', 'application/json')
  if (!accepts(c.req.header('accept-encoding'), 'gzip')) return c.body(asBody(json))
  c.header('content-encoding', 'gzip')
  return c.body(asBody(pressed))
}

export async function takePhoto(
  context: Context,
  c: Exchange,
  given: { readonly tag: string; readonly name: string | undefined },
): Promise<AnswerOf<Routes['addPhoto']>> {
  const content = new Uint8Array(await c.req.arrayBuffer())
  const { tag, name } = given
  const kept = await keepPhoto(context.bench(), { part: tag, name: name ?? 'photo', content })
  await tellEdited(context, [tag], c.req.header(windowHeader))
  return { photo: photoAnswer(kept.photo), edit: kept.edit }
}

export async function takeJobPhoto(
  context: Context,
  c: Exchange,
  given: { readonly job: number; readonly name: string | undefined },
): Promise<AnswerOf<Routes['addJobPhoto']>> {
  const content = new Uint8Array(await c.req.arrayBuffer())
  const { job, name } = given
  const kept = await keepPhoto(context.bench(), { job, name: name ?? 'photo', content })
  const window = c.req.header(windowHeader)
  tellJob(context, job, window)
  await tellEdited(context, [], window)
  return { photo: photoAnswer(kept.photo), edit: kept.edit }
}

/** The report of a job. */
export async function sendJobReport(
  { bench }: Context,
  c: Exchange,
  given: { readonly job: number; readonly save: string | undefined },
): Promise<Response> {
  const { sheet } = await jobReport(bench(), await jobNamed(bench(), given.job))
  return sendPage(c, String(await sheetFile(sheet, 'job.html')), given.save !== undefined)
}

/** A picture, as the kind it was found to be; a browser is not to look for another meaning in it. */
export async function sendPhoto(context: Context, c: Exchange, id: number): Promise<Response> {
  const { type, content } = await pictureOf(context.bench(), id)
  c.header('content-type', type)
  c.header('content-disposition', `inline; filename="photo-${id}.${type.slice('image/'.length)}"`)
  c.header('cache-control', 'private, max-age=3600')
  c.header('content-security-policy', "default-src 'none'; sandbox")
  return c.body(asBody(content))
}

/** A report of more parts than these is made in a thread of its own. */
const partsAtOnce = 30

export async function sendReport(context: Context, c: Exchange, query: QueryOf<Routes['report']>): Promise<Response> {
  const { part, lot, title, workings, save } = query
  const tags = part === undefined ? undefined : [part].flat()
  const filter = { ...(tags === undefined ? {} : { tags }), ...(lot === undefined ? {} : { lot }) }
  const wishes = { ...(title === undefined ? {} : { title }), ...(workings === undefined ? {} : { workings }) }
  requireChosen(filter)
  const bench = context.bench()
  const isLong = (await partsOf(bench, filter)).length > partsAtOnce
  const html = isLong ? await longReport(context, { ...filter, ...wishes }) : await reportOfKept(bench, filter, wishes)
  return sendPage(c, html, save !== undefined)
}

/** A report of everything there is would help nobody. */
export function requireChosen({ tags, lot }: { readonly tags?: readonly string[]; readonly lot?: string }): void {
  if (tags === undefined && lot === undefined)
    throw new Refused(400, 'The report is of nothing', 'Name parts or a lot.')
}

async function longReport({ works }: Context, wishes: Omit<Extract<WorkBody, { kind: 'report' }>, 'kind'>) {
  const { id } = await works.finished({ kind: 'report', ...wishes })
  return works.page(id)
}

/** A page that needs nothing else, with a policy that lets it have nothing else. */
export function sendPage(c: Exchange, html: string, isSaved: boolean): Response {
  c.header('content-security-policy', reportPolicy(html))
  c.header('x-frame-options', 'SAMEORIGIN')
  c.header('content-disposition', isSaved ? 'attachment; filename="germane-report.html"' : 'inline')
  return c.html(html)
}

const asBody = (bytes: Uint8Array): Uint8Array<ArrayBuffer> => bytes as Uint8Array<ArrayBuffer>
