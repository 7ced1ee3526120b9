import { FaultError } from '#core/fault'
import type { Book } from './book.ts'
import { type Changed, editPartIn, type PartChanges } from './edit.ts'
import { partsSay, versionNow } from './edit-noted.ts'
import { isStill, makeChanges, reversed } from './job-rows.ts'
import { type Change, enter, entries, entryByNumber, type JournalEntry, type VersionChange } from './journal.ts'
import { fromJson } from './json.ts'
import { putMarkBack } from './mark.ts'
import { savePartTypeIn } from './part-type.ts'
import { setRemoved } from './photo.ts'
import { readingsIn } from './reading.ts'
import { insertReadings } from './reading-rows.ts'
import { saveTesterIn, testerRow } from './tester.ts'
import { requireTime } from './time.ts'
import { type Work, write } from './transaction.ts'
import { codeOf } from './trouble.ts'
import { setUpkeepRemoved } from './upkeep.ts'
import { putBack, withdraw } from './withdrawn.ts'

/** What undoing an edit did. */
export interface Undone {
  readonly undone: JournalEntry
  /** The edit that did it: undo it to have the first one again. */
  readonly edit: JournalEntry
  /** What was changed by it. */
  readonly change: Change
}

/**
 * Undoes an edit of the journal: the one named, else the last that stands. Readings are never rewritten: a correction is
 * undone by a further correction that says what was read first.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `usage` nothing to undo, undone already, or changed again since; `not-found`
 */
export const undoEdit = (book: Book, id: number | undefined, at: string): Promise<Undone> =>
  write(book, async (work) => {
    requireTime(at)
    const found = id === undefined ? lastStanding(work) : entryByNumber(work, id)
    if (found === undefined) throw nothing(id)
    const { entry } = found
    if (entry.undoneBy !== undefined)
      throw usage(`"${entry.say}" was undone already`, `Undo edit ${entry.undoneBy} to have it again.`)
    const change = await reverse(work, found.change, at)
    const say = `Undone: ${entry.say}`
    const done = enter(work, { change, say, undoes: entry.id }, at)
    return {
      undone: { ...entry, undoneBy: done },
      edit: { id: done, kind: entry.kind, say, at, undoes: entry.id },
      change,
    }
  })

/** How far back the last edit that stands is looked for. */
const farthest = 1000

/** The last edit that was not undone, or was undone and then done again. */
function lastStanding(work: Work) {
  const list = entries(work, 'ORDER BY journal.id DESC LIMIT ?', farthest)
  const byId = new Map(list.map((one) => [one.entry.id, one.entry]))
  const isUndoing = (entry: JournalEntry): boolean => {
    if (entry.undoes === undefined) return false
    const undone = byId.get(entry.undoes)
    return undone === undefined || !isUndoing(undone)
  }
  return list.find(({ entry }) => entry.undoneBy === undefined && !isUndoing(entry))
}

const usage = (problem: string, mend: string): FaultError => new FaultError({ code: 'usage', problem, mend })

const nothing = (id: number | undefined): FaultError =>
  id === undefined
    ? usage('There is nothing to undo', 'Edits can be undone as long as nothing was changed in the same place since.')
    : new FaultError({ code: 'not-found', what: 'edit in the book', name: String(id), near: [] })

const changedSince = (what: string): FaultError =>
  usage(`${what} was changed again since`, 'Undo the later change first, or change it by hand.')

/** Does the opposite; gives what was changed by that. */
async function reverse(work: Work, change: Change, at: string): Promise<Change> {
  switch (change.kind) {
    case 'part':
      return { kind: 'part', parts: await reverseParts(work, change.parts, at) }
    case 'tester':
    case 'part type': {
      const versions: VersionChange[] = []
      for (const one of change.versions) versions.push(await reverseVersion(work, change.kind, one, at))
      return { kind: change.kind, versions }
    }
    case 'photo':
      setRemoved(work, change.photo, !change.removed)
      return { ...change, removed: !change.removed }
    case 'mark':
      await putMarkBack(work, change)
      return { ...change, before: change.after, after: change.before }
    case 'upkeep':
      setUpkeepRemoved(work, change.what, change.row, !change.removed)
      return { ...change, removed: !change.removed }
    case 'reading':
      return reverseCorrection(work, change, at)
    case 'job':
      return reverseJob(work, change, at)
  }
}

type JobChange = Extract<Change, { kind: 'job' }>

async function reverseJob(work: Work, change: JobChange, at: string): Promise<JobChange> {
  const { job, rows, tags, parts } = change
  const name = work.driver.prepare<[number], string>('SELECT name FROM job WHERE id = ?').pluck().get(job)
  const back = reversed(rows)
  if (!isStill(work, rows)) throw changedSince(`Job ${name}`)
  try {
    makeChanges(work, back)
  } catch (error) {
    // another job has its name, its position or its part since
    if (codeOf(error).startsWith('SQLITE_CONSTRAINT')) throw changedSince(`Job ${name}`)
    throw error
  }
  return { kind: 'job', job, rows: back, tags, parts: await reverseParts(work, parts, at) }
}

type PartsChange = Extract<Change, { kind: 'part' }>['parts']

async function reverseParts(work: Work, parts: PartsChange, at: string): Promise<PartsChange> {
  const done: { tag: string; changed: Changed }[] = []
  for (const { tag, changed } of parts) {
    const fields = Object.entries(changed)
    const changes = Object.fromEntries(fields.map(([field, [was]]) => [field, was])) as PartChanges
    const back = await editPartIn(work, tag, changes, at)
    for (const [field, [was, is]] of fields)
      if (back.changed[field]?.[0] !== is && was !== is)
        throw changedSince(partsSay([{ tag, changed }]).split(' changed')[0]!)
    done.push({ tag, changed: back.changed })
  }
  return done
}

type Versioned = 'tester' | 'part type'

async function reverseVersion(work: Work, kind: Versioned, change: VersionChange, at: string): Promise<VersionChange> {
  const { name, before, after } = change
  if (versionNow(work, kind, name) !== after)
    throw changedSince(`${kind === 'tester' ? 'Tester' : 'Part type'} ${name}`)
  if (before === null) withdraw(work, kind, name, at)
  else await bringBack[kind](work, name, before, at)
  return { name, before: after, after: versionNow(work, kind, name) }
}

/** Makes an older version count again: as a new version, so that none is ever rewritten. */
const bringBack: Readonly<Record<Versioned, (work: Work, name: string, version: number, at: string) => Promise<void>>> =
  {
    tester: async (work, name, version, at) => {
      putBack(work, 'tester', name)
      const { parsed, description } = await testerRow(work.db, name, version)
      const tester = fromJson<Parameters<typeof saveTesterIn>[1]['tester']>(parsed)
      await saveTesterIn(work, { tester, ...(description === null ? {} : { description }) }, at)
    },
    'part type': async (work, name, version, at) => {
      putBack(work, 'part type', name)
      const { record } = await work.db
        .selectFrom('part_type')
        .select('record')
        .where('type', '=', name)
        .where('version', '=', version)
        .executeTakeFirstOrThrow()
      await savePartTypeIn(work, fromJson<Parameters<typeof savePartTypeIn>[1]>(record), at)
    },
  }

type Correction = Extract<Change, { kind: 'reading' }>

async function reverseCorrection(work: Work, change: Correction, at: string): Promise<Correction> {
  const [was] = await readingsIn(work, { id: change.replaced })
  const newer = await work.db
    .selectFrom('reading')
    .select('id')
    .where('replaces', '=', change.reading)
    .executeTakeFirst()
  if (newer !== undefined || was === undefined) throw changedSince(`Reading ${change.reading}`)
  const id = insertReadings(work.driver, change.run, [was.reading], at, change.reading)
  return { ...change, part: was.reading.part, reading: id, replaced: change.reading }
}
