import { FaultError } from '#core/fault'
import { dateOf, dayOf, leastSquares, studentTail } from '#core/numeric'
import { type Estimate, estimate, uOfLine } from './estimate.ts'

/** A value of something stable, at a time. */
export interface DatedValue {
  /** Date or time, ISO. */
  readonly at: string
  readonly value: number
}

/** Bounds a value should stay within. */
export interface DriftBounds {
  readonly low?: number
  readonly high?: number
}

/** A straight line through values in time. */
export interface Drift {
  /** Change a year. */
  readonly perYear: Estimate
  /** Probability of so large a change where there is none. */
  readonly chance: number
  /** Whether it is taken as there: a chance below 5 %. */
  readonly isSeen: boolean
  readonly first: string
  readonly last: string
  /** The line and its 95 % interval on a day (days since 1970-01-01). */
  readonly lineAt: (day: number) => Estimate
  /** When a bound is reached; left out where none is given. */
  readonly outside?: Outside
}

/** When a value will leave its bounds. */
export interface Outside {
  /** First date at which the interval of the line reaches a bound: check again before. */
  readonly earliest?: string
  /** Date at which the line itself does. */
  readonly expected?: string
  /** It has left them already. */
  readonly isNow: boolean
}

export const daysPerYear = 365.25
/** No date is given further ahead than this, years. */
export const yearsAhead = 10

/**
 * Drift of a stable part or of a correction: slope by least squares, with its uncertainty from the scatter.
 *
 * @throws {FaultError} `out-of-domain` for fewer than three values, or all of one day
 */
export function driftOf(values: readonly DatedValue[], bounds: DriftBounds = {}): Drift {
  if (values.length < 3)
    throw new FaultError({
      code: 'out-of-domain',
      name: 'count of values in time',
      value: values.length,
      allowed: 'at least 3',
    })
  const days = values.map((v) => dayOf(v.at))
  const [first, last] = [Math.min(...days), Math.max(...days)]
  if (!(last - first >= 1))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'span of the dates',
      value: last - first,
      allowed: 'at least a day',
    })
  const middle = days.reduce((a, b) => a + b, 0) / days.length
  const years = days.map((d) => (d - middle) / daysPerYear)
  const fit = leastSquares(
    [years.map(() => 1), years],
    values.map((v) => v.value),
  )
  const perYear = estimate(fit.coefficients[1]!, fit.sd[1]!, fit.dof)
  const chance =
    perYear.u === 0 ? (perYear.value === 0 ? 1 : 0) : 2 * studentTail(Math.abs(perYear.value / perYear.u), fit.dof)
  const lineAt = (day: number): Estimate => {
    const x = (day - middle) / daysPerYear
    return estimate(fit.coefficients[0]! + fit.coefficients[1]! * x, uOfLine(fit, x), fit.dof)
  }
  const isBounded = bounds.low !== undefined || bounds.high !== undefined
  return {
    perYear,
    chance,
    isSeen: chance < 0.05,
    first: dateOf(first),
    last: dateOf(last),
    lineAt,
    ...(isBounded ? { outside: outsideOf(lineAt, last, bounds) } : {}),
  }
}

function outsideOf(lineAt: (day: number) => Estimate, last: number, { low, high }: DriftBounds): Outside {
  const isOut = (value: number): boolean => (low !== undefined && value < low) || (high !== undefined && value > high)
  const firstDay = (is: (e: Estimate) => boolean): string | undefined => {
    for (let d = 0; d <= yearsAhead * daysPerYear; d++) if (is(lineAt(last + d))) return dateOf(last + d)
    return undefined
  }
  const earliest = firstDay((e) => isOut(e.low) || isOut(e.high))
  const expected = firstDay((e) => isOut(e.value))
  return {
    ...(earliest === undefined ? {} : { earliest }),
    ...(expected === undefined ? {} : { expected }),
    isNow: isOut(lineAt(last).value),
  }
}
