import type { PartType } from '#core/device'
import type { Tester } from '#core/tester'
import type { Book } from './book.ts'
import { type Changed, editPartIn, type PartChanges } from './edit.ts'
import { enter, type VersionChange } from './journal.ts'
import type { Part } from './part.ts'
import { savePartTypeIn } from './part-type.ts'
import { saveTesterIn } from './tester.ts'
import { type Work, write } from './transaction.ts'
import { isWithdrawn } from './withdrawn.ts'

/** What was saved, and the number of the edit, by which it can be undone. */
export interface Noted {
  readonly version: number
  readonly isNew: boolean
  /** Left out where nothing had changed. */
  readonly edit?: number
}

/**
 * Changes what is said of parts: all of them or none, as one edit of the journal.
 *
 * @param at date and time now, ISO
 * @throws {FaultError} `not-found`; `bad-input` for a status there is not
 */
export const editPartsNoted = (
  book: Book,
  given: { readonly tags: readonly string[]; readonly changes: PartChanges },
  at: string,
): Promise<{ readonly parts: readonly Part[]; readonly edit?: number }> =>
  write(book, async (work) => {
    const parts: Part[] = []
    const changed: { tag: string; changed: Changed }[] = []
    for (const tag of new Set(given.tags)) {
      const done = await editPartIn(work, tag, given.changes, at)
      parts.push(done.part)
      if (Object.keys(done.changed).length > 0) changed.push({ tag, changed: done.changed })
    }
    if (changed.length === 0) return { parts }
    return { parts, edit: enter(work, { change: { kind: 'part', parts: changed }, say: partsSay(changed) }, at) }
  })

const fieldNames: Readonly<Record<string, string>> = {
  type: 'Type',
  lot: 'Lot',
  place: 'Place',
  note: 'Note',
  status: 'Status',
  usedIn: 'Use',
}

/** One sentence for a change of parts. */
export function partsSay(changed: readonly { readonly tag: string; readonly changed: Changed }[]): string {
  const [first] = changed
  if (first === undefined) return 'Nothing was changed.'
  const fields = [...new Set(changed.flatMap((one) => Object.keys(one.changed)))]
  const names = fields.map((field, i) => (i === 0 ? fieldNames[field] : fieldNames[field]?.toLowerCase())).join(', ')
  const whose = changed.length === 1 ? first.tag : `${changed.length} parts`
  if (fields.length > 1 || changed.length > 1) return `${names} of ${whose} changed.`
  const [was, is] = first.changed[fields[0]!]!
  return `${names} of ${whose} changed from ${said(was)} to ${said(is)}.`
}

const longestSaid = 60
const said = (text: string | null): string =>
  text === null ? 'nothing' : `"${text.length > longestSaid ? `${text.slice(0, longestSaid)}…` : text}"`

/** Saves a tester as an edit of the journal. See `saveTester`. */
export const saveTesterNoted = (
  book: Book,
  given: { readonly tester: Tester; readonly description?: string },
  at: string,
): Promise<Noted> =>
  write(book, async (work) => {
    const before = versionNow(work, 'tester', given.tester.id)
    const saved = await saveTesterIn(work, given, at)
    const change = { name: given.tester.id, before, after: saved.version }
    return noted(work, { kind: 'tester', change, name: given.tester.name }, at, saved.version)
  })

/** Saves part types of the user's own, all or none, as one edit of the journal. See `savePartType`. */
export const savePartTypesNoted = (book: Book, types: readonly PartType[], at: string): Promise<readonly Noted[]> =>
  write(book, async (work) => {
    const changes: VersionChange[] = []
    for (const type of types) {
      const before = versionNow(work, 'part type', type.type)
      changes.push({ name: type.type, before, after: (await savePartTypeIn(work, type, at)).version })
    }
    const real = changes.filter((one) => one.before !== one.after)
    const edit = real.length === 0 ? undefined : enterVersions(work, 'part type', real, at)
    return changes.map(({ before, after }) => ({
      version: after as number,
      isNew: before !== after,
      ...(edit === undefined || before === after ? {} : { edit }),
    }))
  })

function noted(
  work: Work,
  given: { readonly kind: 'tester'; readonly change: VersionChange; readonly name: string },
  at: string,
  version: number,
): Noted {
  const { kind, change } = given
  if (change.before === change.after) return { version, isNew: false }
  return { version, isNew: true, edit: enterVersions(work, kind, [change], at) }
}

const enterVersions = (work: Work, kind: 'tester' | 'part type', versions: readonly VersionChange[], at: string) =>
  enter(work, { change: { kind, versions }, say: versionsSay(kind, versions) }, at)

/** One sentence for new versions. */
export function versionsSay(kind: 'tester' | 'part type', versions: readonly VersionChange[]): string {
  const what = kind === 'tester' ? 'Tester' : 'Part type'
  const [first] = versions
  if (first === undefined || versions.length > 1) return `${versions.length} part types saved.`
  if (first.after === null) return `${what} ${first.name} taken out.`
  return first.before === null ? `${what} ${first.name} added.` : `${what} ${first.name} changed.`
}

/** The version that counts now; null where there is none, or it was taken out. */
export function versionNow(work: Work, kind: 'tester' | 'part type', name: string): number | null {
  if (isWithdrawn(work, kind, name)) return null
  const newest = {
    tester: 'SELECT max(version) FROM tester_version WHERE tester = ?',
    'part type': 'SELECT max(version) FROM part_type WHERE type = ?',
  }[kind]
  return work.driver.prepare<[string], number | null>(newest).pluck().get(name) ?? null
}
