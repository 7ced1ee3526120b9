import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { closeBook, createBook, partStatuses, recomputeTolerance } from '#book'
import { ownFolder } from './folder.ts'
import { atMinute } from './invented.ts'

const page = readFileSync(join(import.meta.dirname, '..', '..', 'docs', 'reference', 'book.md'), 'utf8')
const inFolder = ownFolder()

/** Table by table, the columns that the page names. */
function documented(): Map<string, string[]> {
  const sections = page.split(/^### /m).slice(1)
  return new Map(
    sections.map((section) => {
      const rows = section.split('\n').filter((line) => line.startsWith('| `'))
      const columns = rows.flatMap((row) => [...row.split('|')[1]!.matchAll(/`(\w+)`/g)].map((found) => found[1]!))
      return [/^`(\w+)`/.exec(section)![1]!, columns]
    }),
  )
}

describe('the reference page of the book', () => {
  test('names every table and every column, and no others', async () => {
    const book = await createBook(inFolder('page.germane'), atMinute(0))
    const tables = book.driver
      .prepare(
        "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type <> 'shadow' AND name NOT LIKE 'sqlite_%'",
      )
      .pluck()
      .all() as string[]
    const found = tables.map((table) => {
      const info = book.driver.pragma(`table_info(${table})`) as { name: string }[]
      return [table, info.map((column) => column.name).sort()] as const
    })
    await closeBook(book)
    const named = [...documented()].map(([table, columns]) => [table, columns.sort()])
    expect(named.sort()).toEqual(found.sort())
  })

  test('says which tables are never changed', async () => {
    const book = await createBook(inFolder('guards.germane'), atMinute(0))
    const guarded = book.driver
      .prepare("SELECT tbl_name FROM sqlite_schema WHERE type = 'trigger' AND name LIKE '%_is_never_changed'")
      .pluck()
      .all() as string[]
    await closeBook(book)
    const said = [...page.matchAll(/^### `(\w+)` — never changed$/gm)].map((found) => found[1]!)
    expect(said.sort()).toEqual(guarded.sort())
  })

  test('gives the statuses of a part and how closely results are compared', () => {
    expect(page).toContain(partStatuses.map((status) => `\`${status}\``).join(', '))
    expect(recomputeTolerance).toBe(1e-6)
    expect(page).toContain('1 part in a million')
  })
})
