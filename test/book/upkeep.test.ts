import { beforeAll, describe, expect, test } from 'vitest'
import {
  addCheckStandard,
  addFoundRecord,
  addPart,
  type Book,
  checkStandards,
  closeBook,
  createBook,
  foundRecords,
  importReadings,
  journal,
  oftenRead,
  removeCheckStandard,
  removeFoundRecord,
  saveResults,
  saveTester,
  undoEdit,
} from '#book'
import { ownFolder } from './folder.ts'
import { atMinute, handTester, leakageReading, outcomesOf } from './invented.ts'

const inFolder = ownFolder()
let book: Book
const parts = [{ part: 'shunt 10 mA', value: 12.1, u: 0.02 }]
const tester = 'bench-hand'

beforeAll(async () => {
  book = await createBook(inFolder('upkeep.germane'), atMinute(0))
  await saveTester(book, { tester: handTester }, atMinute(0))
  await addPart(book, { tag: 'CS-1' }, atMinute(0))
  return () => closeBook(book)
})

describe('what was found of a tester', () => {
  test('is kept by its day, the newest first, and can be taken away and put back', async () => {
    const one = await addFoundRecord(book, { tester, day: '2026-05-01', parts }, atMinute(1))
    const two = await addFoundRecord(book, { tester, day: '2025-11-30', note: 'before the move', parts }, atMinute(2))
    expect((await foundRecords(book, tester)).map((r) => [r.id, r.day, r.note])).toEqual([
      [one.id, '2026-05-01', undefined],
      [two.id, '2025-11-30', 'before the move'],
    ])
    expect((await foundRecords(book, tester))[0]?.parts).toEqual(parts)
    const { edit } = await removeFoundRecord(book, one.id, atMinute(3))
    expect((await foundRecords(book, tester)).map((r) => r.id)).toEqual([two.id])
    await expect(removeFoundRecord(book, one.id, atMinute(3))).rejects.toThrow('no record of a tester as found')
    await undoEdit(book, edit, atMinute(4))
    expect(await foundRecords(book, tester)).toHaveLength(2)
    await undoEdit(book, two.edit, atMinute(5))
    expect((await foundRecords(book, tester)).map((r) => r.id)).toEqual([one.id])
    expect((await journal(book)).map((e) => [e.kind, e.say]).at(-1)).toEqual([
      'upkeep',
      `${handTester.name} as found on 2026-05-01: 1 part kept.`,
    ])
  })

  test.each([
    [{ tester: 'nobody', day: '2026-05-01', parts }, 'called "nobody"'],
    [{ tester, day: '1 May', parts }, 'day: "1 May" is not a date'],
    [{ tester, day: '2026-13-01', parts }, 'is not a date'],
    [{ tester, day: '2026-05-01', parts: [] }, 'is no measured part'],
    [{ tester, day: '2026-05-01', parts: [{ part: 'coil', value: 1, u: -1 }] }, 'coil: "1 +- -1"'],
  ])('%# is refused whole', async (given, say) => {
    const before = await foundRecords(book, tester)
    await expect(addFoundRecord(book, given, atMinute(6))).rejects.toThrow(say)
    expect(await foundRecords(book, tester)).toEqual(before)
  })
})

describe('check standards', () => {
  test('are named once, taken away and put back, and never come back twice', async () => {
    const named = { tester, part: 'CS-1', symbol: 'h_FE', low: 110, high: 126 }
    const { id, edit } = await addCheckStandard(book, named, atMinute(10))
    expect(await checkStandards(book, tester)).toMatchObject([{ ...named, id }])
    await expect(addCheckStandard(book, named, atMinute(10))).rejects.toThrow('is a check standard of')
    const away = await removeCheckStandard(book, id, atMinute(11))
    expect(await checkStandards(book, tester)).toEqual([])
    const { low: _, high: __, ...bare } = named
    await addCheckStandard(book, bare, atMinute(12))
    await expect(undoEdit(book, away.edit, atMinute(13))).rejects.toThrow('was named again since')
    await expect(undoEdit(book, edit, atMinute(13))).rejects.toThrow('no check standard in the book')
    expect(await checkStandards(book, tester)).toMatchObject([bare])
  })

  test.each([
    [{ tester, part: 'nobody', symbol: 'h_FE' }, 'called "nobody"'],
    [{ tester, part: 'CS-1', symbol: 'V_BE', low: 2, high: 1 }, 'low: "2" is not below the upper bound of 1'],
  ])('%# is refused', async (given, say) => expect(addCheckStandard(book, given, atMinute(14))).rejects.toThrow(say))

  test('are offered where a part was read often on that tester', async () => {
    for (const [i, tags] of [['CS-1', 'Q2'], ['CS-1', 'Q2'], ['CS-1']].entries()) {
      const readings = tags.map((tag) => leakageReading(tag, 10 + i))
      const { id: run } = await importReadings(
        book,
        { tester, readings, from: `${i}.csv`, hash: `h${i}` },
        atMinute(20 + i),
      )
      await saveResults(book, { run, outcomes: outcomesOf(readings) }, atMinute(20 + i))
    }
    expect(await oftenRead(book, tester)).toEqual([{ part: 'CS-1', runs: 3 }])
    expect(await oftenRead(book, tester, 2)).toEqual([
      { part: 'CS-1', runs: 3 },
      { part: 'Q2', runs: 2 },
    ])
    expect(await oftenRead(book, 'another')).toEqual([])
  })
})
