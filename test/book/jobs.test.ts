import { afterAll, describe, expect, test } from 'vitest'
import {
  addJob,
  addPart,
  addPhoto,
  addPosition,
  type Book,
  checkBook,
  closeBook,
  createBook,
  drawerSince,
  editJob,
  editPartsNoted,
  editPosition,
  exportJson,
  findText,
  importJson,
  job,
  jobs,
  journal,
  openBook,
  part,
  photosOf,
  placesOfPart,
  releasePart,
  removeJob,
  removePhoto,
  removePosition,
  reservePart,
  undoEdit,
} from '#book'
import type { JobPosition, NewJob } from '#core/job'
import { ownFolder } from './folder.ts'
import { atMinute } from './invented.ts'

const inFolder = ownFolder()
const open: Book[] = []
afterAll(() => Promise.all(open.map(closeBook)))

const position = (ref: string, more: Partial<JobPosition> = {}): JobPosition => ({
  ref,
  decision: 'undecided',
  done: false,
  reserved: [],
  ...more,
})

const intercom: NewJob = {
  name: 'Intercom',
  equipment: 'two stations',
  power: 'battery',
  state: 'open',
  begunOn: '2026-05-02',
  reserved: ['S-2'],
  positions: [
    position('TR1', { type: 'OC71', role: 'microphone', foundPart: 'F-1' }),
    position('TR2', { found: 'one lead broken', decision: 'replace', reserved: ['S-1'] }),
    position('TR3'),
  ],
}

async function withIntercom(): Promise<Book> {
  const book = await createBook(inFolder(`${open.length}.germane`), atMinute(0))
  open.push(book)
  for (const tag of ['F-1', 'S-1', 'S-2', 'S-3']) await addPart(book, { tag }, atMinute(0))
  await addJob(book, intercom, atMinute(1))
  return book
}

const undo = (book: Book, id?: number) => undoEdit(book, id, atMinute(30))
const says = async (book: Book): Promise<string[]> => (await journal(book)).map((e) => e.say)
const refOf = async (book: Book, ref: string) => (await job(book, 'Intercom')).positions.find((p) => p.ref === ref)

describe('a job', () => {
  test('comes back as it went in, by number and by name', async () => {
    const book = await withIntercom()
    const kept = await job(book, 'Intercom')
    expect(kept).toEqual({ ...intercom, id: 1, at: atMinute(1) })
    expect(await job(book, 1)).toEqual(kept)
    expect(await jobs(book)).toEqual([kept])
    expect(await says(book)).toEqual(['Job Intercom added.'])
    await expect(job(book, 'Intercm')).rejects.toThrow(
      'There is no job in the book called "Intercm". Near it: Intercom.',
    )
  })

  test('is added whole or not at all', async () => {
    const book = await withIntercom()
    const other = (more: Partial<NewJob>) =>
      addJob(book, { ...intercom, name: 'Radio', reserved: [], ...more }, atMinute(2))
    await expect(other({ name: 'Intercom' })).rejects.toThrow('job: "Intercom" is the name of a job already.')
    await expect(other({ positions: [position('TR1', { foundPart: 'F-9' })] })).rejects.toThrow(
      'There is no part in the book called "F-9"',
    )
    await expect(other({ positions: [position('TR1', { reserved: ['S-1'] })] })).rejects.toThrow(
      'S-1 is reserved for Intercom, TR2 already. Release it there first, or take another part.',
    )
    expect((await jobs(book)).map((one) => one.name)).toEqual(['Intercom'])
    expect(await says(book)).toHaveLength(1)
  })

  test('that was added is taken away by undoing, and comes back by undoing that', async () => {
    const book = await withIntercom()
    const before = await job(book, 1)
    const { edit } = await undo(book)
    expect(await jobs(book)).toEqual([])
    expect(await placesOfPart(book, 'S-1')).toEqual([])
    // its name is free meanwhile, and taken when it is to come back
    const second = await addJob(book, { ...intercom, positions: [], reserved: [] }, atMinute(3))
    await expect(undo(book, edit.id)).rejects.toThrow('Job Intercom was changed again since.')
    await removeJob(book, second.job.id, atMinute(4))
    await undo(book, edit.id)
    expect(await jobs(book)).toEqual([before])
    expect((await checkBook(book)).findings).toEqual([])
  })

  test('changes, and each change is undone; one that is done gets its date', async () => {
    const book = await withIntercom()
    await editJob(book, 1, { note: 'crackles', equipment: null }, atMinute(2))
    await editJob(book, 1, { state: 'done' }, '2026-06-01T10:00:00Z')
    expect(await job(book, 1)).toMatchObject({ note: 'crackles', state: 'done', finishedOn: '2026-06-01' })
    await editJob(book, 1, { state: 'open' }, atMinute(3))
    expect((await job(book, 1)).finishedOn).toBeUndefined()
    expect(await editJob(book, 1, { state: 'open' }, atMinute(3))).toEqual({ job: await job(book, 1), parts: [] })
    expect((await says(book)).slice(0, 3)).toEqual([
      'Job Intercom: state, finished changed.',
      'Job Intercom: state, finished changed.',
      'Job Intercom: equipment, note changed.',
    ])
    for (let i = 0; i < 3; i++) await undo(book)
    expect(await job(book, 1)).toEqual({ ...intercom, id: 1, at: atMinute(1) })
  })

  test('that is taken away lets its parts go', async () => {
    const book = await withIntercom()
    const { parts } = await removeJob(book, 1, atMinute(2))
    expect(parts).toEqual(['S-1', 'S-2'])
    await expect(job(book, 1)).rejects.toThrow('There is no job in the book called "1"')
    await addJob(book, { ...intercom, positions: [] }, atMinute(3))
    await expect(undo(book, 2)).rejects.toThrow('Job Intercom was changed again since.')
  })
})

describe('a position', () => {
  test('is added, changed, renamed, taken out; and all of it is undone', async () => {
    const book = await withIntercom()
    const before = await job(book, 1)
    await addPosition(book, { job: 1, position: position('D1', { done: true, fitted: 'a new one' }) }, atMinute(2))
    expect(await refOf(book, 'D1')).toMatchObject({ decision: 'replace', done: true })
    await editPosition(book, { job: 1, ref: 'TR3' }, { decision: 'keep', note: 'fine' }, atMinute(2))
    await editPosition(book, { job: 1, ref: 'TR3' }, { ref: 'TR4', decision: 'undecided', done: true }, atMinute(2))
    expect(await refOf(book, 'TR4')).toMatchObject({ decision: 'keep', done: true, note: 'fine' })
    await editPosition(book, { job: 1, ref: 'TR4' }, { done: false }, atMinute(2))
    await removePosition(book, { job: 1, ref: 'TR2' }, atMinute(2))
    expect(await placesOfPart(book, 'S-1')).toEqual([])
    expect((await says(book)).slice(0, 5)).toEqual([
      'TR2 taken out of Intercom.',
      'TR4 of Intercom: done changed from yes to no.',
      'TR3 of Intercom: ref, done changed.',
      'TR3 of Intercom: decision, note changed.',
      'D1 added to Intercom.',
    ])
    for (let i = 0; i < 5; i++) await undo(book)
    expect(await job(book, 1)).toEqual(before)
  })

  test('has a name of its own', async () => {
    const book = await withIntercom()
    const problem = 'ref: "TR1" is a position of Intercom already. Give it another name.'
    await expect(addPosition(book, { job: 1, position: position('TR1') }, atMinute(2))).rejects.toThrow(problem)
    await expect(editPosition(book, { job: 1, ref: 'TR3' }, { ref: 'TR1' }, atMinute(2))).rejects.toThrow(problem)
    await expect(editPosition(book, { job: 1, ref: 'TR9' }, { note: 'x' }, atMinute(2))).rejects.toThrow(
      'There is no position of Intercom called "TR9". Near it: TR1, TR2, TR3.',
    )
  })

  test('is not undone over a later change of it', async () => {
    const book = await withIntercom()
    const { edit } = await editPosition(book, { job: 1, ref: 'TR3' }, { note: 'a' }, atMinute(2))
    await editPosition(book, { job: 1, ref: 'TR3' }, { note: 'b' }, atMinute(2))
    await expect(undo(book, edit)).rejects.toThrow('Job Intercom was changed again since. Undo the later change first')
    await editPosition(book, { job: 1, ref: 'TR1' }, { note: 'elsewhere' }, atMinute(2))
    await undo(book, 3)
    expect((await refOf(book, 'TR3'))?.note).toBe('a')
  })

  test('of which a part is fitted makes it used, and gives the old one back', async () => {
    const book = await withIntercom()
    const put = (ref: string, tag: string | null) =>
      editPosition(book, { job: 1, ref }, { fittedPart: tag }, atMinute(2))
    expect((await put('TR2', 'S-1')).parts).toEqual(['S-1'])
    expect(await part(book, 'S-1')).toMatchObject({ status: 'used', usedIn: 'Intercom, TR2' })
    expect(await refOf(book, 'TR2')).toMatchObject({ fittedPart: 'S-1', reserved: [] })
    await expect(put('TR3', 'S-1')).rejects.toThrow('S-1 is fitted in Intercom, TR2 already. Take it out there first')
    await put('TR2', 'S-3')
    expect(await part(book, 'S-1')).toMatchObject({ status: 'kept' })
    expect((await part(book, 'S-1')).usedIn).toBeUndefined()
    await undo(book)
    await undo(book)
    expect(await part(book, 'S-1')).toMatchObject({ status: 'kept' })
    expect(await refOf(book, 'TR2')).toMatchObject({ reserved: ['S-1'] })
  })

  test('and a job that are renamed take the words of their fitted part along', async () => {
    const book = await withIntercom()
    await editPosition(book, { job: 1, ref: 'TR2' }, { fittedPart: 'S-1' }, atMinute(2))
    await editJob(book, 1, { name: 'Hut' }, atMinute(2))
    await editPosition(book, { job: 1, ref: 'TR2' }, { ref: 'Q2' }, atMinute(2))
    expect((await part(book, 'S-1')).usedIn).toBe('Hut, Q2')
    await editPartsNoted(book, { tags: ['S-1'], changes: { usedIn: 'elsewhere' } }, atMinute(3))
    await editJob(book, 1, { name: 'Intercom' }, atMinute(3))
    expect((await part(book, 'S-1')).usedIn).toBe('elsewhere')
  })
})

describe('a part put aside', () => {
  test('is put aside once, moves within its job, and is released', async () => {
    const book = await withIntercom()
    await addJob(book, { ...intercom, name: 'Radio', positions: [position('T1')], reserved: [] }, atMinute(2))
    await expect(reservePart(book, { job: 'Radio', tag: 'S-1', ref: 'T1' }, atMinute(2))).rejects.toThrow(
      'S-1 is reserved for Intercom, TR2 already.',
    )
    await reservePart(book, { job: 1, tag: 'S-1', ref: 'TR3' }, atMinute(2))
    expect([(await refOf(book, 'TR2'))?.reserved, (await refOf(book, 'TR3'))?.reserved]).toEqual([[], ['S-1']])
    expect(await placesOfPart(book, 'S-1')).toEqual([{ job: 1, name: 'Intercom', ref: 'TR3', as: 'reserved' }])
    expect((await releasePart(book, 'S-1', atMinute(2))).parts).toEqual(['S-1'])
    await expect(releasePart(book, 'S-1', atMinute(2))).rejects.toThrow('S-1 is not reserved.')
    await reservePart(book, { job: 'Radio', tag: 'S-1' }, atMinute(2))
    // what took the part meanwhile stands in the way of the release's undoing
    const release = (await journal(book)).find((e) => e.say === 'S-1 released from Intercom.')!
    await expect(undo(book, release.id)).rejects.toThrow('Job Intercom was changed again since.')
    expect((await job(book, 'Radio')).reserved).toEqual(['S-1'])
    expect(await says(book)).toContain('S-1 reserved for Intercom, TR3.')
  })

  test('is one that is there to be used', async () => {
    const book = await withIntercom()
    await editPartsNoted(book, { tags: ['S-3'], changes: { status: 'scrapped' } }, atMinute(2))
    await expect(reservePart(book, { job: 1, tag: 'S-3' }, atMinute(2))).rejects.toThrow(
      'S-3 cannot be reserved: it is scrapped.',
    )
    await expect(reservePart(book, { job: 1, tag: 'S-9' }, atMinute(2))).rejects.toThrow(
      'no part in the book called "S-9"',
    )
  })

  test('says so in the drawer, also when its job or position is renamed', async () => {
    const book = await withIntercom()
    const reserved = async (since: number) => {
      const { version, rows } = await drawerSince(book, since)
      return { version, of: rows.map((row) => [row.tag, row.reserved]) }
    }
    const first = await reserved(0)
    expect(first.of).toEqual([
      ['F-1', null],
      ['S-1', 'Intercom, TR2'],
      ['S-2', 'Intercom'],
      ['S-3', null],
    ])
    await editJob(book, 1, { name: 'Hut' }, atMinute(2))
    const second = await reserved(first.version)
    expect(second.of).toEqual([
      ['S-1', 'Hut, TR2'],
      ['S-2', 'Hut'],
    ])
    await editPosition(book, { job: 1, ref: 'TR2' }, { ref: 'Q2' }, atMinute(2))
    const third = await reserved(second.version)
    expect(third.of).toEqual([['S-1', 'Hut, Q2']])
    await releasePart(book, 'S-2', atMinute(2))
    expect((await reserved(third.version)).of).toEqual([['S-2', null]])
  })
})

test('photos of a job are kept, taken away and put back', async () => {
  const book = await withIntercom()
  const content = Uint8Array.of(1, 2, 3)
  const { photo } = await addPhoto(book, { job: 1, name: 'board.png', type: 'image/png', content }, atMinute(2))
  expect(photo).toEqual({ id: 1, job: 1, name: 'board.png', type: 'image/png', bytes: 3, at: atMinute(2) })
  expect(await photosOf(book, { job: 1 })).toEqual([photo])
  expect(await photosOf(book, { part: 'F-1' })).toEqual([])
  expect(await removePhoto(book, 1, atMinute(3))).toEqual({ job: 1, edit: 3 })
  expect(await photosOf(book, { job: 1 })).toEqual([])
  await undo(book)
  expect(await photosOf(book, { job: 1 })).toEqual([photo])
  expect((await says(book))[0]).toBe('Undone: Photo of Intercom taken away.')
  await expect(addPhoto(book, { job: 9, name: 'x', type: 'image/png', content }, atMinute(2))).rejects.toThrow(
    'There is no job in the book called "9"',
  )
})

test('a book with jobs is exported and imported as it is, and its edits can still be undone', async () => {
  const book = await withIntercom()
  await editPosition(book, { job: 1, ref: 'TR2' }, { fittedPart: 'S-1' }, atMinute(2))
  const copy = inFolder('copy.germane')
  await importJson(copy, await exportJson(book))
  const again = await openBook(copy)
  open.push(again)
  expect(await jobs(again)).toEqual(await jobs(book))
  await undo(again)
  expect(await part(again, 'S-1')).toMatchObject({ status: 'kept' })
  expect((await checkBook(again)).findings).toEqual([])
})

test('a job is found by its words and those of its positions', async () => {
  const book = await withIntercom()
  const found = async (query: string): Promise<string[]> =>
    (await findText(book, query, 10)).jobs.map((one) => one.name)
  expect(await found('INTERCOM stations')).toEqual(['Intercom'])
  expect(await found('tr2 broken')).toEqual(['Intercom'])
  expect(await found('f-1')).toEqual(['Intercom'])
  expect(await found('radio')).toEqual([])
  expect(await found('100 %')).toEqual([])
  await removeJob(book, 1, atMinute(2))
  expect(await found('intercom')).toEqual([])
})
