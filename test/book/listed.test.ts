import { beforeAll, describe, expect, test } from 'vitest'
import { checkWholeBook, exportBook, makeDemo, onBench, restoreBook } from '#bench'
import { ownFolder } from './folder.ts'

const at = ownFolder()

type Row = Record<string, unknown>

const now = (): string => '2024-05-12T14:00:00.000Z'

let whole = ''

beforeAll(async () => {
  const bookFile = at('demo.germane')
  await makeDemo(bookFile)
  whole = await onBench({ bookFile, now }, (bench) => exportBook(bench, 'json'))
})

/** What the check says of the demo book in which one listed number or word was changed. */
async function findings(name: string, table: string, change: (row: Row) => void): Promise<readonly string[]> {
  const book = JSON.parse(whole) as { tables: Record<string, Row[]> }
  change(book.tables[table]![0]!)
  const file = at(`${name}.germane`)
  await restoreBook(JSON.stringify(book), 'edited.json', file)
  const report = await onBench({ bookFile: file, now }, checkWholeBook)
  expect(report.ok).toBe(report.findings.length === 0)
  return report.findings.map((f) => f.say)
}

describe('what a book lists of its results is what their records hold', () => {
  test('as it is', async () => {
    expect(await findings('same', 'parameter', () => undefined)).toEqual([])
  })

  test.each([
    ['value', 'parameter', /^Parameter \d+ is listed with another number/, (row: Row) => Number(row.value) * 1.001],
    [
      'uncertainty',
      'parameter',
      /^Parameter \d+ is listed with another/,
      (row: Row) => Number(row.uncertainty) * 1.001,
    ],
    ['unit', 'parameter', /^Parameter \d+ is listed with another/, () => 'V'],
    ['symbol', 'parameter', /^Parameter \d+ is listed with another/, () => 'I_XXX'],
    ['verdict', 'verdict', /^Verdict \d+ is listed with another word/, () => 'undecided'],
    ['probability', 'verdict', /^Verdict \d+ is listed with another/, () => 0.5],
  ] as const)('a changed %s is found', async (column, table, says, changed) => {
    const found = await findings(column, table, (row) => {
      row[column] = changed(row)
    })
    expect(found).toHaveLength(1)
    expect(found[0]).toMatch(says)
  })
})
