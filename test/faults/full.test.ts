import { spawnSync } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import {
  addReading,
  type Book,
  checkBook,
  closeBook,
  createBook,
  importReadings,
  openBook,
  readings,
  saveTester,
  startRun,
} from '#book'
import { ownFolder } from '../book/folder.ts'
import { atMinute, handTester, leakageReading, manyReadings } from '../book/invented.ts'
import { children } from './children.ts'

const inFolder = ownFolder()
const says = 'the disk is full. Make room and do it again. Nothing of this step was kept'

describe('disk full, by a limit on the pages of the file', () => {
  const limit = (book: Book, count: number): unknown => book.driver.pragma(`max_page_count = ${count}`)

  async function fullBook(name: string): Promise<Book> {
    const book = await createBook(inFolder(name), atMinute(0))
    await saveTester(book, { tester: handTester }, atMinute(0))
    await startRun(book, { tester: handTester.id }, atMinute(1))
    await addReading(book, { run: 1, reading: leakageReading('Q0', 5) }, atMinute(2))
    limit(book, (book.driver.pragma('page_count', { simple: true }) as number) + 2)
    return book
  }

  test('an import is not kept, and what was there is as it was', async () => {
    const book = await fullBook('import.germane')
    const file = { tester: handTester.id, readings: manyReadings(5000, 10), from: 'a.csv', hash: 'a' }
    await expect(importReadings(book, file, atMinute(3))).rejects.toThrow(says)
    expect(await readings(book)).toHaveLength(1)
    expect((await checkBook(book)).findings).toEqual([])
    limit(book, 1_000_000)
    await importReadings(book, file, atMinute(3))
    expect(await readings(book)).toHaveLength(5001)
    await closeBook(book)
  })

  test('readings one by one are kept as far as they are acknowledged', async () => {
    const book = await fullBook('readings.germane')
    let acknowledged = 1
    const addForEver = async (): Promise<void> => {
      for (; ; acknowledged++)
        await addReading(book, { run: 1, reading: leakageReading('Q1', 5, { note: 'x'.repeat(400) }) }, atMinute(4))
    }
    await expect(addForEver()).rejects.toThrow(says)
    await closeBook(book)
    const again = await openBook(book.file)
    expect(await readings(again)).toHaveLength(acknowledged)
    expect((await checkBook(again)).findings).toEqual([])
    await closeBook(again)
  })
})

/**
 * A file system of three megabytes that only the child sees, where this computer lets a process have one (Linux with user
 * namespaces); elsewhere the limit on pages above has to do.
 */
const small = inFolder('small')
mkdirSync(small)
const inSmall = (command: readonly string[]): readonly string[] => [
  'unshare',
  '-rm',
  'sh',
  '-c',
  'mount -t tmpfs -o size=3m tmpfs "$0" && exec "$@"',
  small,
  ...command,
]
const hasSmall = process.platform === 'linux' && spawnSync(inSmall([])[0]!, inSmall(['true']).slice(1)).status === 0
const start = children(inSmall)

test.each(hasSmall ? ['by a file system of three megabytes'] : [])('disk full, %s', async () => {
  const child = start('fill', small)
  expect(await child.ended).toBe(0)
  const faults = child.lines.filter((line) => line.startsWith('fault'))
  expect(faults.map((line) => line.includes(says))).toEqual([true, true, true, true])
  const { acknowledged, there, findings, files } = JSON.parse(child.lines.at(-1)!)
  expect(acknowledged).toBeGreaterThan(0)
  expect(there).toBe(acknowledged)
  expect(findings).toEqual([])
  expect(files).toEqual(['book.germane', 'filler'])
})
