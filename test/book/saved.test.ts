import { copyFileSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { bookOf, checkWholeBook, onBench } from '#bench'
import { exportJson, results } from '#book'
import packageJson from '#package' with { type: 'json' }
import { ownFolder } from './folder.ts'

const saved = join(import.meta.dirname, '..', 'books')
const releases = readdirSync(saved)
  .filter((name) => name.endsWith('.germane'))
  .map((name) => name.slice(0, -'.germane'.length))
const inFolder = ownFolder()
const now = (): string => '2026-05-02T09:00:00Z'

interface Export {
  readonly tables: Readonly<Record<string, readonly Readonly<Record<string, unknown>>[]>>
}

test('this release has saved its book: node test/books/make.mjs makes it', () =>
  expect(releases).toContain(packageJson.version))

describe.each(releases)('a book saved by release %s', (release) => {
  const bookFile = inFolder(`${release}.germane`)

  test('opens, passes the check, and its numbers still agree', async () => {
    copyFileSync(join(saved, `${release}.germane`), bookFile)
    await onBench({ bookFile, now }, async (bench) => {
      const report = await checkWholeBook(bench)
      expect(report.findings).toEqual([])
      expect(report.recomputed).toBe((await results(bookOf(bench))).length)
      expect(report.recomputed).toBeGreaterThan(0)
    })
  })

  test('still holds every value that its export wrote then', async () => {
    const then = JSON.parse(readFileSync(join(saved, `${release}.json`), 'utf8')) as Export
    const today = await onBench(
      { bookFile, now },
      async (bench) => JSON.parse(await exportJson(bookOf(bench))) as Export,
    )
    expect(then.tables.reading?.length).toBeGreaterThan(0)
    expect(today).toMatchObject(then.tables === undefined ? {} : { tables: then.tables })
  })
})
