import type { Book } from './book.ts'
import { withoutNulls } from './json.ts'
import { read, type Work } from './transaction.ts'

/** A part that was found, or the note of a reading. */
export interface FoundPart {
  readonly tag: string
  readonly type?: string
  readonly lot?: string
  readonly place?: string
  readonly usedIn?: string
  readonly note?: string
}

export interface FoundNote {
  readonly part: string
  readonly run: number
  readonly note: string
}

/** A job that was found by what is said of it or of its positions. */
export interface FoundJob {
  readonly id: number
  readonly name: string
  readonly equipment?: string
}

export interface FoundText {
  readonly parts: readonly FoundPart[]
  readonly jobs: readonly FoundJob[]
  readonly notes: readonly FoundNote[]
}

/** Letters from which on the index of words helps: it holds every run of three. */
const indexed = 3
/** What one asks for in a search field is short; the rest would only cost time. */
const wordsAtMost = 8

/**
 * Parts whose tag, type, lot, place, use or note hold every word, jobs that hold it with their positions, and readings
 * whose note does; capitals or not. A tag
 * that is the whole query comes first, then tags that begin with it, then the others in the order in which they came.
 *
 * @param limit at most so many of each
 */
export const findText = (book: Book, query: string, limit: number): Promise<FoundText> =>
  read(book, async (work) => {
    const words = query
      .toLowerCase()
      .split(/[\s\p{Cc}]+/u)
      .filter(Boolean)
      .slice(0, wordsAtMost)
    if (words.length === 0) return { parts: [], jobs: [], notes: [] }
    return {
      parts: partsWith(work, query.trim(), words, limit),
      jobs: jobsWith(work, words, limit),
      notes: notesWith(work, words, limit),
    }
  })

function partsWith(work: Work, whole: string, words: readonly string[], limit: number): FoundPart[] {
  const first = byTag(work, whole, limit)
  const seen = new Set(first.map((one) => one.id))
  const others = first.length >= limit ? [] : byWords(work, words, limit + seen.size)
  return [...first, ...others.filter((one) => !seen.has(one.id))]
    .slice(0, limit)
    .map(({ id: _, ...one }) => withoutNulls(one))
}

interface PartRow {
  id: number
  tag: string
  type: string | null
  lot: string | null
  place: string | null
  usedIn: string | null
  note: string | null
}

const columns = `part.id, part.tag, part.type, lot.name AS lot, part.place, part.used_in AS usedIn, part.note
  FROM part LEFT JOIN lot ON lot.id = part.lot`

/** Tags that are the query or begin with it. */
function byTag({ driver }: Work, whole: string, limit: number): PartRow[] {
  const rows = driver.prepare<[string, number], PartRow>(
    `SELECT ${columns} WHERE part.tag LIKE ? ESCAPE '\\' ORDER BY length(part.tag), part.id LIMIT ?`,
  )
  return rows.all(`${likeText(whole)}%`, limit)
}

/** Long words through the index of words; short ones by looking at what that leaves. */
function byWords({ driver }: Work, words: readonly string[], limit: number): PartRow[] {
  const { match, likes } = conditions(words)
  const inIndex = `SELECT rowid FROM part_text WHERE part_text MATCH ?`
  // without short words the index itself can stop as soon as there are enough
  const found = likes.length === 0 ? `${inIndex} ORDER BY rowid LIMIT ${limit}` : inIndex
  const where = [...(match === undefined ? [] : [`part.id IN (${found})`]), ...likes.map(() => anyField)]
  const fields = likes.flatMap((like) => Array<string>(fieldCount).fill(like))
  return driver
    .prepare<(string | number)[], PartRow>(`SELECT ${columns} WHERE ${where.join(' AND ')} ORDER BY part.id LIMIT ?`)
    .all(...(match === undefined ? [] : [match]), ...fields, limit)
}

const fields = ['part.tag', 'part.type', 'lot.name', 'part.place', 'part.used_in', 'part.note'] as const
const fieldCount = fields.length
const anyField = `(${fields.map((field) => `${field} LIKE ? ESCAPE '\\'`).join(' OR ')})`

function notesWith({ driver }: Work, words: readonly string[], limit: number): FoundNote[] {
  const { match, likes } = conditions(words)
  const where = [
    ...(match === undefined ? [] : ['reading_text MATCH ?']),
    ...likes.map(() => "reading_text.note LIKE ? ESCAPE '\\'"),
  ]
  return driver
    .prepare<(string | number)[], FoundNote>(
      `SELECT part.tag AS part, reading.run, reading.note FROM reading_text
       JOIN reading ON reading.id = reading_text.rowid JOIN part ON part.id = reading.part
       WHERE ${where.join(' AND ')} AND NOT EXISTS (SELECT 1 FROM reading AS newer WHERE newer.replaces = reading.id)
       ORDER BY reading_text.rowid DESC LIMIT ?`,
    )
    .all(...(match === undefined ? [] : [match]), ...likes, limit)
}

/** All words of a job and its positions; there are few jobs, so they are simply looked through. */
const wordsOfJob = `concat_ws(' ', job.name, job.equipment, job.note, (SELECT group_concat(concat_ws(' ', ref, type, role,
  found, fitted, position.note, (SELECT tag FROM part WHERE id = found_part), (SELECT tag FROM part WHERE id = fitted_part)
  ), ' ') FROM position WHERE position.job = job.id))`

function jobsWith({ driver }: Work, words: readonly string[], limit: number): FoundJob[] {
  const holds = words.map(() => `${wordsOfJob} LIKE ? ESCAPE '\\'`)
  return driver
    .prepare<(string | number)[], { id: number; name: string; equipment: string | null }>(
      `SELECT id, name, equipment FROM job WHERE removed = 0 AND ${holds.join(' AND ')} ORDER BY id DESC LIMIT ?`,
    )
    .all(...words.map((word) => `%${likeText(word)}%`), limit)
    .map((row) => withoutNulls(row))
}

/** A word in quotes has no meaning of its own to the index, whatever signs it holds. */
function conditions(words: readonly string[]): { match?: string; likes: readonly string[] } {
  const long = words.filter((word) => [...word].length >= indexed)
  const likes = words.filter((word) => [...word].length < indexed).map((word) => `%${likeText(word)}%`)
  if (long.length === 0) return { likes }
  return { match: long.map((word) => `"${word.replaceAll('"', '""')}"`).join(' AND '), likes }
}

const likeText = (text: string): string => text.replaceAll(/[\\%_]/g, (sign) => `\\${sign}`)
