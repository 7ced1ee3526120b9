import { z } from 'zod'
import { partTypeShape, verdictWordShape } from './core-shape.ts'
import { route } from './route.ts'
import { keptReadingShape, outcomeShape, runEntryShape, tagShape } from './run.ts'

export const partStatusWords = ['kept', 'good', 'doubtful', 'bad', 'used', 'given away', 'scrapped'] as const
export const partStatusShape = z.enum(partStatusWords)
export type PartStatusWord = z.infer<typeof partStatusShape>

const tagParam = z.object({ tag: z.string().min(1).max(200) })
const said = z.string().max(2000)

export const partShape = z
  .object({
    tag: z.string(),
    type: z.string().optional(),
    lot: z.string().optional(),
    place: z.string().optional(),
    note: z.string().optional(),
    status: partStatusShape,
    /** Where it is used now, in words. */
    usedIn: z.string().optional(),
    at: z.string(),
  })
  .meta({ id: 'Part' })
export type PartEntry = z.infer<typeof partShape>

/** What to change; an empty text takes a value away. */
export const partChangesShape = z
  .strictObject({
    type: z.string().max(200).optional(),
    lot: z.string().max(200).optional(),
    place: said.optional(),
    note: z.string().max(20_000).optional(),
    status: partStatusShape.optional(),
    usedIn: said.optional(),
  })
  .meta({ id: 'PartChanges' })
export type PartChanges = z.input<typeof partChangesShape>

export const partEditShape = z
  .object({ field: z.string(), old: z.string().optional(), new: z.string().optional(), at: z.string() })
  .meta({ id: 'PartEdit' })
export type PartEdit = z.infer<typeof partEditShape>

export const photoTypes = ['image/png', 'image/jpeg', 'image/webp'] as const
/** Largest photo taken, bytes. */
export const largestPhoto = 8 * 1024 * 1024

export const photoShape = z
  .object({
    id: z.number(),
    /** Whose it is: tag of a part, or number of a job. */
    part: z.string().optional(),
    job: z.number().optional(),
    /** File name as it was given: only ever shown, never used as a path. */
    name: z.string(),
    type: z.enum(photoTypes),
    bytes: z.number(),
    at: z.string(),
    /** Where to fetch it. */
    url: z.string(),
  })
  .meta({ id: 'Photo' })
export type Photo = z.infer<typeof photoShape>

/** A run the part was read in, with all its readings and what they came to. */
export const partRunShape = z
  .object({
    run: runEntryShape,
    /** All readings of the part, those that were corrected as well. */
    readings: z.array(keptReadingShape),
    /** Left out where nothing can be computed. */
    outcome: outcomeShape.optional(),
    notes: z.array(z.string()),
  })
  .meta({ id: 'PartRun' })
export type PartRun = z.infer<typeof partRunShape>

export const partStoryShape = z
  .object({
    part: partShape,
    /** The published record of its type, where one is known. */
    partType: partTypeShape.optional(),
    /** How the type name was understood, or that no record is known. */
    typeNote: z.string().optional(),
    /** Word of the newest run. */
    word: verdictWordShape.optional(),
    /** Newest first. */
    runs: z.array(partRunShape),
    edits: z.array(partEditShape),
    photos: z.array(photoShape),
    /** Tags before and after it in the drawer. */
    before: z.string().optional(),
    after: z.string().optional(),
  })
  .meta({ id: 'PartStory' })
export type PartStory = z.infer<typeof partStoryShape>

export const partsChangedShape = z.object({ parts: z.array(partShape), edit: z.number().optional() })
export type PartsChanged = z.infer<typeof partsChangedShape>

const photoParam = z.object({ photo: z.coerce.number().int().min(1) })

export const partRoutes = {
  part: route({
    method: 'get',
    path: '/api/parts/{tag}',
    summary: 'All the book knows of one part.',
    params: tagParam,
    answer: partStoryShape,
  }),
  changeParts: route({
    method: 'patch',
    path: '/api/parts',
    summary: 'Changes what is said of one part or of many; one edit, which can be undone.',
    body: z.strictObject({ tags: z.array(tagShape).min(1).max(10_000), changes: partChangesShape }),
    answer: partsChangedShape,
  }),
  photos: route({
    method: 'get',
    path: '/api/parts/{tag}/photos',
    summary: 'Photos of a part.',
    params: tagParam,
    answer: z.object({ photos: z.array(photoShape) }),
  }),
  addPhoto: route({
    method: 'post',
    path: '/api/parts/{tag}/photos',
    summary: 'Keeps a photo: the body is the picture itself. What it is, its first bytes say, not its name.',
    params: tagParam,
    query: z.object({ name: z.string().max(200).optional() }),
    upload: photoTypes,
    answer: z.object({ photo: photoShape, edit: z.number() }),
  }),
  photo: route({
    method: 'get',
    path: '/api/photos/{photo}',
    summary: 'The picture itself.',
    params: photoParam,
    gives: 'image/*',
  }),
  removePhoto: route({
    method: 'delete',
    path: '/api/photos/{photo}',
    summary: 'Takes a photo away; the edit can be undone.',
    params: photoParam,
    answer: z.object({ edit: z.number() }),
  }),
}
