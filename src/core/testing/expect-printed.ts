import { expect } from 'vitest'

/** Half a unit in the last printed place: a table can promise no more, and we accept no less. */
export function printedTolerance(printed: string): number {
  const [mantissa, exponent] = printed.toLowerCase().split('e') as [string, string?]
  const decimals = mantissa.split('.')[1]?.length ?? 0
  return 0.5000001 * 10 ** (Number(exponent ?? 0) - decimals)
}

/**
 * A computed value against one copied as printed; the printed digits set the tolerance.
 *
 * @param units how many half units of the last place are allowed, where the source rounds its own steps; say why
 */
export function expectPrinted(got: number, printed: string, units = 1): void {
  const wanted = Number(printed)
  expect(Number.isFinite(wanted), `${printed} is not a number`).toBe(true)
  expect(Math.abs(got - wanted), `${got} is not ${printed}`).toBeLessThanOrEqual(units * printedTolerance(printed))
}

/** Count of right digits: minus the logarithm of the relative error, or of the absolute one where 0 is wanted. */
export function rightDigits(got: number, wanted: number): number {
  const error = wanted === 0 ? Math.abs(got) : Math.abs(got - wanted) / Math.abs(wanted)
  return error === 0 ? Number.POSITIVE_INFINITY : -Math.log10(error)
}

/** A computed value has at least so many right digits. */
export function expectDigits(got: number, wanted: number, digits: number, what = 'value'): void {
  expect(rightDigits(got, wanted), `${what}: ${got} against ${wanted}`).toBeGreaterThanOrEqual(digits)
}

/** Relative error at most `tolerance`. */
export function expectRelative(got: number, wanted: number, tolerance: number, what = 'value'): void {
  const scale = wanted === 0 ? 1 : Math.abs(wanted)
  expect(Math.abs(got - wanted) / scale, `${what}: ${got} is not ${wanted}`).toBeLessThanOrEqual(tolerance)
}
