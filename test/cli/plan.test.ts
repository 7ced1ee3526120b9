import { describe, expect, test } from 'vitest'
import { layBench, planRun } from '#bench'
import { sheetText } from '#core/sheet'

const bench = await layBench({ now: () => '2024-05-12T14:00:00.000Z' })

/** Numbers anywhere in a value that JSON could not carry. */
function unsound(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path}: ${value}`]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) => unsound(inner, `${path}.${key}`))
}

describe.each(bench.testers.map((t) => [t.tester.id, t.tester] as const))('on %s', (_, tester) => {
  test('every type of the catalog can be planned, soundly and quickly', () => {
    expect(bench.types.length).toBeGreaterThan(300)
    const slow: string[] = []
    for (const { type } of bench.types) {
      const began = performance.now()
      const sheet = planRun(bench, { tester, typeName: type, wishes: {} })
      if (performance.now() - began > 1000) slow.push(type)
      expect(unsound(sheet), type).toEqual([])
      expect(sheet.steps.length, type).toBeGreaterThan(1)
      expect(sheetText(sheet, { advice: true }).join('\n'), type).not.toMatch(/undefined|NaN|Infinity|\[object/)
    }
    expect(slow).toEqual([])
  })

  test.each([
    {},
    { polarity: 'NPN' },
    { polarity: 'PNP', material: 'Ge' },
    { material: 'Si' },
    { family: 'bjt' },
    { family: 'diode' },
    { family: 'diode', material: 'Ge', forwardA: 1e-3 },
    { collectorA: 1e-3, supplyV: 4.5 },
    { ambientC: 60, ambientU: 20 },
    { ambientC: -20 },
  ] as const)('an unknown part can be planned, asked for %j', (wishes) => {
    const sheet = planRun(bench, { tester, typeName: 'unknown', wishes })
    expect(sheet.partType).toBeUndefined()
    expect(unsound(sheet)).toEqual([])
    expect(sheet.wishes).toMatchObject(wishes)
    expect(sheetText(sheet, { advice: true }).join('\n')).not.toMatch(/undefined|NaN|Infinity|\[object/)
  })
})
