import { readdirSync, readFileSync } from 'node:fs'
import Sqlite from 'better-sqlite3'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import * as door from '#book'
import {
  addPart,
  addReading,
  addReadings,
  type Book,
  basisOf,
  closeBook,
  contentHash,
  correctReading,
  counts,
  createBook,
  editPart,
  edits,
  exportReadings,
  finishRun,
  importReadings,
  imports,
  lots,
  moveRun,
  type Outcome,
  openBook,
  type PartStatus,
  part,
  parts,
  partTypes,
  type Run,
  reading,
  readings,
  results,
  run,
  runs,
  savePartType,
  saveResults,
  saveSetting,
  saveTester,
  setting,
  startRun,
  tester,
  testers,
} from '#book'
import { ownFolder } from './folder.ts'
import { alloyType, atMinute, handTester, leakageReading, manyReadings, outcomesOf, sheet } from './invented.ts'

const inFolder = ownFolder()
let counted = 0

/** A new book for one test, closed and opened again halfway where the test asks for it. */
async function newBook(): Promise<Book> {
  return createBook(inFolder(`${++counted}.germane`), atMinute(0))
}

async function bookWithRun(): Promise<{ book: Book; open: Run }> {
  const book = await newBook()
  await saveTester(book, { tester: handTester }, atMinute(0))
  const open = await startRun(book, { tester: 'bench-hand', partType: alloyType, sheet }, atMinute(1))
  return { book, open }
}

test('the door offers these names and no others', () =>
  expect(Object.keys(door).sort()).toEqual(
    [
      'addCheckStandard',
      'addCurves',
      'addFoundRecord',
      'addJob',
      'addPart',
      'addPhoto',
      'addPosition',
      'addReading',
      'addReadings',
      'backupBook',
      'basisOf',
      'bookSummary',
      'changeKinds',
      'checkBook',
      'checkStandards',
      'closeBook',
      'contentHash',
      'correctReading',
      'counts',
      'createBook',
      'curves',
      'drawerRows',
      'drawerSince',
      'drawerVersion',
      'editJob',
      'editPart',
      'editPartsNoted',
      'editPosition',
      'edits',
      'exportJson',
      'exportReadings',
      'fillRun',
      'findText',
      'finishRun',
      'foreignWrites',
      'foundRecords',
      'importJson',
      'importReadings',
      'imports',
      'job',
      'jobs',
      'journal',
      'lots',
      'matchOffers',
      'moveRun',
      'neighbours',
      'newestParameters',
      'newestRuns',
      'oftenRead',
      'openBook',
      'openDefaults',
      'part',
      'partNumbers',
      'partStatuses',
      'partTypeVersions',
      'partTypes',
      'parts',
      'partsChosen',
      'partsInShort',
      'partsOfType',
      'photoContent',
      'photos',
      'photosOf',
      'placesOfPart',
      'reading',
      'readings',
      'recomputeTolerance',
      'releasePart',
      'removeCheckStandard',
      'removeFoundRecord',
      'removeJob',
      'removePhoto',
      'removePosition',
      'reservePart',
      'results',
      'run',
      'runHead',
      'runHeads',
      'runs',
      'saveMarkNoted',
      'savePartType',
      'savePartTypesNoted',
      'saveResults',
      'saveSetting',
      'saveTester',
      'saveTesterNoted',
      'setting',
      'startRun',
      'summaryOf',
      'takeReading',
      'tester',
      'testerVersions',
      'testers',
      'touchedSince',
      'undoEdit',
      'usablePartsByType',
      'usableStatuses',
    ].sort(),
  ))

describe('the file', () => {
  test('a new book is one file, and so is a closed one', async () => {
    const file = inFolder('one/../alone.germane')
    const book = await createBook(file, atMinute(0))
    await saveSetting(book, 'rule', { kind: 'guarded', probability: 0.95 })
    await closeBook(book)
    expect(readdirSync(inFolder('.')).filter((name) => name.startsWith('alone'))).toEqual(['alone.germane'])
  })

  test('it says what it is, and is used as the reference page says', async () => {
    const book = await newBook()
    const ask = (pragma: string): unknown => book.driver.pragma(pragma, { simple: true })
    expect(ask('application_id')).toBe(0x4765726d)
    expect(ask('user_version')).toBe(6)
    expect(ask('journal_mode')).toBe('wal')
    expect(ask('synchronous')).toBe(2)
    expect(ask('foreign_keys')).toBe(1)
    expect(ask('busy_timeout')).toBe(5000)
    expect(ask('trusted_schema')).toBe(0)
    expect(await setting(book, 'made')).toBe(atMinute(0))
    await closeBook(book)
  })

  test('every table is strict, but the indexes of words', async () => {
    const book = await newBook()
    const loose = book.driver
      .prepare("SELECT name FROM pragma_table_list WHERE schema = 'main' AND type <> 'shadow' AND strict = 0")
      .pluck()
      .all()
    expect(loose.sort()).toEqual(['part_text', 'reading_text', 'sqlite_schema'])
    await closeBook(book)
  })

  test('opening makes a book only when asked to', async () => {
    const file = inFolder('asked.germane')
    await expect(openBook(file)).rejects.toThrow('there is no book of this name')
    const book = await openBook(file, { createAt: atMinute(3) })
    expect(await setting(book, 'made')).toBe(atMinute(3))
    await closeBook(book)
    const again = await openBook(file, { createAt: atMinute(4) })
    expect(await setting(again, 'made')).toBe(atMinute(3))
    await closeBook(again)
  })

  test('a book is never made over another file', async () => {
    const book = await newBook()
    await closeBook(book)
    const before = contentHash(readFileSync(book.path))
    await expect(createBook(book.file, atMinute(9))).rejects.toThrow('there is already a file of this name')
    expect(contentHash(readFileSync(book.path))).toBe(before)
  })

  test('a time that is none is refused', async () => {
    await expect(createBook(inFolder('time.germane'), 'yesterday')).rejects.toThrow('an ISO date and time')
  })
})

describe('testers and part types', () => {
  test('a new version is made only when the tester changes', async () => {
    const book = await newBook()
    const first = await saveTester(book, { tester: handTester, description: 'id: bench-hand' }, atMinute(0))
    const same = await saveTester(book, { tester: structuredClone(handTester), description: '# note' }, atMinute(1))
    const changed = { ...handTester, note: 'new shunt' }
    const second = await saveTester(book, { tester: changed }, atMinute(2))
    expect([first, same, second]).toEqual([
      { version: 1, isNew: true },
      { version: 1, isNew: false },
      { version: 2, isNew: true },
    ])
    const newest = { tester: changed, version: 2, at: atMinute(2) }
    expect(await tester(book, 'bench-hand')).toEqual(newest)
    expect(await testers(book)).toEqual([newest])
    expect(await tester(book, 'bench-hand', 1)).toEqual({
      tester: handTester,
      version: 1,
      description: 'id: bench-hand',
      at: atMinute(0),
    })
    await closeBook(book)
  })

  test('a tester that is not there is named, with near ones', async () => {
    const book = await newBook()
    await saveTester(book, { tester: handTester }, atMinute(0))
    await expect(tester(book, 'bench-hnd')).rejects.toThrow(
      'There is no tester in the book called "bench-hnd". Near it: bench-hand.',
    )
    await expect(tester(book, 'bench-hand', 7)).rejects.toThrow('bench-hand version 7')
    await closeBook(book)
  })

  test('own part types have versions too', async () => {
    const book = await newBook()
    await savePartType(book, alloyType, atMinute(0))
    expect(await savePartType(book, alloyType, atMinute(1))).toEqual({ version: 1, isNew: false })
    const changed = { ...alloyType, use: 'audio' }
    await savePartType(book, changed, atMinute(2))
    expect(await partTypes(book)).toEqual([{ partType: changed, version: 2, at: atMinute(2) }])
    await closeBook(book)
  })

  test('a number that JSON cannot hold is refused, not lost', async () => {
    const book = await newBook()
    const broken = { ...handTester, limits: { maxCurrentA: Number.NaN, maxVoltageV: 10 } }
    await expect(saveTester(book, { tester: broken }, atMinute(0))).rejects.toThrow('maxCurrentA is NaN')
    expect(await testers(book)).toEqual([])
    await closeBook(book)
  })
})

describe('parts', () => {
  test('are added, found, changed, and what was said before is kept', async () => {
    const book = await newBook()
    await addPart(book, { tag: 'Q1', type: 'GX17', lot: 'radio', place: 'drawer 3' }, atMinute(0))
    await addPart(book, { tag: 'Q2', lot: 'radio', note: 'Leaky, 50 % more' }, atMinute(1))
    await addPart(book, { tag: 'D_1' }, atMinute(2))
    expect((await parts(book, { lot: 'radio' })).map((p) => p.tag)).toEqual(['Q1', 'Q2'])
    expect((await parts(book, { type: 'GX17', status: 'kept' })).map((p) => p.tag)).toEqual(['Q1'])
    expect((await parts(book, { search: 'LEAKY' })).map((p) => p.tag)).toEqual(['Q2'])
    expect((await parts(book, { search: '%' })).map((p) => p.tag)).toEqual(['Q2'])
    expect((await parts(book, { search: '_' })).map((p) => p.tag)).toEqual(['D_1'])

    const changed = await editPart(book, 'Q1', { place: null, status: 'used', lot: 'amplifier' }, atMinute(5))
    expect(changed).toEqual({ tag: 'Q1', type: 'GX17', lot: 'amplifier', status: 'used', at: atMinute(0) })
    expect(await part(book, 'Q1')).toEqual(changed)
    expect(await edits(book, 'Q1')).toEqual([
      { field: 'lot', old: 'radio', new: 'amplifier', at: atMinute(5) },
      { field: 'place', old: 'drawer 3', at: atMinute(5) },
      { field: 'status', old: 'kept', new: 'used', at: atMinute(5) },
    ])
    expect(await lots(book)).toEqual([
      { name: 'amplifier', parts: 1, at: atMinute(5) },
      { name: 'radio', parts: 1, at: atMinute(0) },
    ])
    await closeBook(book)
  })

  test('a tag is given once, and a missing one is named', async () => {
    const book = await newBook()
    await addPart(book, { tag: 'Q1' }, atMinute(0))
    await expect(addPart(book, { tag: 'Q1' }, atMinute(1))).rejects.toThrow('"Q1" is in the book already')
    await expect(addPart(book, { tag: ' ' }, atMinute(1))).rejects.toThrow('is no tag')
    await expect(part(book, 'Q11')).rejects.toThrow('There is no part in the book called "Q11". Near it: Q1.')
    await expect(addPart(book, { tag: 'Q2', status: 'lost' as PartStatus }, atMinute(1))).rejects.toThrow(
      '"lost" is no status of a part. Write one of: kept, good, doubtful, bad, used, given away, scrapped.',
    )
    await expect(editPart(book, 'Q1', { status: null as unknown as PartStatus }, atMinute(1))).rejects.toThrow(
      '"" is no status of a part.',
    )
    await expect(editPart(book, 'X', {}, atMinute(1))).rejects.toThrow('no part in the book called "X"')
    await closeBook(book)
  })
})

describe('runs', () => {
  test('keep tester version, part type and sheet as they were', async () => {
    const { book, open } = await bookWithRun()
    await saveTester(book, { tester: { ...handTester, note: 'later' } }, atMinute(2))
    expect(open).toEqual({
      id: 1,
      tester: 'bench-hand',
      testerVersion: 1,
      partType: alloyType,
      sheet,
      state: 'open',
      startedAt: atMinute(1),
    })
    const ended = await finishRun(book, { run: 1 }, atMinute(9))
    expect(ended).toEqual({ ...open, state: 'finished', finishedAt: atMinute(9) })
    expect(await finishRun(book, { run: 1, state: 'stopped' }, atMinute(10))).toEqual(ended)
    expect(await run(book, 1)).toEqual(ended)
    expect(await runs(book, { state: 'open' })).toEqual([])
    expect((await basisOf(book, 1)).tester).toEqual(handTester)
    await closeBook(book)
  })

  test('a run moves to another version of its tester, and its results are dropped', async () => {
    const { book } = await bookWithRun()
    await addReading(book, { run: 1, reading: leakageReading('Q1', 3) }, atMinute(2))
    const result = { part: 'Q1', state: 'short', parameters: [], doubts: [] } as const
    await saveResults(book, { run: 1, outcomes: [{ result, verdicts: [] }] }, atMinute(3))
    await saveTester(book, { tester: { ...handTester, note: 'calibrated' } }, atMinute(4))
    const moved = await moveRun(book, { run: 1, testerVersion: 2, note: 'computed anew' })
    expect(moved).toMatchObject({ testerVersion: 2, note: 'computed anew' })
    expect((await basisOf(book, 1)).tester.note).toBe('calibrated')
    expect(await results(book, { run: 1 })).toEqual([])
    expect(await readings(book, { run: 1 })).toHaveLength(1)
    await expect(moveRun(book, { run: 1, testerVersion: 9, note: '' })).rejects.toThrow('version 9')
    await expect(moveRun(book, { run: 7, testerVersion: 1, note: '' })).rejects.toThrow('no run in the book')
    await closeBook(book)
  })

  test('a run that is not there, a tester that is not there, a run that has ended', async () => {
    const { book } = await bookWithRun()
    await expect(run(book, 4)).rejects.toThrow('There is no run in the book called "4"')
    await expect(startRun(book, { tester: 'other' }, atMinute(1))).rejects.toThrow(
      'no tester in the book called "other"',
    )
    await finishRun(book, { run: 1, state: 'stopped' }, atMinute(2))
    await expect(addReading(book, { run: 1, reading: leakageReading('Q1', 3) }, atMinute(3))).rejects.toThrow(
      'Run 1 is stopped. Start a new run',
    )
    await closeBook(book)
  })
})

describe('readings', () => {
  test('come back exactly as they went in, whatever they leave out', async () => {
    const { book } = await bookWithRun()
    const amount = fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => x + 0)
    const text = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }).filter((s) => s.trim() !== '')
    const reading = fc
      .record(
        {
          part: text,
          type: text,
          reads: fc.constantFrom('short', 'I_CEO', 'h_FE'),
          shown: fc.oneof(
            amount.map((divisions) => ({ kind: 'deflection', divisions })),
            amount.map((value) => ({ kind: 'value', value, unit: 'A' })),
            fc.constantFrom('clear', 'short', 'over').map((state) => ({ kind: 'state', state })),
          ),
          seen: text,
          range: text,
          scale: text,
          point: fc.nat(),
          supplyV: amount,
          ambientC: amount,
          ambientU: amount.map(Math.abs),
          at: fc.constant(atMinute(3)),
          note: text,
        },
        { requiredKeys: ['part', 'reads', 'shown', 'seen', 'point'] },
      )
      .map((r) => r as unknown as ReturnType<typeof leakageReading>)
    await fc.assert(
      fc.asyncProperty(fc.array(reading, { minLength: 1, maxLength: 8 }), async (given) => {
        const added = await addReadings(book, { run: 1, readings: given }, atMinute(4))
        const stored = (await readings(book, { run: 1 })).slice(-given.length)
        expect(stored.map((s) => s.reading)).toEqual(given.map((r) => JSON.parse(JSON.stringify(r))))
        expect(added.map((a) => a.id)).toEqual(stored.map((s) => s.id))
      }),
      { numRuns: 60, seed: 20 },
    )
    await closeBook(book)
  })

  test('a correction takes the place of a reading, which stays', async () => {
    const { book } = await bookWithRun()
    const first = await addReading(book, { run: 1, reading: leakageReading('Q1', 31) }, atMinute(2))
    const second = await correctReading(book, { replaces: first.id, reading: leakageReading('Q1', 13) }, atMinute(3))
    await finishRun(book, { run: 1 }, atMinute(4))
    const third = await correctReading(book, { replaces: second.id, reading: leakageReading('Q2', 13) }, atMinute(5))
    expect(await readings(book)).toEqual([first, second, third])
    expect(await readings(book, { current: true })).toEqual([third])
    expect(await readings(book, { part: 'Q1', current: true })).toEqual([])
    expect(await exportReadings(book)).toEqual([leakageReading('Q2', 13)])
    expect(await reading(book, 2)).toEqual(second)
    await expect(reading(book, 9)).rejects.toThrow('no reading in the book called "9"')
    expect(await counts(book)).toMatchObject({ reading: 3, part: 2, run: 1, result: 0 })
    expect(third).toEqual({
      id: 3,
      run: 1,
      reading: leakageReading('Q2', 13),
      replaces: 2,
      enteredAt: atMinute(5),
    })
    await expect(correctReading(book, { replaces: 1, reading: leakageReading('Q1', 14) }, atMinute(6))).rejects.toThrow(
      'Reading 1 has been corrected by reading 2 already. Correct reading 2 instead.',
    )
    await expect(
      correctReading(book, { replaces: 77, reading: leakageReading('Q1', 14) }, atMinute(6)),
    ).rejects.toThrow('no reading in the book called "77"')
    await closeBook(book)
  })

  test('all that is wrong with a batch is said together, and nothing of it is kept', async () => {
    const { book } = await bookWithRun()
    const batch = [
      leakageReading('Q1', 1),
      leakageReading(' ', Number.NaN),
      leakageReading('Q3', 2, { point: 1.5, supplyV: Number.POSITIVE_INFINITY, ambientU: -1 }),
    ]
    const attempt = addReadings(book, { run: 1, readings: batch }, atMinute(2))
    await expect(attempt).rejects.toThrow(
      [
        'reading 2, part: " " is no tag. Give each part a tag of its own, such as Q17.',
        'reading 2, shown: "NaN" is not a number. Write what was seen.',
        'reading 3, point: "1.5" is not a whole number. Count the points from 1.',
        'reading 3, supply: "Infinity" is not a number. Write what was seen.',
        'reading 3, ambient uncertainty: "-1" is below 0. Give its size.',
      ].join('\n'),
    )
    expect(await readings(book)).toEqual([])
    expect(await parts(book)).toEqual([])
    await closeBook(book)
  })

  test('the database itself keeps them from change, deletion and overwriting', async () => {
    const { book } = await bookWithRun()
    await addReading(book, { run: 1, reading: leakageReading('Q1', 31) }, atMinute(2))
    await closeBook(book)
    const bare = new Sqlite(book.path)
    bare.pragma('recursive_triggers = OFF')
    expect(() => bare.exec("UPDATE reading SET seen = 'x'")).toThrow('readings are kept for ever')
    expect(() => bare.exec('DELETE FROM reading')).toThrow('readings are kept for ever')
    const overwrite = 'INSERT OR REPLACE INTO reading SELECT * FROM reading WHERE id = 1'
    expect(() => bare.exec(overwrite)).toThrow('readings are kept for ever')
    expect(() => bare.exec("UPDATE tester_version SET parsed = '{}'")).toThrow('versions of a tester are kept for ever')
    bare.close()
  })

  test('the database itself keeps a correction in its run', async () => {
    const { book } = await bookWithRun()
    await addReading(book, { run: 1, reading: leakageReading('Q1', 31) }, atMinute(2))
    await startRun(book, { tester: 'bench-hand' }, atMinute(3))
    const move = `INSERT INTO reading (run, part, reads, shown, seen, point, replaces, entered_at)
                  SELECT 2, part, reads, shown, seen, point, 1, entered_at FROM reading`
    expect(() => book.driver.exec(move)).toThrow('a correction belongs to the run')
    await closeBook(book)
  })
})

describe('imports', () => {
  test('a file becomes a finished run, and is noticed when it comes again', async () => {
    const { book } = await bookWithRun()
    const hash = contentHash('part,reads,shown\n')
    const file = { tester: 'bench-hand', readings: manyReadings(20, 4), from: 'lot.csv', hash, ambientC: 21 }
    const made = await importReadings(book, file, atMinute(5))
    expect(made).toMatchObject({ id: 2, state: 'finished', ambientC: 21, finishedAt: atMinute(5) })
    const again = importReadings(book, { ...file, from: 'copy.csv' }, atMinute(6))
    await expect(again).rejects.toThrow(
      `copy.csv was imported before as lot.csv: run 2, 20 readings, ${atMinute(5)}. Nothing was added.`,
    )
    await importReadings(book, { ...file, again: true }, atMinute(7))
    expect((await imports(book, hash)).map(({ run, rows }) => [run, rows])).toEqual([
      [2, 20],
      [3, 20],
    ])
    expect(await imports(book, 'other')).toEqual([])
    expect(await readings(book, { run: 3 })).toHaveLength(20)
    await closeBook(book)
  })

  test('the parts of a file can be put into a lot with it', async () => {
    const { book } = await bookWithRun()
    await addPart(book, { tag: 'L1', lot: 'old' }, atMinute(2))
    const file = { tester: 'bench-hand', readings: manyReadings(6, 3), from: 'lot.csv', hash: 'h', lot: 'new' }
    await importReadings(book, file, atMinute(5))
    expect((await parts(book, { lot: 'new' })).map((p) => p.tag)).toEqual(['L1', 'L2', 'L3'])
    expect(await edits(book, 'L1')).toEqual([{ field: 'lot', old: 'old', new: 'new', at: atMinute(5) }])
    await importReadings(book, { ...file, again: true }, atMinute(6))
    expect(await edits(book, 'L1')).toHaveLength(1)
    await closeBook(book)
  })

  test('a file is known by its content: SHA-256', () =>
    // FIPS 180-4 example: SHA-256 of "abc"
    expect(contentHash('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'))

  test('100,000 readings take less than five seconds of the processor', async () => {
    const { book } = await bookWithRun()
    const many = manyReadings(100_000, 2000)
    const before = process.cpuUsage()
    await importReadings(book, { tester: 'bench-hand', readings: many, from: 'big.csv', hash: 'big' }, atMinute(5))
    const { user, system } = process.cpuUsage(before)
    expect((user + system) / 1e6).toBeLessThan(5)
    expect((await readings(book, { run: 2, part: 'L2000' })).map((r) => r.reading.point)).toHaveLength(50)
    await closeBook(book)
  })
})

/** An outcome as the book keeps it: what the quantities were derived from is left to computing again. */
function withoutWorking(outcome: Outcome): Outcome {
  const parameters = outcome.result.parameters.map((parameter) => {
    const { origin, ...rest } = parameter.quantity
    expect(origin).toMatchObject({ kind: 'derived', inputs: { d: { unit: '1' } } })
    return { ...parameter, quantity: { ...rest, origin: { ...origin, inputs: {} } } }
  })
  return { verdicts: outcome.verdicts, result: { ...outcome.result, parameters } }
}

describe('results', () => {
  test('come back with their budgets, and go when a reading makes them stale', async () => {
    const { book } = await bookWithRun()
    const taken = [leakageReading('Q1', 10), leakageReading('Q1', 12, { point: 2 }), leakageReading('Q2', 40)]
    await addReadings(book, { run: 1, readings: taken }, atMinute(2))
    const outcomes = outcomesOf(taken)
    await saveResults(book, { run: 1, outcomes }, atMinute(3))
    const short = outcomes.map(withoutWorking)
    const stored = short.map((outcome) => ({ run: 1, at: atMinute(3), ...outcome }))
    expect(await results(book)).toEqual(stored)
    expect(await results(book, { part: 'Q2', run: 1 })).toEqual([stored[1]])
    await editPart(book, 'Q1', { lot: 'radio' }, atMinute(3))
    expect(await results(book, { lot: 'radio' })).toEqual([stored[0]])

    await saveResults(book, { run: 1, outcomes }, atMinute(4))
    expect(await results(book)).toEqual(short.map((outcome) => ({ run: 1, at: atMinute(4), ...outcome })))

    await correctReading(book, { replaces: 3, reading: leakageReading('Q3', 40) }, atMinute(5))
    expect((await results(book)).map((one) => one.result.part)).toEqual(['Q1'])
    await addReading(book, { run: 1, reading: leakageReading('Q1', 9, { point: 3 }) }, atMinute(6))
    expect(await results(book)).toEqual([])
    expect(book.driver.prepare('SELECT count(*) AS n FROM parameter').get()).toEqual({ n: 0 })
    await closeBook(book)
  })

  test('a result of a part or a run that is not there is refused whole', async () => {
    const { book } = await bookWithRun()
    await addReading(book, { run: 1, reading: leakageReading('Q1', 10) }, atMinute(2))
    const outcomes = outcomesOf([leakageReading('Q1', 10), leakageReading('Q9', 10)])
    await expect(saveResults(book, { run: 1, outcomes }, atMinute(3))).rejects.toThrow(
      'no part in the book called "Q9"',
    )
    await expect(saveResults(book, { run: 5, outcomes }, atMinute(3))).rejects.toThrow('no run in the book called "5"')
    expect(await results(book)).toEqual([])
    await closeBook(book)
  })
})

test('calls that overlap are taken one after the other', async () => {
  const { book } = await bookWithRun()
  const added = await Promise.all(
    Array.from({ length: 20 }, (_, i) =>
      addReading(book, { run: 1, reading: leakageReading(`Q${i}`, i) }, atMinute(2)),
    ),
  )
  expect(added.map((one) => one.id)).toEqual(Array.from({ length: 20 }, (_, i) => i + 1))
  await closeBook(book)
})

test('settings are kept and changed', async () => {
  const book = await newBook()
  await saveSetting(book, 'rule', { kind: 'simple' })
  await saveSetting(book, 'rule', { kind: 'guarded', probability: 0.95 })
  await saveSetting(book, 'nothing', null)
  expect(await setting(book, 'rule')).toEqual({ kind: 'guarded', probability: 0.95 })
  expect(await setting(book, 'nothing')).toBeNull()
  expect(await setting(book, 'never')).toBeUndefined()
  await closeBook(book)
})
