import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs'
import Sqlite from 'better-sqlite3'
import { beforeAll, describe, expect, test } from 'vitest'
import {
  addReading,
  addReadings,
  backupBook,
  checkBook,
  closeBook,
  contentHash,
  createBook,
  openBook,
  readings,
  saveTester,
  startRun,
} from '#book'
import { FaultError } from '#core/fault'
import { ownFolder } from './folder.ts'
import { atMinute, handTester, leakageReading, manyReadings } from './invented.ts'

const inFolder = ownFolder()
const good = inFolder('good.germane')

beforeAll(async () => {
  const book = await createBook(good, atMinute(0))
  await saveTester(book, { tester: handTester }, atMinute(0))
  await startRun(book, { tester: 'bench-hand' }, atMinute(1))
  await addReadings(book, { run: 1, readings: manyReadings(2000, 40) }, atMinute(2))
  await closeBook(book)
})

/** A file that opening must refuse: its bytes, or how it is spoiled. */
const spoiled: readonly { readonly what: string; readonly make: (file: string) => void; readonly says: string }[] = [
  {
    what: 'a text',
    make: (file) => writeFileSync(file, 'part,reads,shown\nQ1,I_CEO,12 div\n'.repeat(50)),
    says: 'is not a Germane book. Check the name. Nothing was changed.',
  },
  {
    what: 'an empty file',
    make: (file) => writeFileSync(file, ''),
    says: 'is empty, so it is not a book. Check the name, or go back to a backup.',
  },
  {
    what: 'a picture',
    make: (file) =>
      writeFileSync(
        file,
        Buffer.from(
          'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNkYAAAAAYAAjCB0C8AAAAASUVORK5CYII=',
          'base64',
        ),
      ),
    says: 'is not a Germane book. Check the name. Nothing was changed.',
  },
  {
    what: 'a database of another program',
    make: (file) => new Sqlite(file).exec('CREATE TABLE song (name TEXT)').close(),
    says: 'is a database of another program, not a Germane book. Check the name. Nothing was changed.',
  },
  {
    what: 'a book cut in half',
    make: (file) => {
      copyFileSync(good, file)
      truncateSync(file, Math.floor(readFileSync(good).length / 2 / 4096) * 4096)
    },
    says: 'Keep this file as it is and go on with the newest backup.',
  },
  {
    what: 'a book cut in the middle of a page',
    make: (file) => {
      copyFileSync(good, file)
      truncateSync(file, readFileSync(good).length - 1)
    },
    says: 'is cut short: it has ',
  },
  {
    what: 'a book of which only the first bytes are left',
    make: (file) => writeFileSync(file, readFileSync(good).subarray(0, 60)),
    says: 'is cut short: it has only 60 bytes. Keep this file as it is',
  },
  {
    what: 'a book whose first page is overwritten behind its head',
    make: (file) => {
      const bytes = readFileSync(good)
      bytes.fill(0xff, 100, 4096)
      writeFileSync(file, bytes)
    },
    says: 'is damaged. Keep this file as it is and go on with the newest backup.',
  },
]

describe('a file that is no whole book is refused with a sentence and not touched', () => {
  test.each(spoiled)('$what', async ({ what, make, says }) => {
    const name = `${what.replaceAll(' ', '-')}.germane`
    const file = inFolder(name)
    make(file)
    const before = contentHash(readFileSync(file))
    const attempt = openBook(file)
    await expect(attempt).rejects.toThrow(FaultError)
    await expect(attempt).rejects.toThrow(`${file}: ${says.startsWith('Keep') ? '' : says}`)
    await expect(attempt).rejects.toThrow(says)
    await expect(openBook(file, { createAt: atMinute(0) })).rejects.toThrow(says)
    expect(contentHash(readFileSync(file))).toBe(before)
    expect(readdirSync(inFolder('.')).filter((found) => found.startsWith(name))).toEqual([name])
  })

  test('a folder', async () => {
    mkdirSync(inFolder('folder.germane'))
    await expect(openBook(inFolder('folder.germane'))).rejects.toThrow(
      'folder.germane: is a folder, not a book. Name the book file inside it.',
    )
  })

  test('a name in a folder that is not there', async () => {
    await expect(openBook(inFolder('no/such.germane'))).rejects.toThrow('there is no book of this name')
    await expect(createBook(inFolder('no/such.germane'), atMinute(0))).rejects.toThrow(
      'its folder does not exist. Make the folder first, or choose another.',
    )
    await expect(createBook(`${good}/inside.germane`, atMinute(0))).rejects.toThrow('its folder does not exist')
  })
})

test('a book shorter than it says opens where its write-ahead file makes up for it', async () => {
  const file = inFolder('ahead.germane')
  copyFileSync(good, file)
  const writer = new Sqlite(file)
  writer.exec("PRAGMA wal_autocheckpoint = 0; UPDATE part SET note = 'all pages go through the write-ahead file'")
  writer.exec('CREATE TABLE filler (x)')
  writer.prepare('INSERT INTO filler VALUES (zeroblob(200000))').run()
  writer.exec('DROP TABLE filler')
  copyFileSync(`${file}-wal`, inFolder('short.germane-wal'))
  copyFileSync(file, inFolder('short.germane'))
  writer.close()
  const head = readFileSync(inFolder('short.germane'))
  head.writeUInt32BE(head.readUInt32BE(28) + 50, 28)
  writeFileSync(inFolder('short.germane'), head)
  const book = await openBook(inFolder('short.germane'))
  expect((await checkBook(book)).findings).toEqual([])
  await closeBook(book)
})

test('a book that another connection keeps writing to is refused in a sentence, after the wait', async () => {
  const file = inFolder('busy.germane')
  copyFileSync(good, file)
  const book = await openBook(file, { waitMs: 50 })
  const other = new Sqlite(file)
  other.exec('BEGIN IMMEDIATE')
  const attempt = addReading(book, { run: 1, reading: leakageReading('Q1', 5) }, atMinute(3))
  await expect(attempt).rejects.toThrow('another program is writing to it and did not finish in time')
  expect(await readings(book)).toHaveLength(2000)
  other.exec('COMMIT')
  other.close()
  await addReading(book, { run: 1, reading: leakageReading('Q1', 5) }, atMinute(3))
  expect(await readings(book)).toHaveLength(2001)
  await closeBook(book)
})

test('a backup is never made over another file, nor in a folder that is not there', async () => {
  const book = await openBook(good)
  await expect(backupBook(book, good)).rejects.toThrow('there is already a file of this name')
  await expect(backupBook(book, inFolder('no/copy.germane'))).rejects.toThrow('its folder does not exist')
  await closeBook(book)
})

test('the door is light: importing it loads neither the database nor its query builder', () => {
  const script = `
    const { build } = await import('esbuild')
    const { outputFiles } = await build({
      stdin: { contents: "import * as book from '#book'; export const names = Object.keys(book)", resolveDir: '.' },
      bundle: true, write: false, platform: 'node', format: 'esm', packages: 'external',
    })
    console.log(outputFiles[0].text.match(/^import .*$/gm).join('\\n'))`
  const { stdout } = spawnSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' })
  expect(stdout).toContain('node:fs')
  expect(stdout).not.toMatch(/better-sqlite3|kysely/)
})
