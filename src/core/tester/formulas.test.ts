import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type AnyFormula, numericSlopes } from '#core/quantity'
import { testerFormulas } from './formulas.ts'

const pointOf = (f: AnyFormula): fc.Arbitrary<Record<string, number>> =>
  fc.record(
    Object.fromEntries(
      Object.entries(f.domain as Record<string, readonly [number, number]>).map(([name, [min, max]]) => [
        name,
        fc.integer({ min: 0, max: 1000 }).map((k) => min + (k / 1000) * (max - min)),
      ]),
    ),
  )

describe.each(testerFormulas.map((f) => [f.id, f] as const))('%s', (_, f) => {
  test('stated slopes agree with differences', () =>
    fc.assert(
      fc.property(pointOf(f), (at) => {
        expect(Number.isFinite(f.evaluate(at))).toBe(true)
        const stated: Readonly<Record<string, number>> = f.partials!(at)
        const differences = numericSlopes(f, at)
        expect(Object.keys(stated).sort()).toEqual(Object.keys(f.inputs).sort())
        const size = Math.max(...Object.keys(at).map((k) => Math.abs(differences[k]! * at[k]!)), 1e-300)
        for (const [name, slope] of Object.entries(stated)) {
          const x = Math.max(Math.abs(at[name]!), 1e-3)
          expect(Math.abs((slope - differences[name]!) * x), name).toBeLessThanOrEqual(2e-6 * size + 1e-12)
        }
      }),
      { numRuns: 60 },
    ))

  test('its text names every symbol, and its source is told', () => {
    for (const symbol of Object.values(f.symbols as Record<string, string>)) expect(f.text).toContain(symbol)
    expect(f.source.title.length).toBeGreaterThan(3)
  })
})

test('ids are used once', () => {
  expect(new Set(testerFormulas.map((f) => f.id)).size).toBe(testerFormulas.length)
})
