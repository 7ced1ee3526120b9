/** A job stands open, waits for something, or is done. */
export const jobStates = ['open', 'waiting', 'done'] as const
export type JobState = (typeof jobStates)[number]

/** What a piece of equipment runs from: what decides the cautions. */
export const powers = ['battery', 'mains'] as const
export type Power = (typeof powers)[number]

export const decisions = ['undecided', 'keep', 'replace'] as const
export type Decision = (typeof decisions)[number]

/** What can be said of a job. */
export interface JobSaid {
  readonly name: string
  /** What it is, in words. */
  readonly equipment?: string
  readonly power?: Power
  readonly state: JobState
  readonly note?: string
  /** Dates, `2026-03-14`. */
  readonly begunOn?: string
  readonly finishedOn?: string
}

/** What can be said of a position. */
export interface PositionSaid {
  /** Its name in the circuit, once in the job: `TR3`. */
  readonly ref: string
  /** Part type wanted there. */
  readonly type?: string
  /** What it does there, in words. */
  readonly role?: string
  /** Its stage as YAML, as `readPosition` of `#core/stage` reads it. */
  readonly circuit?: string
  /** What stood there, in words. */
  readonly found?: string
  /** Tag of the part that stood there. */
  readonly foundPart?: string
  readonly decision: Decision
  /** What was put in, in words. */
  readonly fitted?: string
  /** Tag of the part that was put in. */
  readonly fittedPart?: string
  /** Whether nothing is left to do. */
  readonly done: boolean
  readonly note?: string
}

/** A place of a job where a part stands, or is wanted. */
export interface JobPosition extends PositionSaid {
  /** Tags of the parts put aside for it. */
  readonly reserved: readonly string[]
}

/** A piece of equipment being mended. */
export interface Job extends JobSaid {
  /** Its number in the book. */
  readonly id: number
  readonly positions: readonly JobPosition[]
  /** Tags of parts put aside for the job and no position of it. */
  readonly reserved: readonly string[]
  /** When it came into the book. */
  readonly at: string
}

/** A job as one writes it down before it is in a book. */
export type NewJob = Omit<Job, 'id' | 'at'>

/** Columns of the job board, in the order in which a position goes through them. */
export const boardColumns = ['to look at', 'keep', 'replace', 'done'] as const
export type BoardColumn = (typeof boardColumns)[number]

/** Where a position stands on the board. */
export const columnOf = ({ decision, done }: Pick<PositionSaid, 'decision' | 'done'>): BoardColumn =>
  done ? 'done' : decision === 'undecided' ? 'to look at' : decision

/** What moving a position to a column changes of it. */
export const movedTo = (column: BoardColumn): { readonly decision?: Decision; readonly done: boolean } =>
  column === 'done' ? { done: true } : { decision: column === 'to look at' ? 'undecided' : column, done: false }

/** Positions in each column. */
export function progressOf(
  positions: readonly Pick<PositionSaid, 'decision' | 'done'>[],
): Readonly<Record<BoardColumn, number>> {
  const counts = { 'to look at': 0, keep: 0, replace: 0, done: 0 }
  for (const one of positions) counts[columnOf(one)]++
  return counts
}

/** A position that is done is decided: where something was put in, to replace; else to keep. */
export function settled<P extends Pick<PositionSaid, 'decision' | 'done' | 'fitted' | 'fittedPart'>>(position: P): P {
  if (!position.done || position.decision !== 'undecided') return position
  const isFitted = position.fitted !== undefined || position.fittedPart !== undefined
  return { ...position, decision: isFitted ? 'replace' : 'keep' }
}

/** What tells which part counts. */
interface Counting {
  readonly decision: Decision
  readonly reserved: readonly string[]
  readonly foundPart?: string | undefined
  readonly fittedPart?: string | undefined
}

/** The part that counts in a position: fitted, else the one put aside where the found one goes, else the found one. */
export function partOfPosition(position: Counting): { readonly tag: string; readonly as: PartAs } | undefined {
  const { fittedPart, foundPart, reserved, decision } = position
  if (fittedPart !== undefined) return { tag: fittedPart, as: 'fitted' }
  const [first] = reserved
  if (first !== undefined && (decision === 'replace' || foundPart === undefined)) return { tag: first, as: 'reserved' }
  return foundPart === undefined ? undefined : { tag: foundPart, as: 'found' }
}

/** As what a part belongs to a position. */
export type PartAs = 'found' | 'reserved' | 'fitted'

/** Every part of a position, in the order in which they came; one that was put back is fitted. */
export const partsOfPosition = (position: JobPosition): readonly { readonly tag: string; readonly as: PartAs }[] => {
  const { foundPart, reserved, fittedPart } = position
  return [
    ...(foundPart === undefined || foundPart === fittedPart ? [] : [{ tag: foundPart, as: 'found' as const }]),
    ...reserved.map((tag) => ({ tag, as: 'reserved' as const })),
    ...(fittedPart === undefined ? [] : [{ tag: fittedPart, as: 'fitted' as const }]),
  ]
}
