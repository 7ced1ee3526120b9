import { findText, lots } from '#book'
import { searchTypes } from '#core/device'
import { type Bench, bookOf } from './bench.ts'

/** Something that was found. */
export interface Hit {
  readonly kind: 'part' | 'type' | 'tester' | 'lot' | 'run' | 'reading' | 'job'
  readonly name: string
  /** What to show beside the name. */
  readonly say: string
  readonly part?: string
  readonly run?: number
  /** Number of the job. */
  readonly job?: number
}

export interface Found {
  readonly hits: readonly Hit[]
  /** True where there are more. */
  readonly more: boolean
}

/** How many hits are given unless one asks for another number. */
export const hitsAtMost = 30

/** Finds anything by words: parts, types, lots, jobs, testers, notes of readings. Best kinds first. */
export async function searchBook(bench: Bench, query: string, limit = hitsAtMost): Promise<Found> {
  const words = query.trim()
  if (words === '') return { hits: [], more: false }
  const book = bookOf(bench)
  const { parts, jobs, notes } = await findText(book, words, limit + 1)
  const lower = words.toLowerCase()
  const fromParts = parts.map(({ tag, ...about }): Hit => ({ kind: 'part', name: tag, say: sayOf(about, lower) }))
  const fromJobs = jobs.map(({ id, name, equipment = '' }): Hit => ({ kind: 'job', name, say: equipment, job: id }))
  const fromNotes = notes.map(({ part, run, note }): Hit => ({ kind: 'reading', name: part, say: note, part, run }))
  const fromLots = (await lots(book))
    .filter((lot) => lot.name.toLowerCase().includes(lower))
    .map((lot): Hit => ({ kind: 'lot', name: lot.name, say: lot.parts === 1 ? '1 part' : `${lot.parts} parts` }))
  const groups = [fromParts, fromTypes(bench, words), fromLots, fromJobs, fromTesters(bench, lower), fromNotes]
  return { hits: share(groups, limit), more: groups.reduce((sum, group) => sum + group.length, 0) > limit }
}

/** Each kind gets its share, so that many parts do not push a type off the list; the order of kinds stays. */
function share(groups: readonly (readonly Hit[])[], limit: number): readonly Hit[] {
  const taken = groups.map(() => 0)
  for (let left = limit, isOver = false; left > 0 && !isOver; ) {
    isOver = true
    for (const [i, group] of groups.entries()) {
      if (left === 0 || taken[i]! >= group.length) continue
      taken[i]!++
      left--
      isOver = false
    }
  }
  return groups.flatMap((group, i) => group.slice(0, taken[i]))
}

type Said = Readonly<Partial<Record<'type' | 'lot' | 'place' | 'usedIn' | 'note', string>>>

/** What is said of a part, with the note only where it is what was found. */
function sayOf({ note, ...about }: Said, lower: string): string {
  const places = [about.type, about.lot, about.place, about.usedIn].filter((text) => text !== undefined)
  const first = lower.split(/\s+/)[0]!
  return (note?.toLowerCase().includes(first) ? [...places, note] : places).join(' · ')
}

const fromTypes = (bench: Bench, words: string): readonly Hit[] =>
  searchTypes(bench.types, { text: words }).map((type) => ({
    kind: 'type',
    name: type.type,
    say: [type.polarity ?? type.family, type.material, type.outline].filter((text) => text !== undefined).join(' '),
  }))

const fromTesters = (bench: Bench, lower: string): readonly Hit[] =>
  bench.testers
    .filter(({ tester }) => `${tester.id} ${tester.name}`.toLowerCase().includes(lower))
    .map(({ tester }) => ({ kind: 'tester', name: tester.id, say: tester.name }))
