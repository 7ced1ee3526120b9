import { z } from 'zod'
import { boardColumns, decisions, jobStates, longestSaid, powers } from '#core/job'
import { partStatusShape, photoShape, photoTypes } from './part.ts'
import { route } from './route.ts'

const jobStateShape = z.enum(jobStates)
const powerShape = z.enum(powers)
const decisionShape = z.enum(decisions)
const columnShape = z.enum(boardColumns)
const partAsShape = z.enum(['found', 'reserved', 'fitted'])

export const jobProgressShape = z
  .object({ 'to look at': z.number(), keep: z.number(), replace: z.number(), done: z.number() })
  .meta({ id: 'JobProgress', description: 'Positions in each column of the board.' })

const jobHead = {
  id: z.number(),
  name: z.string(),
  equipment: z.string().optional(),
  power: powerShape.optional(),
  state: jobStateShape,
  note: z.string().optional(),
  begunOn: z.string().optional(),
  finishedOn: z.string().optional(),
  /** Tags of parts reserved for the job and no position of it. */
  reserved: z.array(z.string()),
  at: z.string(),
}

export const jobInShortShape = z
  .object({ ...jobHead, positions: z.number(), progress: jobProgressShape })
  .meta({ id: 'JobInShort' })
export type JobInShort = z.infer<typeof jobInShortShape>

const stageVerdictShape = z
  .object({
    word: z.enum(['works', 'works but drifts', 'will not']),
    limit: z.string(),
    fails_at: z.number().optional(),
    margin: z.number(),
    why: z.string(),
  })
  .meta({ id: 'StageVerdict' })

const partInShort = {
  tag: z.string(),
  type: z.string().optional(),
  place: z.string().optional(),
  status: partStatusShape,
  usedIn: z.string().optional(),
  /** `measured`, `short` or `open`; left out where it was never read. */
  state: z.string().optional(),
  /** Its worst verdict against its type. */
  word: z.string().optional(),
}

export const partOfPositionShape = z
  .object({ ...partInShort, as: partAsShape, verdict: stageVerdictShape.optional(), why: z.string().optional() })
  .meta({ id: 'PartOfPosition', description: 'A part of a position, and what it does there or why it was not tried.' })
export type PartOfPosition = z.infer<typeof partOfPositionShape>

export const jobPositionShape = z
  .object({
    ref: z.string(),
    type: z.string().optional(),
    role: z.string().optional(),
    /** Its stage as YAML. */
    circuit: z.string().optional(),
    found: z.string().optional(),
    foundPart: z.string().optional(),
    decision: decisionShape,
    fitted: z.string().optional(),
    fittedPart: z.string().optional(),
    done: z.boolean(),
    note: z.string().optional(),
    reserved: z.array(z.string()),
    column: columnShape,
    /** Its circuit as it was understood. */
    stage: z
      .object({
        title: z.string(),
        stage: z.string(),
        polarity: z.string(),
        supply: z.number(),
        place: z.string(),
      })
      .optional(),
    /** Why its circuit cannot be used. */
    fault: z.string().optional(),
    /** What the part does there that the circuit names. */
    wanted: z.object({ part: z.string(), verdict: stageVerdictShape }).optional(),
    parts: z.array(partOfPositionShape),
  })
  .meta({ id: 'JobPosition' })
export type JobPositionEntry = z.infer<typeof jobPositionShape>

export const jobDetailShape = z
  .object({
    job: z.object(jobHead).meta({ id: 'JobHead' }),
    progress: jobProgressShape,
    positions: z.array(jobPositionShape),
    reserved: z.array(z.object(partInShort).meta({ id: 'PartInShort' })),
    photos: z.array(photoShape),
    cautions: z.array(z.object({ hazard: z.string(), caution: z.string(), source: z.string().optional() })),
  })
  .meta({ id: 'JobDetail' })
export type JobDetail = z.infer<typeof jobDetailShape>

export const jobEditedShape = z
  .object({
    /** Number and name of the job. */
    job: z.number(),
    name: z.string(),
    /** Number of the edit; left out where nothing had changed. */
    edit: z.number().optional(),
    /** Tags of parts that changed with it. */
    parts: z.array(z.string()),
  })
  .meta({ id: 'JobEdited' })
export type JobEdited = z.infer<typeof jobEditedShape>

const name = z.string().trim().min(1).max(longestSaid.name)
const line = z.string().max(longestSaid.line).optional()
const note = z.string().max(longestSaid.note).optional()

/** What to change of a job; an empty text takes a value away. */
export const jobChangesShape = z
  .strictObject({
    name: name.optional(),
    equipment: line,
    power: powerShape.or(z.literal('')).optional(),
    state: jobStateShape.optional(),
    note,
    begunOn: z.iso.date().or(z.literal('')).optional(),
    finishedOn: z.iso.date().or(z.literal('')).optional(),
  })
  .meta({ id: 'JobChanges' })
export type JobChanges = z.input<typeof jobChangesShape>

const ref = z.string().trim().min(1).max(longestSaid.ref)

const positionSaid = {
  type: z.string().max(200).optional(),
  role: line,
  circuit: z.string().max(longestSaid.circuit).optional(),
  found: line,
  foundPart: z.string().max(200).optional(),
  decision: decisionShape.optional(),
  fitted: line,
  fittedPart: z.string().max(200).optional(),
  done: z.boolean().optional(),
  note,
}

/** What to change of a position; an empty text takes a value away. */
export const positionChangesShape = z
  .strictObject({ ref: ref.optional(), ...positionSaid })
  .meta({ id: 'PositionChanges' })
export type PositionChanges = z.input<typeof positionChangesShape>

export const newPositionShape = z.strictObject({ ref, ...positionSaid }).meta({ id: 'NewPosition' })
export type NewPosition = z.input<typeof newPositionShape>

export const placeOfPartShape = z
  .object({ job: z.number(), name: z.string(), ref: z.string().optional(), as: partAsShape })
  .meta({ id: 'PlaceOfPart' })
export type PlaceOfPart = z.infer<typeof placeOfPartShape>

const jobParam = z.object({ job: z.coerce.number().int().min(1) })
const positionParam = jobParam.extend({ ref: z.string().min(1).max(200) })
const tag = z.string().min(1).max(200)

export const jobRoutes = {
  jobs: route({
    method: 'get',
    path: '/api/jobs',
    summary: 'Jobs and how far they are, those in hand first.',
    answer: z.object({ jobs: z.array(jobInShortShape) }),
  }),
  addJob: route({
    method: 'post',
    path: '/api/jobs',
    summary: 'Adds a job; one edit, which can be undone.',
    body: z.strictObject({ name, equipment: line, power: powerShape.optional(), note }),
    answer: jobEditedShape,
  }),
  addJobText: route({
    method: 'post',
    path: '/api/jobs/file',
    summary: 'Adds the job of a file with its positions, all or nothing.',
    body: z.strictObject({ text: z.string().max(1_000_000), file: z.string().max(200).optional() }),
    answer: jobEditedShape,
  }),
  job: route({
    method: 'get',
    path: '/api/jobs/{job}',
    summary: 'A job, its positions, and what their parts do there.',
    params: jobParam,
    answer: jobDetailShape,
  }),
  changeJob: route({
    method: 'patch',
    path: '/api/jobs/{job}',
    summary: 'Changes what is said of a job; an empty text takes a value away.',
    params: jobParam,
    body: jobChangesShape,
    answer: jobEditedShape,
  }),
  removeJob: route({
    method: 'delete',
    path: '/api/jobs/{job}',
    summary: 'Takes a job away; the edit can be undone.',
    params: jobParam,
    answer: jobEditedShape,
  }),
  addPosition: route({
    method: 'post',
    path: '/api/jobs/{job}/positions',
    summary: 'Adds a position to a job.',
    params: jobParam,
    body: newPositionShape,
    answer: jobEditedShape,
  }),
  changePosition: route({
    method: 'patch',
    path: '/api/jobs/{job}/positions/{ref}',
    summary: 'Changes what is said of a position; a part that is fitted is used from then on.',
    params: positionParam,
    body: positionChangesShape,
    answer: jobEditedShape,
  }),
  removePosition: route({
    method: 'delete',
    path: '/api/jobs/{job}/positions/{ref}',
    summary: 'Takes a position out of a job; the edit can be undone.',
    params: positionParam,
    answer: jobEditedShape,
  }),
  reserve: route({
    method: 'post',
    path: '/api/jobs/{job}/reserved',
    summary: 'Reserves a part for a job, or for a position of it.',
    params: jobParam,
    body: z.strictObject({ tag, ref: ref.optional() }),
    answer: jobEditedShape,
  }),
  release: route({
    method: 'delete',
    path: '/api/reserved/{tag}',
    summary: 'Lets a part go that was reserved.',
    params: z.object({ tag }),
    answer: jobEditedShape,
  }),
  addJobPhoto: route({
    method: 'post',
    path: '/api/jobs/{job}/photos',
    summary: 'Keeps a photo of a job: the body is the picture itself.',
    params: jobParam,
    query: z.object({ name: z.string().max(200).optional() }),
    upload: photoTypes,
    answer: z.object({ photo: photoShape, edit: z.number() }),
  }),
  jobReport: route({
    method: 'get',
    path: '/api/jobs/{job}/report',
    summary: 'The report of a job as a page that needs nothing else.',
    params: jobParam,
    query: z.object({ save: z.string().optional() }),
    gives: 'text/html',
  }),
  jobsOfPart: route({
    method: 'get',
    path: '/api/parts/{tag}/jobs',
    summary: 'Jobs and positions a part was found, reserved or fitted in.',
    params: z.object({ tag }),
    answer: z.object({ places: z.array(placeOfPartShape) }),
  }),
}
