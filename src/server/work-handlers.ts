import type { Handlers } from './handler.ts'

export const workHandlers: Handlers<'works' | 'startWork' | 'work' | 'cancelWork'> = {
  works: ({ works }) => ({ works: works.list() }),
  startWork: ({ works }, { body }) => works.start(body),
  work: ({ works }, { params }) => works.get(params.work),
  cancelWork: ({ works }, { params }) => works.cancel(params.work),
}
