import { FaultError } from '#core/fault'
import { monotoneCurve } from '#core/numeric'
import { printPlain } from '#core/quantity'
import { isCurrent, rangeOf, type Sweep, type SweepPoint, sweepName, unitOfSymbol } from './sweep.ts'

/** Where a sweep is asked for. */
export interface Grid {
  readonly points: number
  /** Even steps, or even steps of the logarithm. */
  readonly spacing: 'linear' | 'log'
  /** Ends; those of the readings where left out. */
  readonly from?: number
  readonly to?: number
}

/** A sweep as a smooth curve through its points, asked only where it was read. */
export interface SmoothSweep {
  readonly low: number
  readonly high: number
  /** Whether the logarithm of y runs through the points: where all of it is above zero. */
  readonly isLog: boolean
  /** @throws {FaultError} outside what was read */
  readonly at: (x: number) => number
}

/**
 * Lays a monotone curve through a sweep. Readings at the same place count as one, their mean. Currents and gains that
 * are above zero run by their logarithm, and so does a current along the axis: exponentials are straight there.
 *
 * @see {@link monotoneCurve}
 */
export function smoothed(sweep: Sweep): SmoothSweep {
  const isLog = sweep.points.every((p) => p.y > 0)
  const isLogX = isCurrent(sweep.x) && sweep.points.every((p) => p.x > 0)
  const across = (x: number): number => (isLogX ? Math.log(x) : x)
  const joined = joinedPoints(sweep.points, isLog)
  const curve = monotoneCurve(
    joined.map(([x]) => across(x)),
    joined.map(([, y]) => y),
  )
  const [low, high] = rangeOf(sweep)
  return {
    low,
    high,
    isLog,
    at: (x) => {
      if (!(x >= low && x <= high)) throw outside(sweep, x)
      const y = curve(Math.min(across(high), Math.max(across(low), across(x))))
      return isLog ? Math.exp(y) : y
    },
  }
}

/** Points at one place as their mean, of the logarithms where `isLog`. */
function joinedPoints(points: readonly SweepPoint[], isLog: boolean): readonly (readonly [x: number, y: number])[] {
  const found = new Map<number, number[]>()
  for (const { x, y } of points) {
    const value = isLog ? Math.log(y) : y
    const known = found.get(x)
    if (known === undefined) found.set(x, [value])
    else known.push(value)
  }
  return [...found].map(([x, all]) => [x, all.reduce((a, b) => a + b, 0) / all.length])
}

function outside(sweep: Sweep, x: number): FaultError {
  const [low, high] = rangeOf(sweep)
  const unit = unitOfSymbol(sweep.x)
  const said = (v: number): string => printPlain(v, unit, { digits: 6 })
  const held =
    sweep.at === undefined
      ? ''
      : ` at ${sweep.at.symbol} ${printPlain(sweep.at.value, unitOfSymbol(sweep.at.symbol), { digits: 4 })}`
  return new FaultError({
    code: 'out-of-domain',
    name: `The ${sweepName(sweep.x)} ${sweep.x} that was asked for`,
    value: said(x),
    allowed: `between ${said(low)} and ${said(high)}: ${sweep.y}${held} was read there, and nothing is drawn on beyond readings`,
  })
}

/** The places of a grid between two ends. @throws {FaultError} for ends that no such grid can have */
export function placesOf(grid: Grid, low: number, high: number): readonly number[] {
  const from = grid.from ?? low
  const to = grid.to ?? high
  const isLog = grid.spacing === 'log'
  if (!(to > from))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'The upper end of the grid',
      value: to,
      allowed: `above the lower, ${from}`,
    })
  if (isLog && !(from > 0))
    throw new FaultError({
      code: 'out-of-domain',
      name: 'The lower end of a logarithmic grid',
      value: from,
      allowed: 'above 0; ask for a linear one, or for a higher end',
    })
  const last = grid.points - 1
  return Array.from({ length: grid.points }, (_, i) => {
    if (i === 0) return from
    if (i === last) return to
    return isLog ? from * (to / from) ** (i / last) : from + ((to - from) * i) / last
  })
}

/**
 * A sweep at the places of a grid, by a monotone curve through its points.
 *
 * @throws {FaultError} `out-of-domain` where the grid leaves what was read
 * @example resampled(sweep, { points: 50, spacing: 'linear' }).points.length // 50
 */
export function resampled(sweep: Sweep, grid: Grid): Sweep {
  const curve = smoothed(sweep)
  const places = placesOf(grid, curve.low, curve.high)
  return { ...sweep, points: places.map((x) => ({ x, y: curve.at(x) })) }
}
