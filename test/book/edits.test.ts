import { afterAll, describe, expect, test } from 'vitest'
import {
  addPart,
  addPhoto,
  addReading,
  type Book,
  closeBook,
  createBook,
  editPartsNoted,
  edits,
  finishRun,
  journal,
  part,
  partTypes,
  photoContent,
  photos,
  readings,
  removePhoto,
  results,
  saveMarkNoted,
  savePartTypesNoted,
  saveResults,
  saveTester,
  saveTesterNoted,
  setting,
  startRun,
  takeReading,
  tester,
  testers,
  undoEdit,
} from '#book'
import { ownFolder } from './folder.ts'
import { alloyType, atMinute, handTester, leakageReading, outcomesOf } from './invented.ts'

const inFolder = ownFolder()
const open: Book[] = []
afterAll(() => Promise.all(open.map(closeBook)))

async function newBook(): Promise<Book> {
  const book = await createBook(inFolder(`${open.length}.germane`), atMinute(0))
  open.push(book)
  return book
}

async function bookWithRun(): Promise<Book> {
  const book = await newBook()
  await saveTester(book, { tester: handTester }, atMinute(0))
  await startRun(book, { tester: 'bench-hand', partType: alloyType }, atMinute(1))
  return book
}

const undo = (book: Book, id?: number) => undoEdit(book, id, atMinute(30))

describe('an edit of parts', () => {
  async function drawer(): Promise<Book> {
    const book = await newBook()
    for (const tag of ['Q1', 'Q2', 'Q3']) await addPart(book, { tag, place: 'bag' }, atMinute(1))
    return book
  }

  test('of many is one, is kept in the story of each, and is undone as one', async () => {
    const book = await drawer()
    const changes = { place: 'drawer 3', status: 'good', usedIn: null } as const
    const { parts, edit } = await editPartsNoted(book, { tags: ['Q1', 'Q3', 'Q1'], changes }, atMinute(2))
    expect(parts.map(({ tag, place, status }) => [tag, place, status])).toEqual([
      ['Q1', 'drawer 3', 'good'],
      ['Q3', 'drawer 3', 'good'],
    ])
    expect((await journal(book)).map((e) => e.say)).toEqual(['Place, status of 2 parts changed.'])
    const { undone } = await undo(book)
    expect(undone).toMatchObject({ id: edit, kind: 'part' })
    expect(await part(book, 'Q3')).toMatchObject({ place: 'bag', status: 'kept' })
    expect((await edits(book, 'Q1')).map((e) => [e.field, e.new])).toEqual([
      ['place', 'drawer 3'],
      ['status', 'good'],
      ['place', 'bag'],
      ['status', 'kept'],
    ])
  })

  test('says what it did', async () => {
    const book = await drawer()
    await editPartsNoted(book, { tags: ['Q1'], changes: { usedIn: 'radio, Q4' } }, atMinute(2))
    await editPartsNoted(book, { tags: ['Q1'], changes: { usedIn: 'x'.repeat(100) } }, atMinute(3))
    expect((await journal(book)).map((e) => e.say)).toEqual([
      `Use of Q1 changed from "radio, Q4" to "${'x'.repeat(60)}…".`,
      'Use of Q1 changed from nothing to "radio, Q4".',
    ])
  })

  test('that marks a thing is undone alone, and not where it was marked anew', async () => {
    const book = await drawer()
    const mark = (of: string, word: string | null, minute: number) =>
      saveMarkNoted(book, { setting: 'marks', of, word, say: `${of}: ${word}.` }, atMinute(minute))
    const first = await mark('a', 'good', 2)
    await mark('b', 'bad', 3)
    expect(await mark('b', 'bad', 4)).toBeUndefined()
    await undo(book, first)
    expect(await setting(book, 'marks')).toEqual({ b: 'bad' })
    const again = await mark('a', 'fair', 5)
    await mark('a', null, 6)
    await expect(undo(book, again)).rejects.toThrow('The mark of a was changed again since.')
    await undo(book)
    expect(await setting(book, 'marks')).toEqual({ a: 'fair', b: 'bad' })
  })

  test('that changes nothing is none', async () => {
    const book = await drawer()
    expect(await editPartsNoted(book, { tags: ['Q1'], changes: { place: 'bag' } }, atMinute(2))).toEqual({
      parts: [await part(book, 'Q1')],
    })
    expect(await journal(book)).toEqual([])
  })

  test('of a part that is not there changes none of the others', async () => {
    const book = await drawer()
    const both = { tags: ['Q1', 'Q9'], changes: { place: 'shelf' } }
    await expect(editPartsNoted(book, both, atMinute(2))).rejects.toThrow('There is no part in the book called "Q9"')
    expect((await part(book, 'Q1')).place).toBe('bag')
  })

  test('is undone one after the other, done again, and undone again', async () => {
    const book = await drawer()
    const place = async (): Promise<string | undefined> => (await part(book, 'Q1')).place
    for (const to of ['first', 'second'])
      await editPartsNoted(book, { tags: ['Q1'], changes: { place: to } }, atMinute(2))
    const back = await undo(book)
    expect(await place()).toBe('first')
    await undo(book)
    expect(await place()).toBe('bag')
    await expect(undo(book)).rejects.toThrow('There is nothing to undo.')
    await expect(undo(book, back.edit.id)).rejects.toThrow('Place of Q1 was changed again since.')
    const [first] = await journal(book)
    await undo(book, first!.id)
    expect(await place()).toBe('first')
    await undo(book, back.edit.id)
    expect(await place()).toBe('second')
    await undo(book)
    expect(await place()).toBe('first')
    expect((await journal(book)).map((e) => [e.id, e.undoes, e.undoneBy])).toEqual([
      [7, 6, undefined],
      [6, 3, 7],
      [5, 4, undefined],
      [4, 1, 5],
      [3, 2, 6],
      [2, undefined, 3],
      [1, undefined, 4],
    ])
  })

  test('is not undone twice, nor over a later change', async () => {
    const book = await drawer()
    const { edit } = await editPartsNoted(book, { tags: ['Q1', 'Q2'], changes: { note: 'noisy' } }, atMinute(2))
    await editPartsNoted(book, { tags: ['Q2'], changes: { note: 'very noisy' } }, atMinute(3))
    await expect(undo(book, edit)).rejects.toThrow('Note of Q2 was changed again since. Undo the later change first')
    expect((await part(book, 'Q1')).note).toBe('noisy')
    await undo(book)
    await undo(book, edit)
    await expect(undo(book, edit)).rejects.toThrow('"Note of 2 parts changed." was undone already.')
    await expect(undo(book, 77)).rejects.toThrow('There is no edit in the book called "77"')
  })

  test('stays in the journal: the database itself keeps it', async () => {
    const book = await drawer()
    await editPartsNoted(book, { tags: ['Q1'], changes: { place: 'shelf' } }, atMinute(2))
    for (const sql of ["UPDATE journal SET say = ''", 'DELETE FROM journal'])
      expect(() => book.driver.exec(sql)).toThrow('edits in the journal are kept for ever')
  })
})

describe('a tester', () => {
  const louder = { ...handTester, note: 'with a louder buzzer' }

  test('whose change is undone is the old one again, as a new version', async () => {
    const book = await newBook()
    expect(await saveTesterNoted(book, { tester: handTester, description: 'a' }, atMinute(1))).toMatchObject({
      version: 1,
      isNew: true,
      edit: 1,
    })
    expect(await saveTesterNoted(book, { tester: handTester }, atMinute(2))).toEqual({ version: 1, isNew: false })
    await saveTesterNoted(book, { tester: louder, description: 'b' }, atMinute(3))
    await undo(book)
    expect(await tester(book, 'bench-hand')).toMatchObject({ tester: handTester, version: 3, description: 'a' })
    await undo(book, (await journal(book))[0]!.id)
    expect(await tester(book, 'bench-hand')).toMatchObject({ tester: louder, version: 4, description: 'b' })
  })

  test('that was added is taken out, stays for its runs, and can come back', async () => {
    const book = await newBook()
    await saveTesterNoted(book, { tester: handTester }, atMinute(1))
    await startRun(book, { tester: 'bench-hand' }, atMinute(2))
    const { edit } = await undo(book)
    expect(await testers(book)).toEqual([])
    expect((await tester(book, 'bench-hand', 1)).tester).toEqual(handTester)
    await undo(book, edit.id)
    expect((await testers(book)).map((t) => t.version)).toEqual([1])
  })

  test('that was taken out comes back when it is saved, and that can be undone', async () => {
    const book = await newBook()
    await saveTesterNoted(book, { tester: handTester }, atMinute(1))
    await undo(book)
    expect(await saveTesterNoted(book, { tester: handTester }, atMinute(2))).toMatchObject({ version: 1, isNew: true })
    expect(await testers(book)).toHaveLength(1)
    await undo(book)
    expect(await testers(book)).toEqual([])
  })
})

test('part types are saved as one edit, and undone as one', async () => {
  const book = await newBook()
  const other = { ...alloyType, type: 'GX18' }
  await savePartTypesNoted(book, [alloyType], atMinute(1))
  const changed = { ...alloyType, use: 'radio' }
  expect(await savePartTypesNoted(book, [changed, other], atMinute(2))).toEqual([
    { version: 2, isNew: true, edit: 2 },
    { version: 1, isNew: true, edit: 2 },
  ])
  expect((await journal(book)).map((e) => e.say)).toEqual(['2 part types saved.', 'Part type GX17 added.'])
  await undo(book)
  expect((await partTypes(book)).map((t) => [t.partType, t.version])).toEqual([[alloyType, 3]])
})

describe('photos', () => {
  const content = Uint8Array.from({ length: 300 }, (_, i) => i % 256)
  const given = { part: 'Q1', name: '<b>front</b>.png', type: 'image/png', content } as const

  test('are kept as they are, taken away, and put back', async () => {
    const book = await newBook()
    await addPart(book, { tag: 'Q1' }, atMinute(1))
    const { photo } = await addPhoto(book, given, atMinute(2))
    expect(await photos(book, 'Q1')).toEqual([photo])
    expect(photo).toEqual({ id: 1, part: 'Q1', name: given.name, type: 'image/png', bytes: 300, at: atMinute(2) })
    expect([...(await photoContent(book, 1)).content]).toEqual([...content])
    await removePhoto(book, 1, atMinute(3))
    expect(await photos(book, 'Q1')).toEqual([])
    await expect(photoContent(book, 1)).rejects.toThrow('There is no photo in the book called "1"')
    await expect(removePhoto(book, 1, atMinute(3))).rejects.toThrow('There is no photo in the book called "1"')
    await undo(book)
    expect(await photos(book, 'Q1')).toEqual([photo])
    await undo(book)
    expect(await photos(book, 'Q1')).toEqual([])
  })

  test('belong to a part that is there', async () => {
    const book = await newBook()
    await expect(addPhoto(book, given, atMinute(2))).rejects.toThrow('There is no part in the book called "Q1"')
    await expect(photos(book, 'Q1')).rejects.toThrow('There is no part in the book called "Q1"')
  })
})

describe('a reading sent by a page', () => {
  const sent = { client: 'page-a-1', run: 1, reading: leakageReading('Q1', 10) }

  test('is taken once, however often it comes', async () => {
    const book = await bookWithRun()
    const first = await takeReading(book, sent, atMinute(2))
    expect(first).toMatchObject({ isRepeat: false, reading: { id: 1, reading: sent.reading } })
    const later = { ...sent, reading: { ...sent.reading, at: atMinute(9) } }
    expect(await takeReading(book, later, atMinute(3))).toEqual({ isRepeat: true, reading: first.reading })
    expect(await readings(book)).toHaveLength(1)
  })

  test('comes again after its run has ended, and is known', async () => {
    const book = await bookWithRun()
    await takeReading(book, sent, atMinute(2))
    await finishRun(book, { run: 1 }, atMinute(3))
    expect(await takeReading(book, sent, atMinute(4))).toMatchObject({ isRepeat: true })
    const next = { ...sent, client: 'page-a-2', reading: leakageReading('Q2', 3) }
    await expect(takeReading(book, next, atMinute(4))).rejects.toThrow('Run 1 is finished.')
  })

  test('under a name that was used for another is refused', async () => {
    const book = await bookWithRun()
    await takeReading(book, sent, atMinute(2))
    const other = { ...sent, reading: leakageReading('Q1', 11) }
    await expect(takeReading(book, other, atMinute(3))).rejects.toThrow('was used for another reading (number 1)')
  })

  test('of the same step corrects the one before, and that is undone by a further correction', async () => {
    const book = await bookWithRun()
    await takeReading(book, sent, atMinute(2))
    const again = { ...sent, client: 'page-a-2', reading: leakageReading('Q1', 12) }
    expect(await takeReading(book, again, atMinute(3))).toMatchObject({ edit: 1, reading: { id: 2, replaces: 1 } })
    const { change } = await undo(book)
    expect(change).toEqual({ kind: 'reading', run: 1, part: 'Q1', reading: 3, replaced: 2 })
    const all = await readings(book)
    expect(all.map((r) => [r.id, r.replaces, r.reading.seen])).toEqual([
      [1, undefined, '10 div'],
      [2, 1, '12 div'],
      [3, 2, '10 div'],
    ])
    await undo(book, 2)
    expect((await readings(book, { current: true })).map((r) => r.reading.seen)).toEqual(['12 div'])
  })

  test('that was corrected again is not undone under the correction', async () => {
    const book = await bookWithRun()
    for (const [i, d] of [10, 12, 14].entries())
      await takeReading(book, { client: `page-b-${i}`, run: 1, reading: leakageReading('Q1', d) }, atMinute(2))
    await expect(undo(book, 1)).rejects.toThrow('Reading 2 was changed again since.')
  })

  test('can name the one it corrects, on another range, in an ended run, but not of another run', async () => {
    const book = await bookWithRun()
    await startRun(book, { tester: 'bench-hand' }, atMinute(1))
    await takeReading(book, sent, atMinute(2))
    await finishRun(book, { run: 1 }, atMinute(3))
    const { range: _, ...bare } = leakageReading('Q1', 12)
    const elsewhere = { client: 'page-c-1', run: 2, reading: bare, replaces: 1 }
    await expect(takeReading(book, elsewhere, atMinute(4))).rejects.toThrow(
      'There is no reading in the book called "1"',
    )
    expect(await takeReading(book, { ...elsewhere, run: 1 }, atMinute(4))).toMatchObject({ reading: { replaces: 1 } })
    const twice = { ...elsewhere, client: 'page-c-2', run: 1 }
    await expect(takeReading(book, twice, atMinute(5))).rejects.toThrow('has been corrected by reading 2 already')
  })

  test('keeps results from being saved that were computed before it came', async () => {
    const book = await bookWithRun()
    await addReading(book, { run: 1, reading: leakageReading('Q1', 10) }, atMinute(2))
    await addReading(book, { run: 1, reading: leakageReading('Q2', 10) }, atMinute(2))
    const outcomes = outcomesOf([leakageReading('Q1', 10), leakageReading('Q2', 10)])
    await takeReading(book, { ...sent, reading: leakageReading('Q1', 12) }, atMinute(3))
    const upTo = new Map([
      ['Q1', 1],
      ['Q2', 2],
    ])
    await saveResults(book, { run: 1, outcomes, upTo }, atMinute(4))
    expect((await results(book)).map((one) => one.result.part)).toEqual(['Q2'])
  })

  test('makes the results of its part stale', async () => {
    const book = await bookWithRun()
    await addReading(book, { run: 1, reading: leakageReading('Q1', 10) }, atMinute(2))
    await saveResults(book, { run: 1, outcomes: outcomesOf([leakageReading('Q1', 10)]) }, atMinute(3))
    await takeReading(book, { ...sent, reading: leakageReading('Q1', 12) }, atMinute(4))
    expect(await results(book)).toEqual([])
  })
})
