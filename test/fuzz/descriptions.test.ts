import fc from 'fast-check'
import { describe, expect, test, vi } from 'vitest'
import { isUnknown, planRun } from '#bench'
import { partTypeExample, readPartTypes } from '#core/device'
import { sheetText, type Wishes } from '#core/sheet'
import { readTester, testerExample } from '#core/tester'
import { anyText, spoiled } from './spoiled.ts'
import { bench, testers, tryAll } from './take.ts'

vi.setConfig({ testTimeout: 180_000 })

describe('fuzzed descriptions', () => {
  test('descriptions of testers', () => {
    const texts = bench.testers.flatMap((t) => t.description ?? [])
    const some = fc.oneof(
      { weight: 6, arbitrary: spoiled(testerExample, ...texts) },
      { weight: 1, arbitrary: anyText },
      { weight: 1, arbitrary: fc.tuple(anyText, anyText).map(([a, b]) => `format: germane/tester/1\n${a}: ${b}`) },
    )
    tryAll(some, 'testers', (text) => {
      const read = readTester(text, { file: 'tester.yaml' })
      if (!read.ok) return read
      return [read.tester, sheetText(planRun(bench, { tester: read.tester, typeName: '2N1305', wishes: {} }))]
    })
  })

  test('files of part types', () => {
    const record = JSON.stringify({
      types: [bench.types.find((t) => t.type === 'AC128'), bench.types.find((t) => t.family === 'zener')],
    })
    const some = fc.oneof(
      { weight: 4, arbitrary: spoiled(partTypeExample) },
      { weight: 2, arbitrary: spoiled(record) },
      { weight: 1, arbitrary: anyText },
    )
    tryAll(some, 'types', (text) => {
      const types = readPartTypes(text, { file: 'types.yaml' })
      const own = { ...bench, types }
      return [
        types,
        types.slice(0, 2).map((t) => sheetText(planRun(own, { tester: testers[0]!, typeName: t.type, wishes: {} }))),
      ]
    })
  })

  test('wishes for a plan', () => {
    const number = fc.option(
      fc.oneof(fc.double(), fc.double({ min: 1e-6, max: 30, noNaN: true }), fc.constantFrom(0, -1, 1e-9, 100, 1e308)),
      { nil: undefined },
    )
    const word = (...words: readonly string[]) =>
      fc.option(fc.constantFrom(...words, '', '__proto__', 'npn'), { nil: undefined })
    const wishes = fc.record({
      ambientC: fc.option(fc.oneof(fc.double(), fc.double({ min: -20, max: 60, noNaN: true })), { nil: undefined }),
      ambientU: fc.option(fc.double({ min: -1, max: 21 }), { nil: undefined }),
      collectorA: number,
      supplyV: number,
      forwardA: number,
      polarity: word('NPN', 'PNP'),
      material: word('Ge', 'Si'),
      family: word('bjt', 'diode'),
    })
    const type = fc.constantFrom('unknown', ...bench.types.map((t) => t.type))
    tryAll(
      fc.tuple(
        fc.constantFrom(...testers),
        type,
        fc.oneof(
          wishes,
          wishes.map((w) => ({ ambientC: w.ambientC, collectorA: w.collectorA })),
        ),
      ),
      'wishes',
      ([tester, typeName, w]) => {
        const given = Object.fromEntries(Object.entries(w).filter(([, v]) => v !== undefined)) as Partial<Wishes>
        const sheet = planRun(bench, { tester, typeName, wishes: given })
        expect(sheet.partType === undefined).toBe(isUnknown(typeName))
        return [sheet, sheetText(sheet, { advice: true })]
      },
    )
  })
})
