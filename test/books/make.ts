import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import {
  type Bench,
  beginRun,
  bookOf,
  changePart,
  endRun,
  keepReading,
  keepReadings,
  keepTester,
  keepType,
  layBench,
  makeBook,
  mendReading,
  planRun,
  testerNamed,
} from '#bench'
import { backupBook, closeBook, exportJson, saveSetting } from '#book'
import type { PartType } from '#core/device'
import { parseShown, type ReadingKind } from '#core/tester'

/**
 * Makes the small saved book of a release: a file run of five germanium parts (one shorted, one leaky), a run by sheet
 * with a correction, an edited part, an own part type, a tester in two versions. `node test/books/make.mjs` runs it.
 */
export async function makeSavedBook(folder: string, version: string): Promise<void> {
  const draft = join(folder, 'draft.germane')
  const saved = join(folder, `${version}.germane`)
  for (const file of [draft, saved]) rmSync(file, { force: true })
  let minute = 0
  const now = (): string => new Date(Date.UTC(2026, 2, 21, 10, minute++)).toISOString()
  await makeBook(draft, now())
  const bench = await layBench({ bookFile: draft, now })
  await keepType(bench, ownType)
  await closeBook(bookOf(bench))
  const laid = await layBench({ bookFile: draft, now })
  await fill(laid)
  const book = bookOf(laid)
  writeFileSync(join(folder, `${version}.json`), await exportJson(book))
  await backupBook(book, saved)
  await closeBook(book)
  rmSync(draft)
}

/** A part type of its own, so that the catalog can change without changing what this book says. */
const ownType: PartType = {
  type: 'KN40',
  family: 'bjt',
  polarity: 'PNP',
  material: 'Ge',
  outline: 'TO-5',
  ratings: { V_CBO: 25, V_CEO: 15, V_EBO: 10, I_C: 0.2, T_Jmax: 85, power: [{ powerW: 0.15, of: 'ambient', atC: 25 }] },
  limits: [
    { symbol: 'h_FE', min: 40, max: 200, unit: '1', at: { I_C: 0.01, V_CE: 1, T: 25 } },
    { symbol: 'I_CBO', max: 8e-6, unit: 'A', at: { V_CB: 9, T: 25 } },
  ],
  provenance: { kind: 'own', where: ['invented for the saved books'] },
}

const readings = `part,type,reads,shown,range,point,supply,ambient,at,note
S-1,KN40,short,clear,,1,,21 C,2026-03-21T10:01,
S-1,KN40,I_CBO,2.1 div,100 uA,1,9 V,21 C,2026-03-21T10:02,
S-1,KN40,I_CEO,13.0 div,300 uA,1,4.5 V,21 C,2026-03-21T10:03,
S-1,KN40,I_C,50 div,10 mA,1,1.5 V,21 C,2026-03-21T10:04,
S-1,KN40,h_FE,90,middle,1,1.5 V,21 C,2026-03-21T10:05,
S-2,KN40,short,short,100 mA,1,1.5 V,21 C,2026-03-21T10:06,
S-3,KN40,short,clear,,1,,21 C,2026-03-21T10:07,
S-3,KN40,I_CBO,26.0 div,100 uA,1,9 V,21 C,2026-03-21T10:08,leaky
S-4,KN40,I_C,50 div,10 mA,1,1.5 V,21 C,2026-03-21T10:09,
S-4,KN40,h_FE,41,low,1,1.5 V,21 C,2026-03-21T10:10,close to the limit
S-5,unknown,I_CEO,9.0 div,300 uA,1,4.5 V,21 C,2026-03-21T10:11,no marking
`

async function fill(bench: Bench): Promise<void> {
  const known = testerNamed(bench, 'larkfield')
  await keepReadings(bench, { text: readings, file: 'spares.csv', tester: known.tester, known, lot: 'spares' })
  await keepTester(bench, { ...known, tester: { ...known.tester, note: 'Range switch cleaned.' } })
  const wishes = { ambientC: 20.5, ambientU: 0.5 }
  const sheet = planRun(bench, { tester: known.tester, typeName: 'KN40', wishes })
  const run = await beginRun(bench, known, sheet)
  const seen: readonly [ReadingKind, string, string][] = [
    ['I_CEO', '12.5 div', '300 uA'],
    ['I_C', '50 div', '10 mA'],
    ['h_FE', '140', 'middle'],
  ]
  for (const [reads, text, range] of seen) {
    const parsed = parseShown(text, reads, known.tester, range)
    if (!parsed.ok) throw new Error(`the saved book cannot read ${text}`)
    const { shown, seen: typed } = parsed
    const about = { part: 'S-6', type: 'KN40', point: 1, range, supplyV: 1.5, ambientC: 20.5, ambientU: 0.5 }
    const kept = await keepReading(bench, run.id, { ...about, reads, shown, seen: typed, at: bench.now() })
    if (reads === 'h_FE') await mendReading(bench, kept.id, '104')
  }
  await endRun(bench, run.id)
  await changePart(bench, 'S-3', { place: 'box of leaky ones', status: 'kept', note: 'for a demonstration' })
  await changePart(bench, 'S-2', { status: 'scrapped' })
  await saveSetting(bookOf(bench), 'rule', { kind: 'guarded', probability: 0.95 })
}
