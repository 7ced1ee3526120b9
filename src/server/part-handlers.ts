import type { Photo as PhotoAnswer } from '#api'
import { changeParts, drawerOf, dropPhoto, heldTypes, type PartPage, partPage, photosOf } from '#bench'
import type { Context } from './context.ts'
import { partsEvent } from './event-hub.ts'
import { byWindow, type Handlers } from './handler.ts'
import { outcomeAnswer } from './run-handlers.ts'

type PartRoutes = 'part' | 'changeParts' | 'photos' | 'removePhoto' | 'drawerChanges' | 'heldTypes'

export const partHandlers: Handlers<PartRoutes> = {
  part: async ({ bench }, { params }) => {
    const { photos, runs, ...page } = await partPage(bench(), params.tag)
    return {
      ...page,
      photos: photos.map(photoAnswer),
      runs: runs.map(({ outcome, ...run }) => ({
        ...run,
        ...(outcome === undefined ? {} : { outcome: outcomeAnswer(outcome) }),
      })),
    }
  },

  changeParts: async (context, { body, window }) => {
    const done = await changeParts(context.bench(), body.tags, body.changes)
    if (done.edit !== undefined) await tellEdited(context, [...new Set(body.tags)], window)
    return done
  },

  photos: async ({ bench }, { params }) => ({ photos: (await photosOf(bench(), params.tag)).map(photoAnswer) }),

  removePhoto: async (context, { params, window }) => {
    const { edit, part, job } = await dropPhoto(context.bench(), params.photo)
    if (job !== undefined) tellJob(context, job, window)
    await tellEdited(context, part === undefined ? [] : [part], window)
    return { edit }
  },

  drawerChanges: ({ drawer }, { query }) => drawer.since(query.since),

  heldTypes: async ({ bench }) => ({
    types: [...(await heldTypes(bench()))].map(([type, parts]) => ({ type, parts })),
  }),
}

/** A photo with the address to fetch it from. */
export const photoAnswer = (photo: PartPage['photos'][number]): PhotoAnswer => ({
  ...photo,
  url: `/api/photos/${photo.id}`,
})

/** Tells the other windows that a job changed. */
export const tellJob = ({ events }: Context, job: number, window: string | undefined): void =>
  events.tell({ kind: 'job', job, ...byWindow(window) })

/** Tells the other windows that parts were edited. */
export async function tellEdited({ bench, events }: Context, tags: readonly string[], window: string | undefined) {
  if (tags.length > 0) events.tell(partsEvent(tags, await drawerOf(bench()).version(), window))
  events.tell({ kind: 'edits', ...byWindow(window) })
}
