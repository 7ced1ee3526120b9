import { type Grid, placesOf, smoothed } from './resample.ts'
import { isSameStep } from './steps.ts'
import { isCurrent, rangeOf, type Sweep } from './sweep.ts'

/** A curve with the sweeps of one view. */
export interface NamedSweeps {
  readonly name: string
  readonly sweeps: readonly Sweep[]
}

/** One curve against the first, place by place. */
export interface Difference {
  readonly name: string
  readonly values: readonly number[]
  /** Its value less that of the first, in the unit of y. */
  readonly differences: readonly number[]
  /** The same as a part of the first; left out where the first is not above zero everywhere. */
  readonly relative?: readonly number[]
  /** Root of the mean square of the relative differences, else of the differences. */
  readonly rms: number
  /** Place of the greatest difference among those `rms` is of. */
  readonly greatestAt: number
}

/** One sweep of the first curve with those of the others that can be held against it. */
export interface Comparison extends Pick<Sweep, 'x' | 'y' | 'at'> {
  readonly places: readonly number[]
  readonly reference: { readonly name: string; readonly values: readonly number[] }
  readonly others: readonly Difference[]
}

export interface Compared {
  readonly comparisons: readonly Comparison[]
  /** What could not be compared, sentences. */
  readonly notes: readonly string[]
}

/**
 * Holds curves against the first of them on a common grid: the places that the first and all that share a sweep with it
 * were read at. Sweeps belong together by their quantities and by what was held.
 *
 * @param grid spacing of places; currents along the axis are spaced by their logarithm whatever it says
 */
export function compared(curves: readonly NamedSweeps[], grid: Pick<Grid, 'points' | 'spacing'>): Compared {
  const [first, ...others] = curves
  const notes: string[] = []
  const comparisons = (first?.sweeps ?? []).flatMap((sweep): readonly Comparison[] => {
    const partners = others.flatMap(({ name, sweeps }) => {
      const found = sweeps.find((s) => isPartner(sweep, s))
      const overlap = found === undefined ? undefined : overlapOf([sweep, found])
      if (found === undefined || overlap === undefined) {
        notes.push(
          `${name} has nothing to hold against ${said(sweep)} of ${first!.name}${found === undefined ? '' : ': they were read at different places'}.`,
        )
        return []
      }
      return [{ name, sweep: found }]
    })
    const overlap = overlapOf([sweep, ...partners.map((p) => p.sweep)])
    if (partners.length === 0) return []
    if (overlap === undefined) {
      notes.push(`The curves share no place at which all of them were read: ${said(sweep)} is left out.`)
      return []
    }
    return [comparison(first!.name, sweep, partners, overlap, grid)]
  })
  return { comparisons, notes }
}

const said = (s: Sweep): string => (s.at === undefined ? `${s.y}` : `${s.y} at ${s.at.symbol} ${s.at.value}`)

function isPartner(a: Sweep, b: Sweep): boolean {
  if (a.x !== b.x || a.y !== b.y || a.at?.symbol !== b.at?.symbol) return false
  return a.at === undefined || isSameStep(a.at.symbol, a.at.value, b.at!.value, Math.abs(a.at.value))
}

function overlapOf(sweeps: readonly Sweep[]): readonly [number, number] | undefined {
  const ranges = sweeps.map(rangeOf)
  const low = Math.max(...ranges.map(([l]) => l))
  const high = Math.min(...ranges.map(([, h]) => h))
  return high > low ? [low, high] : undefined
}

function comparison(
  name: string,
  sweep: Sweep,
  partners: readonly { readonly name: string; readonly sweep: Sweep }[],
  [low, high]: readonly [number, number],
  grid: Pick<Grid, 'points' | 'spacing'>,
): Comparison {
  const isLog = low > 0 && (isCurrent(sweep.x) || grid.spacing === 'log')
  const places = placesOf({ points: grid.points, spacing: isLog ? 'log' : 'linear' }, low, high)
  const values = places.map(smoothed(sweep).at)
  const others = partners.map((p) => difference(p.name, places, values, places.map(smoothed(p.sweep).at)))
  const { x, y, at } = sweep
  return { x, y, ...(at === undefined ? {} : { at }), places, reference: { name, values }, others }
}

function difference(
  name: string,
  places: readonly number[],
  first: readonly number[],
  own: readonly number[],
): Difference {
  const differences = own.map((v, i) => v - first[i]!)
  const isPositive = first.every((v) => v > 0)
  const relative = isPositive ? differences.map((d, i) => d / first[i]!) : undefined
  const measured = relative ?? differences
  const greatest = measured.reduce((at, d, i) => (Math.abs(d) > Math.abs(measured[at]!) ? i : at), 0)
  return {
    name,
    values: own,
    differences,
    ...(relative === undefined ? {} : { relative }),
    rms: Math.sqrt(measured.reduce((s, d) => s + d * d, 0) / measured.length),
    greatestAt: places[greatest]!,
  }
}
