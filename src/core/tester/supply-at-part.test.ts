import { expect, test } from 'vitest'
import { explain } from '#core/fault'
import { covariance, standardUncertainty } from '#core/quantity'
import { testerExample } from './example.ts'
import { readTester } from './read-tester.ts'
import { supplyAtPart } from './supply-at-part.ts'
import type { Tester } from './tester.ts'

const tester = ((): Tester => {
  const read = readTester(testerExample)
  if (!read.ok) throw new Error(read.faults.map(explain).join('\n'))
  const { tester } = read
  const external = {
    id: 'high',
    kind: 'external',
    taps: [],
    min: 5,
    max: 15,
    ohmPerCell: 100,
    cellV: 0,
    tolerance: 0.02,
  } as const
  return { ...tester, supplies: [...tester.supplies, external] }
})()

const at = (id: string, tapV: number, currentA = 0, burdenV = 0) =>
  supplyAtPart(tester, id, tapV, { currentA, burdenV })

const good = (...a: Parameters<typeof at>) => {
  const found = at(...a)
  if (!found.ok) throw new Error(found.faults.map(explain).join('\n'))
  return found.quantity
}
const fault = (...a: Parameters<typeof at>): string => {
  const found = at(...a)
  return found.ok ? '' : found.faults.map(explain).join('\n')
}

test('the tap less what cells and meter drop', () => {
  const q = good('cells', 4.5, 0.1, 0.11)
  expect(q.value).toBeCloseTo(4.5 - 0.1 * 1.5 - 0.11, 12)
  expect(standardUncertainty(q)).toBeCloseTo(Math.hypot(0.03 * 4.5, (0.5 * 0.15) / Math.sqrt(3)), 12)
})

test('taps of one supply share their cells', () => {
  expect(covariance(good('cells', 1.5), good('Cells', 4.5))).toBeCloseTo(0.03 ** 2 * 1.5 * 4.5, 12)
})

test('an outside supply has one source resistance at every voltage', () => {
  expect(good('high', 12, 0.01).value).toBeCloseTo(11, 12)
})

test('what cannot be set is said', () => {
  expect(fault('cell', 4.5)).toBe(
    'There is no supply on Bench tester called "cell". Near it: cells. Its supplies: cells, high.',
  )
  expect(fault('cells', 3)).toBe('supply: "3 V" cannot be set on cells. Its taps: 1.5 V, 4.5 V.')
  expect(fault('high', 60)).toBe('supply: "60 V" cannot be set on high. It gives 5 V to 15 V.')
  expect(supplyAtPart({ ...tester, supplies: [] }, 'x', 1, { currentA: 0, burdenV: 0 })).toMatchObject({ ok: false })
})
