import { describe, expect, test } from 'vitest'
import {
  addReading,
  checkBook,
  closeBook,
  createBook,
  imports,
  openBook,
  readings,
  runs,
  saveTester,
  startRun,
  testers,
} from '#book'
import { ownFolder } from '../book/folder.ts'
import { atMinute, handTester, leakageReading } from '../book/invented.ts'
import { children } from './children.ts'
import { readingOf } from './told.ts'

const inFolder = ownFolder()
const start = children()

async function newBook(name: string): Promise<string> {
  const file = inFolder(name)
  const book = await createBook(file, atMinute(0))
  await saveTester(book, { tester: handTester }, atMinute(0))
  await startRun(book, { tester: handTester.id }, atMinute(1))
  await closeBook(book)
  return file
}

describe('two processes on one book', () => {
  test('both take their readings, and both finish', async () => {
    const file = await newBook('readings.germane')
    const both = [start('write', file, '1', '100'), start('write', file, '2', '100')]
    expect(await Promise.all(both.map((child) => child.ended))).toEqual([0, 0])
    const told = both.flatMap(({ lines }, i) =>
      lines.slice(1, -1).map((id, n) => [Number(id), readingOf(i + 1, n + 1)] as const),
    )
    const book = await openBook(file)
    const there = (await readings(book)).map(({ id, reading }) => [id, reading])
    expect(there).toEqual(told.sort(([a], [b]) => a - b))
    expect(there).toHaveLength(200)
    expect((await checkBook(book)).findings).toEqual([])
    await closeBook(book)
  })

  test('the same file imported by both at once comes in once, and the other is told', async () => {
    const file = await newBook('imports.germane')
    const both = [start('import', file, '3000'), start('import', file, '3000')]
    expect(await Promise.all(both.map((child) => child.ended))).toEqual([0, 0])
    const said = both.map(({ lines }) => lines[1]).sort()
    expect(said[0]).toContain('lot.csv was imported before: run 2, 3000 readings')
    expect(said[1]).toBe('kept')
    const book = await openBook(file)
    expect(await imports(book)).toHaveLength(1)
    expect(await readings(book)).toHaveLength(3000)
    await closeBook(book)
  })

  test('a book that both make at once is one book', async () => {
    const file = inFolder('made.germane')
    const both = Array.from({ length: 4 }, () => start('open', file))
    expect(await Promise.all(both.map((child) => child.ended))).toEqual([0, 0, 0, 0])
    expect(both.flatMap(({ lines }) => lines).sort()).toEqual(['run 1', 'run 2', 'run 3', 'run 4'])
    const book = await openBook(file)
    expect((await testers(book)).map((one) => one.version)).toEqual([1])
    expect(await runs(book)).toHaveLength(4)
    expect((await checkBook(book)).findings).toEqual([])
    await closeBook(book)
  })

  test('one that waits too long gets a sentence; reading goes on, and writing when the other is done', async () => {
    const file = await newBook('held.germane')
    const holder = start('hold', file)
    await holder.until('holding')
    const book = await openBook(file, { waitMs: 100 })
    const reading = { run: 1, reading: leakageReading('Q1', 5) }
    await expect(addReading(book, reading, atMinute(2))).rejects.toThrow(
      `${file}: another program is writing to it and did not finish in time. Wait until it has finished or close it, then do it again. Nothing was changed.`,
    )
    expect(await readings(book)).toEqual([])
    holder.process.stdin.end()
    expect(await holder.ended).toBe(0)
    expect((await addReading(book, reading, atMinute(2))).id).toBe(1)
    await closeBook(book)
  })

  test('one that was killed while it held the book leaves it free', async () => {
    const file = await newBook('left.germane')
    const holder = start('hold', file)
    await holder.until('holding')
    holder.process.kill('SIGKILL')
    await holder.ended
    const book = await openBook(file, { waitMs: 100 })
    expect((await addReading(book, { run: 1, reading: leakageReading('Q1', 5) }, atMinute(2))).id).toBe(1)
    await closeBook(book)
  })
})
