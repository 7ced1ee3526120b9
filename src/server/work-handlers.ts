import type { Handlers } from './handler.ts'
import { requireChosen } from './raw-routes.ts'

export const workHandlers: Handlers<'works' | 'startWork' | 'work' | 'cancelWork'> = {
  works: ({ works }) => ({ works: works.list() }),
  startWork: ({ works }, { body }) => {
    if (body.kind === 'report')
      requireChosen({ ...(body.tags && { tags: body.tags }), ...(body.lot && { lot: body.lot }) })
    return works.start(body)
  },
  work: ({ works }, { params }) => works.get(params.work),
  cancelWork: ({ works }, { params }) => works.cancel(params.work),
}
