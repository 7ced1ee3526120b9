import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Sqlite from 'better-sqlite3'
import { afterAll, describe, expect, test } from 'vitest'
import { exportJson } from './export.ts'
import { contentHash } from './import.ts'
import { type Migration, migrations } from './migrations/index.ts'
import { closeBook, createBook, openBook, openWith } from './open.ts'
import { addPart, parts } from './part.ts'

const folder = mkdtempSync(join(tmpdir(), 'germane-migrate-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const at = '2026-05-02T09:00:00Z'
const newer = migrations.length + 1
const addColumn: Migration = { number: newer, name: 'a colour', sql: 'ALTER TABLE part ADD COLUMN colour TEXT;' }
const addAnother: Migration = { number: newer + 1, name: 'a weight', sql: 'ALTER TABLE part ADD COLUMN weight REAL;' }
const broken: Migration = {
  number: newer + 1,
  name: 'one that fails',
  sql: "UPDATE part SET colour = 'red'; INSERT INTO nowhere VALUES (1);",
}
const loosens: Migration = {
  number: newer,
  name: 'one that loses a lot',
  sql: 'UPDATE part SET lot = 77;',
}

async function bookWithPart(name: string): Promise<string> {
  const file = join(folder, name)
  const book = await createBook(file, at)
  await addPart(book, { tag: 'Q1', lot: 'radio' }, at)
  await closeBook(book)
  return file
}

const beside = (name: string): string[] =>
  readdirSync(folder)
    .filter((found) => found.startsWith(name))
    .sort()

describe('the list', () => {
  test('counts from 1 without a gap', () =>
    expect(migrations.map((one) => one.number)).toEqual(migrations.map((_, i) => i + 1)))

  test('a released migration is never edited', () =>
    expect(migrations.map(({ name, sql }) => [name, contentHash(sql)])).toMatchInlineSnapshot(`
      [
        [
          "the first book",
          "c5714c66ff92e927bd8d434d8e23a824933f46456fa7bd0d23cfb2dcc88d125f",
        ],
        [
          "edits that can be undone, and photos",
          "31f1336c8116ede58b3a1b0238b50e74b8f2b6165808a59a569ad60cd0812775",
        ],
        [
          "the drawer and the search",
          "1f4245a20d4c8e2b220f0010a52b60879ee0d578d46ab531ac0081a59b35a2d5",
        ],
        [
          "curves of parts",
          "02bf12783e3de22178f8657f5bcafda06bbdf9ebe41820650ce24a1fdcf5516c",
        ],
        [
          "jobs and their positions",
          "119f76688d89cd9babef6846a0550a553c776096cc1417a37a20ffeef80b14d3",
        ],
        [
          "upkeep of testers",
          "37b52461259d1d5f3ba5b21c17386a05153acee4c82227ab131dc711583ef9b6",
        ],
      ]
    `))
})

describe('an older book', () => {
  const failed = `cannot be brought up to date: step ${newer + 1}, "one that fails", failed (no such table: nowhere). `

  test('is copied beside itself and brought up to date', async () => {
    const file = await bookWithPart('older.germane')
    const book = await openWith(file, [...migrations, addColumn, addAnother])
    expect(book.driver.pragma('user_version', { simple: true })).toBe(newer + 1)
    expect(book.driver.prepare('SELECT tag, colour, weight FROM part').all()).toEqual([
      { tag: 'Q1', colour: null, weight: null },
    ])
    expect(book.driver.pragma('foreign_keys', { simple: true })).toBe(1)
    await closeBook(book)
    const kept = `older.germane.version-${migrations.length}`
    expect(beside('older.germane')).toEqual(['older.germane', kept])

    const old = await openBook(join(folder, kept))
    expect((await parts(old)).map((p) => p.tag)).toEqual(['Q1'])
    await closeBook(old)
  })

  test('is copied once for each attempt, never over another copy', async () => {
    const file = await bookWithPart('twice.germane')
    for (let i = 0; i < 2; i++) await expect(openWith(file, [...migrations, addColumn, broken])).rejects.toThrow(failed)
    const kept = `twice.germane.version-${migrations.length}`
    expect(beside('twice.germane')).toEqual(['twice.germane', kept, `${kept}.2`])
  })

  test('is as it was where one of the migrations fails', async () => {
    const file = await bookWithPart('fails.germane')
    const before = contentHash(readFileSync(file))
    await expect(openWith(file, [...migrations, addColumn, broken])).rejects.toThrow(failed)
    expect(contentHash(readFileSync(file))).toBe(before)
    const book = await openBook(file)
    expect((await parts(book)).map((p) => p.tag)).toEqual(['Q1'])
    await closeBook(book)
  })

  test('is as it was where a migration would leave rows that point nowhere', async () => {
    const file = await bookWithPart('loose.germane')
    const before = contentHash(readFileSync(file))
    await expect(openWith(file, [...migrations, loosens])).rejects.toThrow(
      'cannot be brought up to date: 1 of its rows point to rows that are not there',
    )
    expect(contentHash(readFileSync(file))).toBe(before)
  })

  test('that another process has brought up to date in the meantime is simply used', async () => {
    const file = await bookWithPart('both.germane')
    const steps = [...migrations, addColumn]
    const first = await openWith(file, steps)
    const second = await openWith(file, steps)
    await closeBook(first)
    await closeBook(second)
    expect(beside('both.germane')).toHaveLength(2)
  })
})

test('photos and the journal of a book of version 4 come along, still guarded', async () => {
  const file = join(folder, 'four.germane')
  const before = await openWith(file, migrations.slice(0, 4), { createAt: at })
  before.driver.exec(`
    INSERT INTO part (id, tag, status, at) VALUES (3, 'Q3', 'kept', '${at}');
    INSERT INTO photo (id, part, name, type, removed, at, bytes) VALUES (7, 3, 'a.png', 'image/png', 1, '${at}', x'00FF');
    INSERT INTO journal (id, kind, say, change, undoes, at) VALUES
      (1, 'photo', 'Photo added to Q3.', '{"photo":7,"part":"Q3","removed":false}', NULL, '${at}'),
      (4, 'photo', 'Undone: Photo added to Q3.', '{"photo":7,"part":"Q3","removed":true}', 1, '${at}');`)
  await closeBook(before)
  const { driver, ...book } = await openBook(file)
  expect(driver.prepare('SELECT id, part, job, removed, hex(bytes) AS bytes FROM photo').all()).toEqual([
    { id: 7, part: 3, job: null, removed: 1, bytes: '00FF' },
  ])
  expect(driver.prepare('SELECT id, undoes FROM journal').all()).toEqual([
    { id: 1, undoes: null },
    { id: 4, undoes: 1 },
  ])
  expect(() => driver.exec('DELETE FROM journal')).toThrow('edits in the journal are kept for ever')
  expect(() =>
    driver.exec("INSERT INTO journal (kind, say, change, undoes, at) VALUES ('x', '', '{}', 9, '')"),
  ).toThrow('FOREIGN KEY constraint failed')
  const version = driver.prepare('SELECT max(version) FROM touched').pluck()
  const touched = version.get() as number
  driver.exec('UPDATE photo SET removed = 0')
  expect(version.get()).toBe(touched + 1)
  await closeBook({ driver, ...book })
})

describe('a newer book', () => {
  const sentence = `was written by a newer Germane (book version ${newer}; this Germane knows up to ${migrations.length}). Update Germane, then open it again.`

  test('is refused with a clear sentence and not touched', async () => {
    const file = await bookWithPart('newer.germane')
    await closeBook(await openWith(file, [...migrations, addColumn]))
    const before = contentHash(readFileSync(file))
    await expect(openBook(file)).rejects.toThrow(sentence)
    expect(contentHash(readFileSync(file))).toBe(before)
  })

  test('is refused also where only its write-ahead file says so', async () => {
    const file = await bookWithPart('ahead.germane')
    const other = new Sqlite(file)
    other.exec(`PRAGMA wal_autocheckpoint = 0; ${addColumn.sql} PRAGMA user_version = ${newer}`)
    await expect(openBook(file)).rejects.toThrow(sentence)
    expect(other.pragma('user_version', { simple: true })).toBe(newer)
    other.close()
  })
})

test('the export of a book stays as it is while the book is only opened', async () => {
  const file = await bookWithPart('still.germane')
  const first = await openBook(file)
  const before = await exportJson(first)
  await closeBook(first)
  const bytes = contentHash(readFileSync(file))
  const second = await openBook(file)
  expect(await exportJson(second)).toBe(before)
  await closeBook(second)
  expect(contentHash(readFileSync(file))).toBe(bytes)
})
