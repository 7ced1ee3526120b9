import { median } from './sample.ts'

/**
 * How much an observation far off may pull: `none` as its square, `huber` as its distance, `tukey` not at all beyond a
 * bound.
 */
export type RobustKind = 'none' | 'huber' | 'tukey'

/**
 * Tuning constants for 95 % of the precision of least squares where errors are normal.
 *
 * @see P. Holland, R. Welsch, Robust regression using iteratively reweighted least-squares, Comm. Statist. A6 (1977)
 *   813-827
 */
const tuning = { huber: 1.345, tukey: 4.685 } as const

/** Weight of a residual given in units of the scale. */
export function robustWeight(kind: RobustKind, residual: number): number {
  const size = Math.abs(residual)
  switch (kind) {
    case 'none':
      return 1
    case 'huber':
      return size <= tuning.huber ? 1 : tuning.huber / size
    case 'tukey':
      return size < tuning.tukey ? (1 - (size / tuning.tukey) ** 2) ** 2 : 0
  }
}

/** Slope of weight x residual. */
export function robustSlope(kind: RobustKind, residual: number): number {
  const part = (residual / tuning.tukey) ** 2
  switch (kind) {
    case 'none':
      return 1
    case 'huber':
      return Math.abs(residual) <= tuning.huber ? 1 : 0
    case 'tukey':
      return part < 1 ? (1 - part) * (1 - 5 * part) : 0
  }
}

/** Median distance from 0, made equal to the standard deviation of normal errors; the fitted parameters are allowed for. */
export function robustScale(residuals: Float64Array, fitted: number): number {
  const sizes = [...residuals].map(Math.abs).sort((a, b) => a - b)
  const rest = sizes.slice(Math.min(fitted, sizes.length - 1))
  return median(rest) / 0.674489750196082
}
