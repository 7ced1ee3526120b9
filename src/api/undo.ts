import { z } from 'zod'
import { route } from './route.ts'

/** An edit that can be undone; undoing is an edit as well, so that it can be undone in turn. */
export const editEntryShape = z
  .object({
    id: z.number(),
    kind: z.enum(['part', 'part type', 'tester', 'photo', 'reading', 'upkeep', 'job', 'mark']),
    /** One sentence: "Place of OP-4 changed from drawer 3 to drawer 5." */
    say: z.string(),
    at: z.string(),
    /** Number of the edit that this one undoes. */
    undoes: z.number().optional(),
    /** Number of the edit that undid this one. */
    undoneBy: z.number().optional(),
  })
  .meta({ id: 'EditEntry' })
export type EditEntry = z.infer<typeof editEntryShape>

export const undoneShape = z
  .object({
    /** The edit that was undone. */
    undone: editEntryShape,
    /** The edit that did it: name it to do the first one again. */
    edit: editEntryShape,
  })
  .meta({ id: 'Undone' })
export type Undone = z.infer<typeof undoneShape>

export const undoRoutes = {
  edits: route({
    method: 'get',
    path: '/api/edits',
    summary: 'Edits that can be undone, newest first.',
    query: z.object({ limit: z.coerce.number().int().min(1).max(1000).optional() }),
    answer: z.object({ edits: z.array(editEntryShape) }),
  }),
  undo: route({
    method: 'post',
    path: '/api/undo',
    summary: 'Undoes an edit: the one named, else the last that was not undone. Readings are never rewritten.',
    body: z.strictObject({ edit: z.number().int().min(1).optional() }),
    answer: undoneShape,
  }),
}
