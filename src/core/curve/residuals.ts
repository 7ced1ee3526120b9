import type { CurveFit, CurveSymbol } from '#core/fit'
import { coverageFactor } from '#core/uncertainty'
import { lawSymbol } from './fitted.ts'
import type { Sweep } from './sweep.ts'

/** Readings of a sweep against the law, as a part of what the law says. */
export interface ResidualSweep extends Pick<Sweep, 'x' | 'y' | 'at'> {
  readonly points: readonly { readonly x: number; readonly relative: number }[]
}

/** What the readings of some sweeps leave over, as parts of the fitted values. */
export function residualSweeps(fit: CurveFit, sweeps: readonly Sweep[]): readonly ResidualSweep[] {
  const found = new Map(fit.residuals.map((r) => [`${r.row} ${r.symbol}`, r.measured / r.fitted - 1]))
  return sweeps.map(({ points, ...s }) => ({
    ...s,
    points: points.flatMap(({ x, row }) => {
      const relative = found.get(`${row} ${lawSymbol(s.y as CurveSymbol)}`)
      return relative === undefined ? [] : [{ x, relative }]
    }),
  }))
}

/**
 * Half width of the band in which 95 of 100 readings are to be expected about the law, as a part of it; undefined where
 * the file states the uncertainty of each reading, or nothing is left to tell it.
 */
export const scatterBand = (fit: CurveFit): number | undefined =>
  fit.scatter === undefined ? undefined : coverageFactor(fit.dof) * fit.scatter
