import { describe, expect, test } from 'vitest'
import {
  addCurves,
  addPart,
  type Book,
  backupBook,
  checkBook,
  closeBook,
  contentHash,
  counts,
  createBook,
  curves,
  drawerVersion,
  exportJson,
  importJson,
  type NewCurve,
  openBook,
  parts,
  touchedSince,
} from '#book'
import { FaultError } from '#core/fault'
import { curveExampleCsv, curvesOf, type FitKind } from '#core/fit'
import { ownFolder } from './folder.ts'
import { atMinute } from './invented.ts'

const inFolder = ownFolder()

const example = (kind: FitKind, tag: string, more: Partial<NewCurve> = {}): NewCurve => ({
  curve: { ...curvesOf(curveExampleCsv[kind], kind)[0]!, name: tag },
  file: `${tag}.csv`,
  hash: contentHash(curveExampleCsv[kind]),
  ...more,
})

async function newBook(name: string): Promise<Book> {
  const book = await createBook(inFolder(name), atMinute(0))
  await addPart(book, { tag: 'D1', type: 'OA81' }, atMinute(0))
  return book
}

describe('curves of parts', () => {
  test('come back as they were read, with what is known of them', async () => {
    const book = await newBook('kept.germane')
    const given = example('diode', 'D1', { temperatureC: 23, takenAt: '2026-04-30', note: 'after the repair' })
    const [kept] = await addCurves(book, [given], false, atMinute(1))
    expect(kept).toEqual({ ...given, id: 1, at: atMinute(1) })
    await closeBook(book)
    const again = await openBook(book.path)
    expect(await curves(again, 'D1')).toEqual([kept])
    await closeBook(again)
  })

  test('add the parts that are not in the book yet, all of a file or none', async () => {
    const book = await newBook('all.germane')
    await addCurves(book, [example('bjt', 'Q1'), example('bjt', 'Q2')], false, atMinute(1))
    expect((await parts(book)).map((p) => p.tag)).toEqual(['D1', 'Q1', 'Q2'])
    const bad = example('jfet', 'J2', { temperatureC: Number.NaN })
    const nan = { ...bad, curve: { ...bad.curve, points: [{ row: 2, values: { I_D: Number.NaN }, u: {} }] } }
    await expect(addCurves(book, [example('jfet', 'J1'), nan], false, atMinute(2))).rejects.toThrow(FaultError)
    await expect(addCurves(book, [example('jfet', 'J1', { takenAt: 'May' })], false, atMinute(2))).rejects.toThrow(
      'time is May; it must be an ISO date and time.',
    )
    await expect(addCurves(book, [example('jfet', ' ')], false, atMinute(2))).rejects.toThrow('part: " " is no tag')
    expect((await parts(book)).map((p) => p.tag)).toEqual(['D1', 'Q1', 'Q2'])
    await expect(curves(book, 'J1')).rejects.toThrow('There is no part in the book called "J1".')
    await closeBook(book)
  })

  test('of the same file are taken once for a part, unless it is said that they are new', async () => {
    const book = await newBook('twice.germane')
    await addCurves(book, [example('diode', 'D1')], false, atMinute(1))
    const twice = addCurves(book, [example('diode', 'D1', { file: 'copy.csv' })], false, atMinute(2))
    await expect(twice).rejects.toThrow(`copy.csv was kept before for D1: curve 1, ${atMinute(1)}. Nothing was added.`)
    await addCurves(book, [example('diode', 'D1')], true, atMinute(3))
    await addCurves(book, [example('diode', 'D2')], false, atMinute(3))
    expect((await curves(book, 'D1')).map((c) => c.id)).toEqual([1, 2])
    await closeBook(book)
  })

  test('are never changed, deleted or overwritten, whichever program asks', async () => {
    const book = await newBook('guard.germane')
    await addCurves(book, [example('diode', 'D1')], false, atMinute(1))
    const kept = 'curves are kept for ever: one cannot be'
    expect(() => book.driver.exec("UPDATE curve SET note = 'x'")).toThrow(`${kept} changed`)
    expect(() => book.driver.exec('DELETE FROM curve')).toThrow(`${kept} deleted`)
    expect(() => book.driver.exec('INSERT OR REPLACE INTO curve SELECT * FROM curve')).toThrow(`${kept} overwritten`)
    await closeBook(book)
  })

  test('make their part one that has changed, so that pages ask for it again', async () => {
    const book = await newBook('touched.germane')
    const before = await drawerVersion(book)
    await addCurves(book, [example('diode', 'D1')], false, atMinute(1))
    expect(await drawerVersion(book)).toBeGreaterThan(before)
    expect(await touchedSince(book, before)).not.toEqual([])
    await closeBook(book)
  })

  test('are in exports, imports, backups, counts and the check', async () => {
    const book = await newBook('whole.germane')
    await addCurves(book, [example('diode', 'D1', { temperatureC: 23 }), example('bjt', 'Q1')], false, atMinute(1))
    const text = await exportJson(book)
    await importJson(inFolder('made.germane'), text)
    const made = await openBook(inFolder('made.germane'))
    expect(await exportJson(made)).toBe(text)
    expect(await curves(made, 'D1')).toEqual(await curves(book, 'D1'))
    const { ok, findings } = await checkBook(made)
    expect({ ok, findings }).toEqual({ ok: true, findings: [] })
    expect(await counts(made)).toMatchObject({ curve: 2 })
    await closeBook(made)
    await backupBook(book, inFolder('copy.germane'))
    const copy = await openBook(inFolder('copy.germane'))
    expect(await curves(copy, 'Q1')).toEqual(await curves(book, 'Q1'))
    await closeBook(copy)
    await closeBook(book)
  })

  test('the check finds a point that is none, and an import a curve without points', async () => {
    const book = await newBook('spoiled.germane')
    await addCurves(book, [example('diode', 'D1')], false, atMinute(1))
    const whole = JSON.parse(await exportJson(book)) as { tables: { curve: { points: unknown[] }[] } }
    await closeBook(book)
    whole.tables.curve[0]!.points[3] = { row: 'x' }
    await importJson(inFolder('odd.germane'), JSON.stringify(whole))
    const odd = await openBook(inFolder('odd.germane'))
    expect((await checkBook(odd)).findings.map((f) => f.say)).toEqual(['Curve 1 holds a point that is none.'])
    await closeBook(odd)
    whole.tables.curve[0]!.points = []
    await expect(importJson(inFolder('none.germane'), JSON.stringify(whole))).rejects.toThrow('tables.curve[0]')
  })
})
