import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Bench, bookOf, clearBench, keepReadings, layBench, partPage, testerNamed } from '#bench'
import { addFoundRecord, removeFoundRecord, results } from '#book'
import type { PartResult } from '#core/reduce'
import { ownFolder } from './folder.ts'

const inFolder = ownFolder()
let bench: Bench

/** Seven runs of one part, a month apart: more than are computed anew where nothing is known against them. */
const months = [1, 2, 3, 4, 5, 6, 7]

beforeAll(async () => {
  const lay = { bookFile: inFolder('doubted.germane'), create: true, now: () => '2026-08-01T12:00:00.000Z' }
  bench = await layBench(lay)
  const known = testerNamed(bench, 'larkfield')
  for (const m of months) {
    const at = `2026-0${m}-10T12:00:00Z`
    const text = `part,type,reads,shown,range,at\nB1,unknown,I_C,2${m} div,10 mA,${at}\nB1,unknown,I_B,25 div,100 uA,${at}\n`
    await keepReadings(bench, { text, file: `${m}.csv`, tester: known.tester, known, ambientC: 20 })
  }
  await clearBench(bench)
  bench = await layBench(lay)
})

afterAll(() => clearBench(bench))

const said = (result: PartResult | undefined): readonly string[] => [
  ...new Set(
    (result?.parameters ?? []).flatMap((p) => p.doubts.filter((d) => d.code === 'range-as-found').map((d) => d.say)),
  ),
]
const onPage = async () => (await partPage(bench, 'B1')).runs.map((r) => said(r.outcome?.result))
const stored = async () => JSON.stringify((await results(bookOf(bench), { part: 'B1' })).map(({ result }) => result))

/** A shunt of 12.1 ohm for 11.1 makes the range read 9 % high (Kirchhoff), as test/cli/upkeep-kept.test.ts has it. */
const parts = [{ part: 'shunt 10 mA', value: 12.1, u: 0.02 }]

test('every run on the page of a part says what its tester was found to be, and none is changed', async () => {
  expect((await onPage()).flat()).toEqual([])
  const before = await stored()
  const { id } = await addFoundRecord(bookOf(bench), { tester: 'larkfield', day: '2026-04-15', parts }, bench.now())
  const runs = await onPage()
  expect(runs).toHaveLength(7)
  // newest first: three after it was measured, four before
  expect(runs.map((r) => r.length)).toEqual([1, 1, 1, 1, 1, 1, 1])
  expect(runs.map((r) => r[0]!.includes('nobody knows since when'))).toEqual([...months].reverse().map((m) => m <= 4))
  expect(await stored()).toBe(before)
  await removeFoundRecord(bookOf(bench), id, bench.now())
  expect((await onPage()).flat()).toEqual([])
})
