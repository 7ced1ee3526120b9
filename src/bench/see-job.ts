import { type PartInShort, type Photo, partsInShort, photosOf } from '#book'
import { FaultError } from '#core/fault'
import {
  type BoardColumn,
  columnOf,
  type Job,
  type JobPosition,
  openedCautions,
  type PartAs,
  partsOfPosition,
  progressOf,
  readCircuitOf,
} from '#core/job'
import {
  isFilled,
  measuredNumbers,
  type PartNumbers,
  type Parts,
  type Position,
  type PositionRead,
  type StageVerdict,
  stageSymbols,
  stageVerdict,
} from '#core/stage'
import { type Bench, bookOf, typeNamed } from './bench.ts'
import { currentAt, partsOfFile, positionHead, verdictOfStage } from './stage.ts'

/** A part of a position, and what it does there. */
export interface PartSeen extends Omit<PartInShort, 'parameters'> {
  readonly as: PartAs
  /** What it does in the circuit of the position, where that is known and the part was measured. */
  readonly verdict?: StageVerdict
  /** What it was tried with. */
  readonly numbers?: PartNumbers
  /** Why nothing is said of it. */
  readonly why?: string
}

/** A position with all that is known of it. */
export interface PositionSeen {
  readonly position: JobPosition
  readonly column: BoardColumn
  readonly circuit?: Position
  /** Parts of the circuit as it names them. */
  readonly own?: Parts
  /** What is wrong with the circuit. */
  readonly fault?: string
  /** What the part does there that the circuit names. */
  readonly wanted?: { readonly part: string; readonly verdict: StageVerdict }
  readonly parts: readonly PartSeen[]
}

/** A job with all that is known of it. */
export interface JobSeen {
  readonly job: Job
  readonly progress: Readonly<Record<BoardColumn, number>>
  readonly positions: readonly PositionSeen[]
  /** Parts put aside for the job and no position of it. */
  readonly reserved: readonly Omit<PartInShort, 'parameters'>[]
  readonly photos: readonly Photo[]
  readonly cautions: ReturnType<typeof openedCautions>
}

/** A job with what each of its parts does in its position. */
export async function seeJob(bench: Bench, job: Job): Promise<JobSeen> {
  const tags = [...job.reserved, ...job.positions.flatMap((one) => partsOfPosition(one).map(({ tag }) => tag))]
  const known = await partsInShort(bookOf(bench), tags, stageSymbols)
  return {
    job,
    progress: progressOf(job.positions),
    positions: job.positions.map((one) => seePosition(bench, one, known)),
    reserved: job.reserved.map((tag) => inShort(known.get(tag)!)),
    photos: await photosOf(bookOf(bench), { job: job.id }),
    cautions: openedCautions(job.power),
  }
}

const inShort = ({ parameters: _, ...part }: PartInShort): Omit<PartInShort, 'parameters'> => part

type Known = ReadonlyMap<string, PartInShort>

function seePosition(bench: Bench, position: JobPosition, known: Known): PositionSeen {
  const bare = { position, column: columnOf(position) }
  const parts = partsOfPosition(position).map(({ tag, as }) => ({ part: known.get(tag)!, as }))
  const unseen = (why: string): readonly PartSeen[] => parts.map(({ part, as }) => ({ ...inShort(part), as, why }))
  if (position.circuit === undefined) return { ...bare, parts: unseen('the circuit of its position is not known') }
  try {
    const stage = stageOf(bench, position.circuit, position.ref)
    return {
      ...bare,
      circuit: stage.position,
      own: stage.own,
      ...wantedIn(stage),
      parts: parts.map(({ part, as }) => ({ ...inShort(part), as, ...seenIn(bench, stage, part) })),
    }
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    return { ...bare, fault: error.message, parts: unseen('the circuit of its position cannot be used') }
  }
}

interface StageRead extends PositionRead {
  readonly own: Parts
  /** Current of the place that is looked at, A. */
  readonly nearA: number | undefined
  /** Verdicts so far, by the numbers of the parts. */
  readonly verdicts: Map<string, StageVerdict>
}

/** Stages that were read, by their text; a job is looked at again after each edit of it. The list of types is new where one changed. */
const stages = new WeakMap<Bench['types'], Map<string, StageRead>>()
/** So many stages, and verdicts of one, are kept. */
const keptAtMost = 200

function stageOf(bench: Bench, text: string, ref: string): StageRead {
  const own = stages.get(bench.types) ?? new Map<string, StageRead>()
  stages.set(bench.types, own)
  return remembered(own, text, () => {
    const read = readCircuitOf(text, `${ref}, circuit`)
    const parts = partsOfFile(bench, read)
    return { ...read, own: parts, nearA: currentAt(read, parts), verdicts: new Map() }
  })
}

/** What was made before under a key, else made now. */
function remembered<T>(all: Map<string, T>, key: string, make: () => T): T {
  const before = all.get(key)
  if (before !== undefined) return before
  const made = make()
  if (all.size >= keptAtMost) all.clear()
  all.set(key, made)
  return made
}

const verdictIn = ({ position, verdicts }: StageRead, parts: Parts): StageVerdict =>
  remembered(verdicts, JSON.stringify(parts), () => stageVerdict(position, parts))

function wantedIn(stage: StageRead): Pick<PositionSeen, 'wanted'> {
  const { position, own } = stage
  const part = own[position.place]
  if (part === undefined || !isFilled(position, own)) return {}
  return { wanted: { part: part.name, verdict: verdictIn(stage, own) } }
}

function seenIn(bench: Bench, stage: StageRead, part: PartInShort): Pick<PartSeen, 'verdict' | 'numbers' | 'why'> {
  const numbers = numbersOf(bench, stage, part)
  if (typeof numbers === 'string') return { why: numbers }
  const parts = { ...stage.own, [stage.position.place]: numbers }
  if (!isFilled(stage.position, parts)) return { why: 'its circuit does not name the other parts' }
  return { verdict: verdictIn(stage, parts), numbers }
}

function numbersOf(bench: Bench, stage: StageRead, part: PartInShort): PartNumbers | string {
  const { tag, state, parameters } = part
  const type = part.type ?? stage.own[stage.position.place]?.name
  if (state === 'short') return 'it is shorted'
  if (state === 'open') return 'it is open'
  if (parameters.length === 0) return 'nothing of it that counts here was measured'
  if (type === undefined) return 'its type is not known'
  try {
    return measuredNumbers(tag, typeNamed(bench, type), parameters, stage.nearA)
  } catch (error) {
    if (error instanceof FaultError) return `${type} cannot be computed in a stage`
    throw error
  }
}

/** What `germane job show --json` prints. Documented in docs/reference/json.md. */
export const jobDocument = ({ job, progress, positions, reserved, photos, cautions }: JobSeen) => ({
  format: 'germane/job/1' as const,
  job: { ...jobHead(job), reserved: job.reserved },
  progress,
  positions: positions.map(positionEntry),
  reserved,
  photos: photos.map(({ id, name, type, bytes, at }) => ({ id, name, type, bytes, at })),
  cautions,
})

const jobHead = ({ positions: _, ...head }: Job) => head

/** A position as scripts and the page read it. */
export const positionEntry = ({ position, column, circuit, fault, wanted, parts }: PositionSeen) => ({
  ...position,
  column,
  ...(circuit === undefined ? {} : { stage: positionHead(circuit) }),
  ...(fault === undefined ? {} : { fault }),
  ...(wanted === undefined ? {} : { wanted: { part: wanted.part, verdict: verdictOfStage(wanted.verdict) } }),
  parts: parts.map(({ verdict, numbers: _, ...part }) => ({
    ...part,
    ...(verdict === undefined ? {} : { verdict: verdictOfStage(verdict) }),
  })),
})

/** What `germane job list --json` prints. Documented in docs/reference/json.md. */
export const jobsDocument = (jobs: readonly Job[]) => ({
  format: 'germane/jobs/1' as const,
  jobs: jobs.map((job) => ({ ...jobHead(job), positions: job.positions.length, progress: progressOf(job.positions) })),
})
