import {
  addPhoto,
  type BookReading,
  type Edit,
  editPartsNoted,
  edits,
  neighbours,
  type Outcome,
  type Part,
  type PartChanges,
  type Photo,
  type PhotoOf,
  part,
  photoContent,
  photos,
  type RunHead,
  readings,
  removePhoto,
  results,
  runHeads,
} from '#book'
import { findType, type PartType } from '#core/device'
import { FaultError } from '#core/fault'
import { partWord, type VerdictWord } from '#core/judge'
import { type Bench, bookOf } from './bench.ts'
import { hasEvidence } from './evidence.ts'
import { outcomesOf } from './keep.ts'
import { isUnknown } from './measure.ts'
import { patiently } from './patience.ts'
import { largestPicture, pictureType } from './picture.ts'
import { judgePartOf, runWithTester } from './settle-parts.ts'

/** A run a part was read in, and what it came to there. */
export interface PartRun {
  readonly run: RunHead
  /** All its readings, the corrected ones as well. */
  readonly readings: readonly BookReading[]
  readonly outcome?: Outcome
  readonly notes: readonly string[]
}

/** One part with all that is known of it. */
export interface PartPage {
  readonly part: Part
  readonly partType?: PartType
  readonly typeNote?: string
  readonly word?: VerdictWord
  /** Newest first. */
  readonly runs: readonly PartRun[]
  readonly edits: readonly Edit[]
  readonly photos: readonly Photo[]
  readonly before?: string
  readonly after?: string
}

/** Runs computed again with their workings; of older ones the kept results are shown, where nothing is known of the tester. */
const computedAnew = 5

/** @throws {FaultError} `not-found` */
export async function partPage(bench: Bench, tag: string): Promise<PartPage> {
  const book = bookOf(bench)
  const found = await part(book, tag)
  const runs = await runsOf(bench, tag)
  const newest = runs.find((one) => one.outcome !== undefined)?.outcome
  const word = newest === undefined ? undefined : partWord(newest.result.state, newest.verdicts)
  return {
    part: found,
    ...typeOf(bench, found.type),
    ...(word === undefined ? {} : { word }),
    runs,
    edits: await edits(book, tag),
    photos: await photos(book, tag),
    ...(await neighbours(book, tag)),
  }
}

async function runsOf(bench: Bench, tag: string): Promise<readonly PartRun[]> {
  const book = bookOf(bench)
  const heads = await runHeads(book, { part: tag })
  const all = await readings(book, { part: tag })
  const runs: PartRun[] = []
  const known = new Map<string, boolean>()
  for (const [i, head] of heads.entries()) {
    const own = all.filter((one) => one.run === head.id)
    const isKnown = known.get(head.tester) ?? (await hasEvidence(bench, head.tester))
    known.set(head.tester, isKnown)
    const isNew = i < computedAnew || isKnown
    const came = isNew ? await outcomeIn(bench, head.id, tag) : await keptIn(bench, head.id, tag)
    runs.push({ run: head, readings: own, ...came })
  }
  return runs
}

/** What a part came to in a run; a reading that can't be reduced is said and no reason to show nothing. */
async function outcomeIn(bench: Bench, run: number, tag: string): Promise<Pick<PartRun, 'outcome' | 'notes'>> {
  try {
    const judged = await judgePartOf(bench, await runWithTester(bench, run), tag)
    const [outcome] = outcomesOf(judged)
    return { ...(outcome === undefined ? {} : { outcome }), notes: judged.notes }
  } catch (error) {
    if (error instanceof FaultError) return { notes: error.message.split('\n') }
    throw error
  }
}

async function keptIn(bench: Bench, run: number, tag: string): Promise<Pick<PartRun, 'outcome' | 'notes'>> {
  const [kept] = await results(bookOf(bench), { run, part: tag })
  if (kept === undefined) return outcomeIn(bench, run, tag)
  return { outcome: { result: kept.result, verdicts: kept.verdicts }, notes: [] }
}

function typeOf(bench: Bench, name: string | undefined): Pick<PartPage, 'partType' | 'typeNote'> {
  if (name === undefined || isUnknown(name)) return {}
  const { found } = findType(bench.types, name)
  if (found === undefined) return { typeNote: `No record of a part type called ${name}.` }
  return { partType: found.partType, ...(found.note === undefined ? {} : { typeNote: found.note }) }
}

/** Changes what is said of parts as one edit; an empty text takes a value away. */
export function changeParts(
  bench: Bench,
  tags: readonly string[],
  given: Readonly<Record<string, string | undefined>>,
): Promise<{ readonly parts: readonly Part[]; readonly edit?: number }> {
  const pairs = Object.entries(given).filter(([, value]) => value !== undefined)
  const changes = Object.fromEntries(pairs.map(([field, value]) => [field, value === '' ? null : value]))
  return patiently(() => editPartsNoted(bookOf(bench), { tags, changes: changes as PartChanges }, bench.now()))
}

/** Photos of a part. */
export const photosOf = (bench: Bench, tag: string): Promise<Photo[]> => photos(bookOf(bench), tag)

/** The picture itself. */
export const pictureOf = (bench: Bench, id: number) => photoContent(bookOf(bench), id)

/**
 * Keeps a photo of a part or of a job. What it is, its first bytes say.
 *
 * @throws {FaultError} `bad-input` where it is no picture we keep, or too large; `not-found`
 */
export function keepPhoto(
  bench: Bench,
  given: PhotoOf & { readonly name: string; readonly content: Uint8Array },
): Promise<{ readonly photo: Photo; readonly edit: number }> {
  const { name, content } = given
  const refuse = (problem: string, mend: string): FaultError =>
    new FaultError({ code: 'bad-input', place: { field: 'photo' }, value: name, problem, mend })
  if (content.length > largestPicture) throw refuse('is larger than 8 MB', 'Make it smaller first.')
  const type = pictureType(content)
  if (type === undefined) throw refuse('is no PNG, JPEG or WebP picture', 'Save it as one of these first.')
  return patiently(() => addPhoto(bookOf(bench), { ...given, type }, bench.now()))
}

/** Takes a photo away; the edit can be undone. */
export const dropPhoto = (bench: Bench, id: number) => patiently(() => removePhoto(bookOf(bench), id, bench.now()))
