import { createRoute, type OpenAPIHono } from '@hono/zod-openapi'
import { faultsShape, type Route } from '#api'

/** Status of each refusal and what it says. */
const refusals = {
  400: 'Something in the request cannot be used.',
  401: 'This browser is not paired.',
  403: 'The request came from elsewhere.',
  404: 'There is no such thing.',
  409: 'It does not go with what is there.',
  413: 'The body is too large.',
  415: 'The body is of another type.',
  421: 'The server is not called by that name.',
  429: 'Too many tries.',
  500: 'A fault inside Germane.',
  503: 'The book cannot be used just now; try again.',
} as const

const json = <S>(schema: S) => ({ 'application/json': { schema } })
const bytes = { schema: { type: 'string', format: 'binary' } } as const

/** A route of the table as the description and the checks of requests take it. */
export function describedRoute(name: string, route: Route) {
  const { method, path, summary, params, query, body, upload, answer, gives } = route
  const picture = upload === undefined ? undefined : Object.fromEntries(upload.map((type) => [type, bytes]))
  const refused = Object.entries(refusals).map(([status, description]) => [
    status,
    { description, content: json(faultsShape) },
  ])
  return createRoute({
    method,
    path,
    summary,
    operationId: name,
    request: {
      ...(params === undefined ? {} : { params }),
      ...(query === undefined ? {} : { query }),
      ...(body === undefined ? {} : { body: { content: json(body), required: true } }),
      ...(picture === undefined ? {} : { body: { content: picture, required: true } }),
    },
    responses: {
      200: { description: summary, content: answer === undefined ? { [gives ?? '*/*']: bytes } : json(answer) },
      ...Object.fromEntries(refused),
    },
  })
}

/** The description of all routes (OpenAPI 3.1). */
export const description = (app: OpenAPIHono, version: string) =>
  app.getOpenAPI31Document({
    openapi: '3.1.0',
    info: {
      title: 'Germane',
      version,
      description: 'What the page of Germane and its server say to each other. Numbers are SI units; times are ISO.',
    },
  })
