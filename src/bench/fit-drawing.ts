import { FaultError } from '#core/fault'
import type { CurveFit } from '#core/fit'
import { fitPlot } from '#report/curve'
import { linePlot } from '#report/plot'
import { type CurveFile, curvesOfFile, type FitWishes } from './fit.ts'

/**
 * The one curve of a file with its fit, as SVG: readings, law, interval, residuals.
 *
 * @throws {FaultError} `usage` where the file holds several curves
 */
export function drawFit(file: CurveFile, wishes: FitWishes, fits: readonly CurveFit[]): string {
  const [curve, ...more] = curvesOfFile(file, wishes)
  if (more.length > 0)
    throw new FaultError({
      code: 'usage',
      problem: `${file.file} holds ${more.length + 1} curves, and one drawing shows one fit`,
      mend: 'Give a file with one of them.',
    })
  return linePlot(fitPlot(curve!, fits[0]!))
}
