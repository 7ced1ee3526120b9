import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import Sqlite from 'better-sqlite3'
import { beforeAll, describe, expect, test } from 'vitest'
import {
  addCheckStandard,
  addCurves,
  addFoundRecord,
  addPart,
  addPhoto,
  addReadings,
  type Book,
  backupBook,
  checkBook,
  closeBook,
  correctReading,
  createBook,
  editPart,
  exportJson,
  finishRun,
  importJson,
  importReadings,
  openBook,
  type Recompute,
  readings,
  results,
  savePartType,
  saveResults,
  saveSetting,
  saveTester,
  saveTesterNoted,
  startRun,
  takeReading,
  undoEdit,
} from '#book'
import { ownFolder } from './folder.ts'
import { alloyType, atMinute, handTester, leakageReading, manyReadings, outcomesOf, sheet } from './invented.ts'

const inFolder = ownFolder()
const file = inFolder('whole.germane')
const recompute: Recompute = ({ readings }) => outcomesOf(readings)
let book: Book
let exported: string

/** A book with something in every table. */
beforeAll(async () => {
  book = await createBook(file, atMinute(0))
  await saveTester(book, { tester: handTester, description: 'id: bench-hand\n' }, atMinute(0))
  await saveTester(book, { tester: { ...handTester, note: 'after the repair' } }, atMinute(1))
  await savePartType(book, alloyType, atMinute(1))
  await saveSetting(book, 'nothing', null)
  await addPart(book, { tag: 'Q1', lot: 'radio', note: 'Größe „L“, 50 µA' }, atMinute(1))
  await editPart(book, 'Q1', { place: 'drawer 3' }, atMinute(2))
  await startRun(book, { tester: 'bench-hand', testerVersion: 1, partType: alloyType, sheet }, atMinute(3))
  await addReadings(book, { run: 1, readings: [leakageReading('Q1', 31), leakageReading('Q2', 12)] }, atMinute(4))
  await correctReading(book, { replaces: 1, reading: leakageReading('Q1', 13) }, atMinute(5))
  await takeReading(book, { client: 'page-1', run: 1, reading: leakageReading('Q2', 14) }, atMinute(5))
  await finishRun(book, { run: 1 }, atMinute(6))
  await addPhoto(
    book,
    { part: 'Q1', name: 'Q1.png', type: 'image/png', content: Uint8Array.of(0, 255, 10) },
    atMinute(6),
  )
  const points = [{ row: 2, values: { V_F: 0.3, I_F: 1e-4 }, u: {} }]
  const swept = { name: 'Q1', kind: 'diode', polarity: 'n', points, notes: ['As read.'] } as const
  await addCurves(book, [{ curve: swept, file: 'Q1.csv', hash: 'c', temperatureC: 21 }], false, atMinute(6))
  await saveTesterNoted(book, { tester: { ...handTester, id: 'lent', name: 'Lent tester' } }, atMinute(6))
  await undoEdit(book, undefined, atMinute(6))
  book.driver.exec(
    `INSERT INTO job (name, state, at) VALUES ('Intercom', 'open', '2026-05-02');
     INSERT INTO position (job, ref, decision, fitted_part, at) VALUES (1, 'TR1', 'keep', 1, '2026-05-02');
     INSERT INTO reserved (part, job, position, at) VALUES (2, 1, 1, '2026-05-02')`,
  )
  const parts = [{ part: 'shunt 10 mA', value: 12.1, u: 0.02 }]
  await addFoundRecord(book, { tester: 'bench-hand', day: '2026-05-01', note: 'opened', parts }, atMinute(6))
  await addCheckStandard(
    book,
    { tester: 'bench-hand', part: 'Q1', symbol: 'I_CEO', low: 1e-6, high: 1e-5 },
    atMinute(6),
  )
  const lot = { tester: 'bench-hand', readings: manyReadings(60, 20), from: 'lot.csv', hash: 'h', ambientU: 0.5 }
  await importReadings(book, lot, atMinute(7))
  for (const run of [1, 2]) {
    const taken = (await readings(book, { run, current: true })).map((one) => one.reading)
    await saveResults(book, { run, outcomes: outcomesOf(taken) }, atMinute(8))
  }
  exported = await exportJson(book)
  return () => closeBook(book)
})

describe('export and import', () => {
  test('a whole book comes back as it was', async () => {
    const copy = inFolder('copy.germane')
    await importJson(copy, exported)
    const again = await openBook(copy)
    expect(await exportJson(again)).toBe(exported)
    expect(await results(again)).toEqual(await results(book))
    expect(await checkBook(again, { recompute })).toEqual(await checkBook(book, { recompute }))
    await closeBook(again)
  })

  test('something of every table is in it', () => {
    const { tables } = JSON.parse(exported) as { tables: Record<string, unknown[]> }
    expect(Object.values(tables).map((rows) => rows.length > 0)).toEqual(Array(24).fill(true))
  })

  const wrong: readonly [string, (whole: Whole) => unknown, string][] = [
    ['no JSON', () => '{"format"', 'lot.json: is not JSON'],
    ['a list', () => [], 'lot.json: is not an export of a book'],
    ['another format', (w) => ({ ...w, format: 'x' }), 'lot.json, format: "x" is not "germane/book/1"'],
    [
      'a newer version',
      (w) => ({ ...w, version: 99 }),
      'lot.json, version: "99" is newer than 6, which this Germane knows',
    ],
    ['no version', (w) => ({ ...w, version: 'one' }), 'version: "one" is no book version'],
    ['no tables', (w) => ({ ...w, tables: 3 }), 'tables: "3" is not a set of tables'],
    [
      'tables that are none, all said together',
      (w) => ({ ...w, tables: { ...w.tables, song: [], part: 'none' } }),
      'tables.part: "string" is not a list of rows. Write [] for none.\nlot.json, tables.song: "song" is not a table',
    ],
    [
      'rows that break a rule, all said together',
      (w) => {
        const lot = [...w.tables.lot!, { id: 7, name: '', at: atMinute(0) }, { id: 8, colour: 'red' }]
        return { ...w, tables: { ...w.tables, lot } }
      },
      'is refused by the book: CHECK constraint failed: name <> \'\'. Mend this row.\nlot.json, tables.lot[2]: "colour"',
    ],
    [
      'a value no column can hold',
      (w) => ({ ...w, tables: { ...w.tables, lot: [{ id: 1, name: ['radio'], at: atMinute(0) }] } }),
      'tables.lot[0]',
    ],
    ['rows that point nowhere', (w) => ({ ...w, tables: { ...w.tables, part: [] } }), 'tables.edit[0]'],
    ['a reading replaced twice', (w) => ({ ...w, tables: twice(w) }), 'UNIQUE constraint failed: reading.replaces'],
  ]

  test.each(wrong)('%s is refused, and no book is made', async (_, spoil, says) => {
    const spoiled = spoil(JSON.parse(exported) as Whole)
    const text = typeof spoiled === 'string' ? spoiled : JSON.stringify(spoiled)
    await expect(importJson(inFolder('none.germane'), text, 'lot.json')).rejects.toThrow(says)
    expect(readdirSync(inFolder('.')).filter((name) => name.startsWith('none'))).toEqual([])
  })

  test('an import never goes over another file', async () => {
    const taken = inFolder('taken.germane')
    writeFileSync(taken, 'mine')
    await expect(importJson(taken, exported)).rejects.toThrow('there is already a file of this name')
    expect(readFileSync(taken, 'utf8')).toBe('mine')
  })
})

interface Whole {
  readonly version: number
  readonly tables: Readonly<Record<string, readonly Record<string, unknown>[]>>
}

function twice({ tables }: Whole): Whole['tables'] {
  const correction = tables.reading!.find((row) => row.replaces !== null)
  return { ...tables, reading: [...tables.reading!, { ...correction, id: 999 }] }
}

describe('backup', () => {
  test('is a whole book, made while the book is open', async () => {
    const made = await backupBook(book, inFolder('backup.germane'))
    expect(made.counts).toMatchObject({ reading: 64, part: 22, tester_version: 3 })
    expect(made.bytes).toBe(readFileSync(made.file).length)
    const copy = await openBook(made.file)
    expect(await exportJson(copy)).toBe(exported)
    expect((await checkBook(copy, { recompute })).findings).toEqual([])
    await closeBook(copy)
    expect(readdirSync(inFolder('.')).filter((name) => name.includes('.new'))).toEqual([])
  })

  test('waits for its turn among other calls', async () => {
    const [made, all] = await Promise.all([backupBook(book, inFolder('turn.germane')), readings(book)])
    expect(made.counts.reading).toBe(all.length)
  })
})

describe('check', () => {
  /** A copy of the book with something done to it behind its back. */
  async function tamperedCopy(name: string, sql: string): Promise<Book> {
    const copy = inFolder(name)
    await importJson(copy, exported)
    const bare = new Sqlite(copy)
    bare.pragma('foreign_keys = OFF')
    bare.exec(sql)
    bare.close()
    return openBook(copy)
  }

  async function findingsAfter(name: string, sql: string): Promise<string[]> {
    const copy = await tamperedCopy(name, sql)
    const report = await checkBook(copy, { recompute })
    await closeBook(copy)
    expect(report.ok).toBe(false)
    return report.findings.map((finding) => `${finding.about}: ${finding.say}`)
  }

  test('finds nothing wrong with a good book, and says what it looked at', async () => {
    const report = await checkBook(book, { recompute })
    expect(report).toMatchObject({ ok: true, findings: [], recomputed: 22, counts: { reading: 64, run: 2 } })
  })

  test('finds a guard that is missing or altered', async () => {
    expect(await findingsAfter('guard.germane', 'DROP TRIGGER reading_is_never_changed')).toEqual([
      "structure: reading is never changed: this part of the book's structure is missing.",
    ])
    expect(
      await findingsAfter('index.germane', 'DROP INDEX part_of_lot; CREATE INDEX part_of_lot ON part (tag)'),
    ).toEqual(["structure: part of lot: this part of the book's structure has been altered."])
  })

  test('finds rows that point nowhere', async () => {
    expect(await findingsAfter('link.germane', 'UPDATE part SET lot = 55 WHERE id = 1')).toEqual([
      'link: Row 1 of part points to a row of lot that is not there.',
    ])
  })

  test('finds records that do not agree with each other', async () => {
    expect(await findingsAfter('run.germane', "UPDATE run SET state = 'open' WHERE id = 2")).toEqual([
      'record: Run 2 does not know whether it has ended.',
    ])
    const insert = `INSERT INTO reading (run, part, reads, shown, seen, point, entered_at)
                    SELECT 2, 1, reads, shown, seen, 9, entered_at FROM reading WHERE id = 1`
    expect(await findingsAfter('import.germane', insert)).toEqual([
      'record: Import 1 does not have as many readings as its file.',
    ])
    expect(await findingsAfter('job.germane', 'UPDATE job SET removed = 1')).toEqual([
      'record: Part 2 is reserved for a job that was taken away, or a position of another job.',
    ])
    expect(await findingsAfter('found.germane', `UPDATE found SET parts = '[{"part":"coil"}]'`)).toEqual([
      'record: Record 1 of a tester as found holds a part that is none.',
    ])
    const second = "INSERT INTO position (job, ref, decision, fitted_part, at) VALUES (1, 'TR2', 'keep', 1, '')"
    expect(await findingsAfter('fitted.germane', second)).toEqual(['record: Part 1 is fitted in two positions.'])
  })

  test('finds a result that is not what its readings give', async () => {
    const sql = `UPDATE parameter SET record = json_set(record, '$.quantity.value', 1e-3) WHERE id = 1;
                 UPDATE verdict SET record = json_set(record, '$.verdict', 'undecided') WHERE id = 2;
                 UPDATE result SET state = 'short' WHERE run = 2 AND part = 3;
                 DELETE FROM parameter WHERE id = (SELECT max(id) FROM parameter)`
    const all = await findingsAfter('result.germane', sql)
    const findings = all.filter((f) => f.startsWith('result: '))
    expect(findings).toHaveLength(4)
    expect(all.filter((f) => !findings.includes(f))).toEqual([
      'record: Parameter 1 is listed with another number than its record holds.',
      'record: Verdict 2 is listed with another word than its record holds.',
    ])
    expect(findings[0]).toMatch(
      /^result: Run 1, part Q1: parameter I_CEO is stored as 0\.001 A .* computed again it is/,
    )
    expect(findings[1]).toMatch(/^result: Run 1, part Q2: verdict I_CEO is stored as undecided/)
    expect(findings[2]).toBe('result: Run 2, part L1: stored as short, computed again as measured.')
    expect(findings[3]).toBe('result: Run 2, part L20: 2 parameters are stored, computing again gives 3.')
  })

  test('finds a page that was written over', async () => {
    const copy = inFolder('page.germane')
    await importJson(copy, exported)
    const bytes = readFileSync(copy)
    const page = new Sqlite(copy, { readonly: true })
    const [{ pageno }] = page.prepare("SELECT pageno FROM dbstat WHERE name = 'reading_of_run'").all() as [
      { pageno: number },
    ]
    page.close()
    bytes.fill(0x5a, (pageno - 1) * 4096 + 8, pageno * 4096)
    writeFileSync(copy, bytes)
    const broken = await openBook(copy)
    const report = await checkBook(broken)
    expect(report.ok).toBe(false)
    expect(report.findings[0]?.about).toBe('file')
    await closeBook(broken)
  })
})
