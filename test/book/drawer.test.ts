import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import {
  addPart,
  addPhoto,
  addReadings,
  type Book,
  bookSummary,
  checkBook,
  closeBook,
  createBook,
  drawerRows,
  drawerSince,
  drawerVersion,
  editPart,
  findText,
  finishRun,
  foreignWrites,
  neighbours,
  openBook,
  partNumbers,
  partTypeVersions,
  removePhoto,
  runHead,
  runHeads,
  savePartType,
  saveResults,
  saveTester,
  startRun,
  summaryOf,
  testerVersions,
  touchedSince,
} from '#book'
import type { Parameter } from '#core/reduce'
import { ownFolder } from './folder.ts'
import { alloyType, atMinute, handTester, leakageReading, outcomesOf, sheet } from './invented.ts'

const inFolder = ownFolder()
const open: Book[] = []
afterAll(() => Promise.all(open.map(closeBook)))

async function bookWithRuns(runs = 2): Promise<Book> {
  const book = await createBook(inFolder(`${open.length}.germane`), atMinute(0))
  open.push(book)
  await saveTester(book, { tester: handTester }, atMinute(0))
  for (let i = 0; i < runs; i++) await startRun(book, { tester: 'bench-hand', partType: alloyType, sheet }, atMinute(1))
  return book
}

/** Reads a part and keeps its results. */
async function measure(book: Book, run: number, tag: string, divisions: number): Promise<void> {
  const taken = [leakageReading(tag, divisions)]
  await addReadings(book, { run, readings: taken }, atMinute(2))
  await saveResults(book, { run, outcomes: outcomesOf(taken) }, atMinute(3))
}

const rows = (book: Book) => drawerRows(book, 0, Number.MAX_SAFE_INTEGER)

describe('a result in short', () => {
  const [outcome] = outcomesOf([leakageReading('Q1', 10)])

  test('has the first measured value of each symbol, with few digits, and the one at 25 degC beside it', () => {
    const [first] = outcome!.result.parameters
    const warm = { ...first!, standing: 'brought to 25 C', quantity: { ...first!.quantity, value: 2.34567891e-4 } }
    const other = { ...first!, quantity: { ...first!.quantity, value: 1 } }
    const heat = { ...first!, symbol: 'T_J' }
    const parameters = [first!, other, heat, warm] as Parameter[]
    expect(summaryOf({ ...outcome!.result, parameters }, outcome!.verdicts)).toEqual({
      state: 'measured',
      word: 'conforms',
      figures: { I_CEO: ['A', 2e-4, 1.47e-5, 2.3457e-4] },
    })
  })

  test('of a shorted part does not conform; of one that was not judged says nothing', () => {
    const result = { ...outcome!.result, parameters: [] }
    expect(summaryOf({ ...result, state: 'short' }, [])).toEqual({
      state: 'short',
      word: 'does not conform',
      figures: {},
    })
    expect(summaryOf(result, [])).toEqual({ state: 'measured', figures: {} })
  })
})

const nothing = {
  type: null,
  lot: null,
  place: null,
  status: 'kept',
  usedIn: null,
  hasNote: 0,
  reserved: null,
  photos: 0,
  run: null,
  state: null,
  word: null,
}

describe('the drawer', () => {
  test('shows every part in the order in which it came, with its newest results', async () => {
    const book = await bookWithRuns()
    await addPart(book, { tag: 'Q9', lot: 'radio', note: 'hums', usedIn: 'radio, Q2', status: 'used' }, atMinute(1))
    await measure(book, 1, 'Q1', 10)
    await measure(book, 2, 'Q1', 30)
    await measure(book, 1, 'Q2', 12)
    expect(await rows(book)).toEqual([
      {
        ...nothing,
        id: 1,
        tag: 'Q9',
        lot: 'radio',
        status: 'used',
        usedIn: 'radio, Q2',
        hasNote: 1,
        figures: null,
      },
      {
        ...nothing,
        id: 2,
        tag: 'Q1',
        type: 'GX17',
        run: 2,
        state: 'measured',
        word: 'does not conform',
        figures: { I_CEO: ['A', 6e-4, 1.47e-5, null] },
      },
      {
        ...nothing,
        id: 3,
        tag: 'Q2',
        type: 'GX17',
        run: 1,
        state: 'measured',
        word: 'conforms',
        figures: { I_CEO: ['A', 2.4e-4, 1.47e-5, null] },
      },
    ])
    expect(await partNumbers(book)).toEqual([1, 2, 3])
    expect(await neighbours(book, 'Q1')).toEqual({ before: 'Q9', after: 'Q2' })
    expect(await neighbours(book, 'Q9')).toEqual({ after: 'Q1' })
  })

  test('results of an older run, computed again, do not go over those of a newer one', async () => {
    const book = await bookWithRuns()
    await measure(book, 2, 'Q1', 30)
    await measure(book, 1, 'Q1', 10)
    expect((await rows(book)).map((row) => row.run)).toEqual([2])
    expect((await checkBook(book)).findings).toEqual([])
  })

  test('a new reading makes the newest results go, one of another run does not', async () => {
    const book = await bookWithRuns()
    await measure(book, 1, 'Q1', 30)
    await addReadings(book, { run: 2, readings: [leakageReading('Q1', 3)] }, atMinute(4))
    expect((await rows(book)).map((row) => row.run)).toEqual([1])
    await addReadings(book, { run: 1, readings: [leakageReading('Q1', 3, { point: 2 })] }, atMinute(4))
    expect((await rows(book)).map((row) => row.run)).toEqual([null])
  })

  test('says what changed since a version, each part once', async () => {
    const book = await bookWithRuns()
    await measure(book, 1, 'Q1', 10)
    await measure(book, 1, 'Q2', 10)
    const version = await drawerVersion(book)
    expect(await drawerSince(book, version)).toEqual({ version, count: 2, rows: [], places: [] })
    await editPart(book, 'Q2', { place: 'shelf' }, atMinute(4))
    await editPart(book, 'Q2', { place: 'bag' }, atMinute(5))
    const { photo } = await addPhoto(book, photoOf('Q1'), atMinute(5))
    const since = await drawerSince(book, version)
    expect(since.rows.map((row) => [row.tag, row.place, row.photos])).toEqual([
      ['Q1', null, 1],
      ['Q2', 'bag', 0],
    ])
    expect(since.version).toBeGreaterThan(version)
    expect([since.count, since.places]).toEqual([2, [0, 1]])
    expect(await touchedSince(book, version)).toEqual({ version: since.version, parts: [1, 2] })
    await removePhoto(book, photo.id, atMinute(6))
    expect((await drawerSince(book, since.version)).rows.map((row) => [row.tag, row.photos])).toEqual([['Q1', 0]])
    expect((await drawerSince(book, 0)).rows).toHaveLength(2)
  })

  test('knows where a part stands also where parts are not counted without a gap', async () => {
    const book = await bookWithRuns(0)
    for (const id of [3, 7, 20])
      book.driver
        .prepare("INSERT INTO part (id, tag, status, at) VALUES (?, ?, 'kept', ?)")
        .run(id, `Q${id}`, atMinute(1))
    const version = await drawerVersion(book)
    await editPart(book, 'Q7', { place: 'shelf' }, atMinute(2))
    expect((await drawerSince(book, 0)).places).toEqual([0, 1, 2])
    expect(await drawerSince(book, version)).toMatchObject({ count: 3, places: [1], rows: [{ tag: 'Q7' }] })
  })

  test('an older book gets its newest results when it is brought up to date', async () => {
    const book = await bookWithRuns()
    await measure(book, 1, 'Q1', 10)
    await measure(book, 2, 'Q1', 30)
    await measure(book, 1, 'Q2', 12)
    const before = await rows(book)
    const { drawerAndSearch } = await import('../../src/book/migrations/drawer-and-search.ts')
    const filling = /INSERT INTO newest[\s\S]*?;\n/.exec(drawerAndSearch.sql)![0]
    book.driver.exec(`DELETE FROM newest; ${filling}`)
    const after = await rows(book)
    const round = (row: (typeof after)[number]) => ({
      ...row,
      figures: Object.fromEntries(
        Object.entries(row.figures ?? {}).map(([symbol, [unit, value, u, at25]]) => [
          symbol,
          [unit, Number(value.toPrecision(5)), Number(u.toPrecision(3)), at25],
        ]),
      ),
    })
    expect(after.map(round)).toEqual(before)
  })

  test('a write of another program is noticed, an own one is not', async () => {
    const book = await bookWithRuns()
    const before = foreignWrites(book)
    await addPart(book, { tag: 'Q1' }, atMinute(1))
    expect(foreignWrites(book)).toBe(before)
    const other = await openBook(book.file)
    await addPart(other, { tag: 'Q2' }, atMinute(1))
    await closeBook(other)
    expect(foreignWrites(book)).not.toBe(before)
  })
})

const photoOf = (part: string) => ({ part, name: 'x.png', type: 'image/png', content: Uint8Array.of(1, 2, 3) }) as const

describe('the search', () => {
  let book: Book
  beforeAll(async () => {
    book = await bookWithRuns()
    await addPart(
      book,
      { tag: 'OP-4', type: '2N1305', lot: 'Orrin Point', note: 'runs warm; 50 % of Größe' },
      atMinute(1),
    )
    await addPart(book, { tag: 'OP-40', type: '2N1305', place: 'drawer 3' }, atMinute(1))
    await addPart(book, { tag: 'K1', type: 'BC107', place: "O'Hara's drawer", note: 'like OP-4' }, atMinute(1))
    const noted = leakageReading('K1', 3, { note: 'needle creeps up' })
    await addReadings(book, { run: 1, readings: [noted, leakageReading('K1', 4)] }, atMinute(2))
  })

  const tags = async (query: string, limit = 10): Promise<string[]> =>
    (await findText(book, query, limit)).parts.map((one) => one.tag)

  test.each([
    ['op-4', ['OP-4', 'OP-40', 'K1']],
    ['OP', ['OP-4', 'OP-40', 'K1']],
    ['1305', ['OP-4', 'OP-40']],
    ['drawer', ['OP-40', 'K1']],
    ['3 drawer', ['OP-40']],
    ['orrin warm', ['OP-4']],
    ["o'hara", ['K1']],
    ['größe', ['OP-4']],
    ['50 %', ['OP-4']],
    ['k', ['K1']],
    ['"creeps"', []],
    ['no such thing', []],
    ['*', []],
    ['tag:OP', []],
    ['NEAR(warm runs)', []],
    ['\u0000', []],
    ['  ', []],
  ])('%j finds %j', async (query, found) => expect(await tags(query)).toEqual(found))

  test('gives at most so many', async () => expect(await tags('o', 2)).toEqual(['OP-4', 'OP-40']))

  test('finds the notes of readings that count', async () => {
    const found = { part: 'K1', run: 1, note: 'needle creeps up' }
    expect((await findText(book, 'creeps needle', 5)).notes).toEqual([found])
    expect((await findText(book, 'up', 5)).notes).toEqual([found])
  })

  test('knows a change at once', async () => {
    await editPart(book, 'K1', { note: 'was like a lamp' }, atMinute(4))
    expect(await tags('lamp')).toEqual(['K1'])
    expect(await tags('like op-4')).toEqual([])
    expect((await checkBook(book)).findings).toEqual([])
  })
})

describe('lists', () => {
  test('of runs have what they are and how far', async () => {
    const book = await bookWithRuns()
    await addReadings(book, { run: 2, readings: [leakageReading('Q1', 3), leakageReading('Q2', 3)] }, atMinute(2))
    await finishRun(book, { run: 1 }, atMinute(5))
    const head = {
      id: 2,
      tester: 'bench-hand',
      testerName: handTester.name,
      testerVersion: 1,
      type: 'GX17',
      title: sheet.title,
      state: 'open',
      startedAt: atMinute(1),
      parts: 2,
      readings: 2,
      lastPart: 'Q2',
    }
    expect(await runHead(book, 2)).toEqual(head)
    expect((await runHeads(book)).map((run) => run.id)).toEqual([2, 1])
    expect(await runHeads(book, { state: 'open' })).toEqual([head])
    expect(await runHeads(book, { part: 'Q1' })).toEqual([head])
    expect(await runHeads(book, { part: 'Q7' })).toEqual([])
    expect(await runHeads(book, { limit: 1 })).toEqual([head])
    await expect(runHead(book, 9)).rejects.toThrow('There is no run in the book called "9"')
  })

  test('of versions, and the book in short', async () => {
    const book = await bookWithRuns()
    await saveTester(book, { tester: { ...handTester, note: 'cleaned' } }, atMinute(2))
    await savePartType(book, alloyType, atMinute(2))
    expect(await testerVersions(book, 'bench-hand')).toEqual([
      { version: 2, at: atMinute(2), runs: 0 },
      { version: 1, at: atMinute(0), runs: 2 },
    ])
    expect(await partTypeVersions(book, 'GX17')).toEqual([{ version: 1, at: atMinute(2) }])
    await measure(book, 1, 'Q1', 3)
    await addPhoto(book, photoOf('Q1'), atMinute(3))
    expect(await bookSummary(book)).toEqual({
      parts: 1,
      runs: 2,
      openRuns: 2,
      readings: 1,
      testers: 1,
      ownTypes: 1,
      photos: 1,
      version: 3,
      structure: 6,
      madeAt: atMinute(0),
    })
  })
})
