import { FaultError } from '#core/fault'
import { type LinearFit, leastSquares } from '#core/numeric'
import { leaf, type Quantity, term, type Unit } from '#core/quantity'

/** Points a straight line is to be laid through. */
export interface CalibrationPoints<Y extends Unit = Unit, S extends Unit = Unit> {
  /** Settings, taken as without doubt beside the readings. */
  readonly x: readonly number[]
  readonly y: readonly number[]
  /** Where the intercept is taken. */
  readonly at: number
  readonly unit: Y
  /** Unit of the slope. */
  readonly slopeUnit: S
  /** Identity of the calibration; its causes are named after it. */
  readonly name: string
  /** What is calibrated, for people. */
  readonly what: string
  /** Standard uncertainty of each y, where known; else the scatter about the line tells it. */
  readonly sigma?: readonly number[]
}

/** A straight line y = intercept + slope (x - at); its two parameters go together, and say so. */
export interface CalibrationLine<Y extends Unit = Unit, S extends Unit = Unit> {
  readonly intercept: Quantity<Y>
  readonly slope: Quantity<S>
  readonly at: number
  /** Correlation of the two parameters. */
  readonly r: number
  readonly fit: LinearFit
}

/**
 * Straight line by least squares. Intercept and slope are quantities with one cause each and the correlation between
 * them, so that anything derived from both has the right uncertainty.
 *
 * @throws {FaultError} `out-of-domain` for fewer than three points (two, where `sigma` is given), or all at one setting
 * @see JCGM 100:2008, H.3
 */
export function calibrationLine<Y extends Unit, S extends Unit>(p: CalibrationPoints<Y, S>): CalibrationLine<Y, S> {
  const least = p.sigma === undefined ? 3 : 2
  if (p.x.length < least)
    throw new FaultError({
      code: 'out-of-domain',
      name: `count of points of ${p.what}`,
      value: p.x.length,
      allowed: `at least ${least}`,
    })
  const offsets = p.x.map((x) => x - p.at)
  const fit = leastSquares([p.x.map(() => 1), offsets], p.y, p.sigma === undefined ? {} : { sigma: p.sigma })
  const [u0, u1] = fit.sd as [number, number]
  const r = u0 * u1 === 0 ? 0 : Math.max(-1, Math.min(1, fit.covariance[0]![1]! / (u0 * u1)))
  const causes = [`${p.name}: intercept`, `${p.name}: slope`] as const
  const correlations = [{ a: causes[0], b: causes[1], r }]
  const dof = p.sigma === undefined ? { dof: fit.dof, distribution: 't' as const } : {}
  const parameter = <U extends Unit>(k: 0 | 1, unit: U, what: string, u: number): Quantity<U> => ({
    ...leaf(fit.coefficients[k]!, unit, { kind: 'read', what, seen: `${p.x.length} points of ${p.what}` }, [
      term(causes[k], { label: `${what}, from the scatter of the points`, u, ...dof }),
    ]),
    correlations,
  })
  return {
    intercept: parameter(0, p.unit, `intercept of ${p.what}`, u0),
    slope: parameter(1, p.slopeUnit, `slope of ${p.what}`, u1),
    at: p.at,
    r,
    fit,
  }
}
