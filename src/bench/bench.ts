import { type Book, closeBook, openBook, testers as ownTesters, partTypes as ownTypes } from '#book'
import { loadCatalog, type SampleTester, sampleTesters } from '#catalog'
import { mergeTypes, needType, type PartType } from '#core/device'
import { FaultError } from '#core/fault'
import { readTester, type Tester } from '#core/tester'
import { nearNames } from '#core/text'

/** A tester one can name: a sample, or one from the book. */
export interface KnownTester {
  readonly tester: Tester
  readonly from: 'sample' | 'book'
  /** The description as written, where it is known. */
  readonly description?: string
  /** Version in the book. */
  readonly version?: number
}

/** What the use cases work on: everything one can name, perhaps a book, and the time. */
export interface Bench {
  readonly types: readonly PartType[]
  /** All one can name: the book's own before the samples. */
  readonly testers: readonly KnownTester[]
  /** Those of the book alone. */
  readonly ownTesters: readonly KnownTester[]
  readonly book?: Book
  /** Date and time now, ISO. */
  readonly now: () => string
}

export interface BenchOptions {
  /** The book to open; left out, the bench has none. */
  readonly bookFile?: string
  /** Makes the book where there is none. */
  readonly create?: boolean
  readonly now: () => string
}

/** Lays the bench: the catalog and the samples, and over them what the book has of its own. */
export async function layBench(options: BenchOptions): Promise<Bench> {
  const catalog = await loadCatalog()
  if (options.bookFile === undefined) return withTesters({ types: catalog, now: options.now }, [])
  const book = await openBook(options.bookFile, options.create === true ? { createAt: options.now() } : {})
  return refreshed({ types: catalog, testers: [], ownTesters: [], book, now: options.now })
}

/** Lays what the book has of its own anew, as after a change of it. */
export async function refreshed(bench: Bench): Promise<Bench> {
  const book = bookOf(bench)
  const own = (await ownTesters(book)).map((t): KnownTester => ({ ...t, from: 'book' }))
  const ownRecords = (await ownTypes(book)).map((t) => t.partType)
  return withTesters({ book, now: bench.now, types: mergeTypes(await loadCatalog(), ownRecords) }, own)
}

/** A bench with the testers of the book before the samples; the samples are read when a tester is asked for. */
function withTesters(bench: Omit<Bench, 'testers' | 'ownTesters'>, own: readonly KnownTester[]): Bench {
  const shadowed = new Set(own.map((t) => t.tester.id))
  let all: readonly KnownTester[] | undefined
  return {
    ...bench,
    ownTesters: own,
    get testers() {
      all ??= [...own, ...sampleTesters.filter((s) => !shadowed.has(s.id)).map(knownSample)]
      return all
    },
  }
}

/** Lets go of the book, where there is one. */
export async function clearBench(bench: Bench): Promise<void> {
  if (bench.book !== undefined) await closeBook(bench.book)
}

/** Runs a use case on a bench and lets go of the book whatever happens. */
export async function onBench<T>(options: BenchOptions, use: (bench: Bench) => T | Promise<T>): Promise<T> {
  const bench = await layBench(options)
  try {
    return await use(bench)
  } finally {
    await clearBench(bench)
  }
}

/**
 * The book of a bench that must have one.
 *
 * @throws {FaultError} `usage` where there is none
 */
export function bookOf(bench: Bench): Book {
  if (bench.book !== undefined) return bench.book
  throw new FaultError({ code: 'usage', problem: 'This needs a book', mend: 'Name one with --book FILE.' })
}

/** A tester by id or name. @throws {FaultError} `not-found` with near names */
export function testerNamed(bench: Bench, name: string): KnownTester {
  const wanted = name.trim().toLowerCase()
  const isIt = (t: { readonly id: string; readonly name: string }): boolean =>
    t.id === wanted || t.name.toLowerCase() === wanted
  const own = bench.ownTesters.find((t) => isIt(t.tester))
  if (own !== undefined) return own
  const sample = sampleTesters.find(isIt)
  if (sample !== undefined) return knownSample(sample)
  throw new FaultError({
    code: 'not-found',
    what: 'tester',
    name,
    near: nearNames(
      name,
      bench.testers.map((t) => t.tester.id),
    ),
    mend: '"germane tester list" shows the testers there are; a description file can be named instead.',
  })
}

/** A tester from a description file. @throws {FaultError} with every fault of the file */
export function testerFromText(text: string, file: string): KnownTester {
  const read = readTester(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  return { tester: read.tester, from: 'sample', description: text }
}

/** A part type by number. @throws {FaultError} `not-found` with near numbers */
export const typeNamed = (bench: Bench, name: string): PartType => needType(bench.types, name).partType

const samples = new Map<string, KnownTester>()

/** A sample, read when first asked for. @throws {FaultError} never, as long as the tests of the catalog hold */
function knownSample({ id, text }: SampleTester): KnownTester {
  const known = samples.get(id)
  if (known !== undefined) return known
  const read = readTester(text)
  if (!read.ok) throw new FaultError(read.faults)
  const made: KnownTester = { tester: read.tester, from: 'sample', description: text }
  samples.set(id, made)
  return made
}

/** The fault of a choice of parts that none in the book answers to. */
export function noParts({ lot, type }: { readonly lot?: string; readonly type?: string }): FaultError {
  if (lot === undefined && type === undefined)
    return new FaultError({
      code: 'usage',
      problem: 'The book holds no part that was read yet',
      mend: 'Keep the readings of some parts in it first.',
    })
  const what = lot === undefined ? 'part in the book of a type' : 'lot with parts in the book'
  return new FaultError({ code: 'not-found', what, name: lot ?? type ?? '', near: [] })
}
