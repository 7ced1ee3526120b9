import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type AnyFormula, isUnit, numericSlopes } from '#core/quantity'

export interface LawOptions {
  readonly runs: number
  /** Relative disagreement allowed between stated slopes and differences. */
  readonly tolerance: number
}

export const lawDefaults = { runs: 200, tolerance: 1e-5 } as const satisfies LawOptions

/**
 * Declares the tests every registered formula must pass: a well-formed record, finite results everywhere in its domain,
 * and stated slopes that agree with central differences.
 */
export function formulaLaws(formulas: readonly AnyFormula[], options: Partial<LawOptions> = {}): void {
  test('formula ids are used once', () => {
    const ids = formulas.map((f) => f.id)
    expect([...new Set(ids)]).toEqual(ids)
  })
  describe.each(formulas.map((f) => [f.id, f] as const))('%s', (_, f) => {
    test('is a well-formed record', () => expectWellFormed(f))
    test('is finite everywhere in its domain', () => expectFinite(f, options))
    test('has slopes that agree with differences', () => expectRightSlopes(f, options))
  })
}

/** Fails where a formula gives no finite number somewhere in its domain. */
export function expectFinite(f: AnyFormula, options: Partial<LawOptions> = {}): void {
  const { runs } = { ...lawDefaults, ...options }
  fc.assert(
    fc.property(pointIn(f), (at) => {
      expect(f.evaluate(at), `${f.id} at ${JSON.stringify(at)}`).toSatisfy(Number.isFinite)
    }),
    { numRuns: runs, includeErrorInReport: true },
  )
}

/** Fails where the stated slopes of a formula and central differences disagree. */
export function expectRightSlopes(f: AnyFormula, options: Partial<LawOptions> = {}): void {
  const { runs, tolerance } = { ...lawDefaults, ...options }
  fc.assert(
    fc.property(pointIn(f), (at) => expectSlopes(f, at, tolerance)),
    { numRuns: runs, includeErrorInReport: true },
  )
}

/** Fails where the record of a formula is incomplete or does not fit together. */
export function expectWellFormed(f: AnyFormula): void {
  expect(f.id).toMatch(/^[a-z0-9-]+\/[a-z0-9-]+$/)
  expect(f.version).toBeGreaterThanOrEqual(1)
  expect(f.text).toContain(' = ')
  expect(isUnit(f.unit)).toBe(true)
  expect(f.source.title).not.toBe('')
  for (const name of Object.keys(f.inputs)) {
    const [low, high] = f.domain[name] as readonly [number, number]
    expect(isUnit(f.inputs[name]), `unit of ${name}`).toBe(true)
    expect(Number.isFinite(low) && Number.isFinite(high), `domain of ${name} is finite`).toBe(true)
    expect(low, `domain of ${name}`).toBeLessThan(high)
    expect(f.text.split(' = ').slice(1).join(' = '), `symbol of ${name}`).toContain(f.symbols[name])
  }
}

/** Random inputs from the domain, a little inside it so that a difference step stays in; even in the logarithm where it spans decades. */
function pointIn(f: AnyFormula): fc.Arbitrary<Record<string, number>> {
  const share = fc.double({ min: 0.01, max: 0.99, noNaN: true })
  const inputs = Object.keys(f.inputs).map((name) => {
    const [low, high] = f.domain[name] as readonly [number, number]
    const isWide = low > 0 && high / low > 100
    const place = (s: number): number => (isWide ? low * (high / low) ** s : low + (high - low) * s)
    return [name, share.map(place)] as const
  })
  return fc.record(Object.fromEntries(inputs))
}

/** A slope that hardly matters beside the others is allowed an error that matters as little. */
function expectSlopes(f: AnyFormula, at: Record<string, number>, tolerance: number): void {
  const differences = numericSlopes(f, at)
  const stated = f.partials === undefined ? differences : f.partials(at)
  const names = Object.keys(f.inputs)
  const size = Math.abs(f.evaluate(at)) + names.reduce((sum, n) => sum + Math.abs(stated[n]! * at[n]!), 0)
  for (const n of names) {
    expect(stated[n], `slope for ${n}`).toSatisfy(Number.isFinite)
    const floor = at[n] === 0 ? 0 : (1e-4 * size) / Math.abs(at[n]!)
    const allowed = tolerance * (Math.abs(stated[n]!) + floor)
    expect(Math.abs(stated[n]! - differences[n]!), `slope for ${n} at ${JSON.stringify(at)}`).toBeLessThanOrEqual(
      allowed,
    )
  }
}
