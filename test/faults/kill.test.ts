import { copyFileSync, readdirSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  addReadings,
  checkBook,
  closeBook,
  createBook,
  imports,
  openBook,
  type Recompute,
  readings,
  runs,
  saveResults,
  saveTester,
  startRun,
} from '#book'
import { Random } from '#core/numeric'
import { ownFolder } from '../book/folder.ts'
import { atMinute, handTester, manyReadings, outcomesOf } from '../book/invented.ts'
import { children } from './children.ts'
import { readingOf } from './told.ts'

/**
 * `kill -9` at 200 moments drawn from a seed, 100 in a run and 100 in an import, and at 12 more while books are made.
 * A killed process leaves to the operating system what it has handed over: a power cut is another matter, which no test
 * here can make; against it the book has `synchronous = FULL`.
 */
const killsOfRun = 100
const killsOfImport = 100
const killsOfMaking = 12
const lanes = 2
const minutes = 60_000

const inFolder = ownFolder()
const start = children()
const recompute: Recompute = ({ readings }) => outcomesOf(readings)
const pause = (ms: number): Promise<void> => new Promise((keep) => setTimeout(keep, ms))

/** A book with a run, an import and their results, to be worked on by children. */
async function newBook(name: string): Promise<string> {
  const file = inFolder(name)
  const book = await createBook(file, atMinute(0))
  await saveTester(book, { tester: handTester }, atMinute(0))
  await startRun(book, { tester: handTester.id }, atMinute(1))
  await startRun(book, { tester: handTester.id }, atMinute(1))
  const before = manyReadings(20, 5)
  await addReadings(book, { run: 2, readings: before }, atMinute(2))
  await saveResults(book, { run: 2, outcomes: outcomesOf(before) }, atMinute(3))
  await closeBook(book)
  return file
}

/** When to kill a child: so many milliseconds after it has said so many lines. */
interface Moment {
  readonly lines: number
  readonly ms: number
}

/** Starts a child, lets it work until the moment and kills it; what it said up to then. */
async function lifeOf(args: readonly string[], { lines, ms }: Moment): Promise<readonly string[]> {
  const child = start(...args)
  await child.untilLines(lines)
  await pause(ms)
  child.process.kill('SIGKILL')
  await child.ended
  return child.lines
}

/** A moment after one to `lines` lines, the first of which is `ready`, and up to `ms` more. */
const momentOf = (random: Random, lines: number, ms: number): Moment => ({
  lines: 1 + random.integer(lines),
  ms: random.uniform() * ms,
})

/** Does `count` things in lanes beside each other, one after the other in each. */
async function inLanes(count: number, one: (i: number, lane: number) => Promise<void>): Promise<void> {
  const lane = async (first: number): Promise<void> => {
    for (let i = first; i < count; i += lanes) await one(i, first)
  }
  await Promise.all(Array.from({ length: lanes }, (_, first) => lane(first)))
}

describe('kill -9', () => {
  test(
    `${killsOfRun} times in a run: every acknowledged reading is there, the check passes`,
    async () => {
      const random = new Random(11)
      const moments = Array.from({ length: killsOfRun }, () => momentOf(random, 9, 6))
      const books = await Promise.all(Array.from({ length: lanes }, (_, lane) => newBook(`run-${lane}.germane`)))
      const told = books.map(() => new Map<number, string>())
      await inLanes(killsOfRun, async (life, lane) => {
        const lines = await lifeOf(['readings', books[lane]!, String(life)], moments[life]!)
        expect(lines[0]).toBe('ready')
        for (const line of lines.slice(1)) {
          const [id, n] = line.split(' ').map(Number)
          told[lane]!.set(id!, JSON.stringify(readingOf(life, n!)))
        }
        const book = await openBook(books[lane]!)
        const there = new Map((await readings(book, { run: 1 })).map((one) => [one.id, JSON.stringify(one.reading)]))
        for (const [id, reading] of told[lane]!) expect(there.get(id)).toBe(reading)
        expect((await checkBook(book, { recompute })).findings).toEqual([])
        await closeBook(book)
      })
      expect(told.reduce((sum, lane) => sum + lane.size, 0)).toBeGreaterThan(killsOfRun)
    },
    4 * minutes,
  )

  test(
    `${killsOfImport} times in an import: all of it or nothing, and all where it was acknowledged`,
    async () => {
      const rows = 400
      const fresh = await newBook('before-import.germane')
      const whole = await timeOfImport(fresh, rows)
      const random = new Random(12)
      const moments = Array.from({ length: killsOfImport }, () => momentOf(random, 1, 1.4 * whole))
      const ends = { whole: 0, nothing: 0, acknowledged: 0 }
      await inLanes(killsOfImport, async (life) => {
        const file = inFolder(`import-${life}.germane`)
        copyFileSync(fresh, file)
        const lines = await lifeOf(['import', file, String(rows)], moments[life]!)
        expect(lines[0]).toBe('ready')
        const book = await openBook(file)
        const taken = await imports(book)
        const count = (await readings(book)).length
        expect([20, 20 + rows]).toContain(count)
        expect(taken.map((one) => one.rows)).toEqual(count === 20 ? [] : [rows])
        expect(await runs(book)).toHaveLength(count === 20 ? 2 : 3)
        if (lines.includes('kept')) expect(count).toBe(20 + rows)
        expect((await checkBook(book, { recompute })).findings).toEqual([])
        await closeBook(book)
        ends[count === 20 ? 'nothing' : 'whole']++
        if (lines.includes('kept')) ends.acknowledged++
      })
      expect(ends.nothing).toBeGreaterThan(0)
      expect(ends.whole).toBeGreaterThanOrEqual(ends.acknowledged)
    },
    4 * minutes,
  )

  test(
    `${killsOfMaking} times while books are made: what has the name of a book is a whole one`,
    async () => {
      const random = new Random(13)
      const moments = Array.from({ length: killsOfMaking }, () => momentOf(random, 3, 20))
      await inLanes(killsOfMaking, async (life) => {
        const lines = await lifeOf(['make', inFolder(`made-${life}`)], moments[life]!)
        const made = readdirSync(inFolder('.')).filter(
          (name) => name.startsWith(`made-${life}-`) && name.endsWith('.germane'),
        )
        expect(made.length).toBeGreaterThanOrEqual(lines.length - 1)
        for (const name of made) {
          const book = await openBook(inFolder(name))
          expect((await checkBook(book)).findings).toEqual([])
          await closeBook(book)
        }
      })
    },
    2 * minutes,
  )
})

/** How long an import takes from `ready` to `kept`, ms: the middle of three. */
async function timeOfImport(fresh: string, rows: number): Promise<number> {
  const times: number[] = []
  for (let i = 0; i < 3; i++) {
    const file = inFolder(`timed-${i}.germane`)
    copyFileSync(fresh, file)
    const child = start('import', file, String(rows))
    await child.until('ready')
    const before = performance.now()
    await child.until('kept')
    times.push(performance.now() - before)
    expect(await child.ended).toBe(0)
  }
  return times.sort((a, b) => a - b)[1]!
}
