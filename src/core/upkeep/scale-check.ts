import { FaultError } from '#core/fault'
import { leastSquares } from '#core/numeric'

/** A point of a scale: the true value, and what was shown coming from below and from above. All in one unit. */
export interface ScalePoint {
  readonly true: number
  readonly up: number
  readonly down?: number
}

export interface ScaleCheckOptions {
  /** Value the class refers to: the upper end, or for a centre zero the whole span (IEC 60051-1). */
  readonly fullScale: number
  /** Class that is printed on it, percent; left out where none is. */
  readonly classPercent?: number
  /** Expanded uncertainty (95 %) of the true values, as a part of full scale. */
  readonly expanded: number
}

/**
 * Class indices of ammeters and voltmeters, percent. Source: IEC 60051-2, from memory; that an index is the limit of
 * the intrinsic error in percent of the fiducial value is as published.
 */
export const classIndices = [0.05, 0.1, 0.2, 0.3, 0.5, 1, 1.5, 2, 2.5, 3, 5] as const

/** What a movement's scale is worth; all numbers are parts of full scale. */
export interface ScaleCheck {
  /** Error of each point: what was shown less what was true, from below and from above. */
  readonly points: readonly (ScalePoint & { readonly errorUp: number; readonly errorDown?: number })[]
  /** The largest error of all, with its sign. */
  readonly largest: number
  /** What is shown at nothing; left out where nothing was not tried. */
  readonly zero?: number
  /** Largest difference between coming from below and from above, and where; left out where only one way was tried. */
  readonly friction?: { readonly difference: number; readonly at: number }
  /** A straight line through the errors: what the zero screw and what the sensitivity would mend. */
  readonly offset: number
  readonly slope: number
  /** The largest error that would be left after both. */
  readonly left: number
  /** The finest class whose limit all errors keep, percent; left out where none does. */
  readonly meets?: number
  /** Against the class that is printed on it, with the uncertainty of the true values as guard band (ISO 14253-1). */
  readonly verdict?: 'conforms' | 'does not conform' | 'undecided'
  readonly advice: readonly string[]
}

/**
 * Errors, zero, friction and class of a scale read against true values.
 *
 * @throws {FaultError} `out-of-domain` for fewer than three points
 * @see IEC 60051-1 for the class, docs/how-to/movement.md
 */
export function checkScale(points: readonly ScalePoint[], o: ScaleCheckOptions): ScaleCheck {
  if (points.length < 3)
    throw new FaultError({ code: 'out-of-domain', name: 'Count of points', value: points.length, allowed: '3 or more' })
  const part = (shown: number, p: ScalePoint): number => (shown - p.true) / o.fullScale
  const told = points.map((p) => ({
    ...p,
    errorUp: part(p.up, p),
    ...(p.down === undefined ? {} : { errorDown: part(p.down, p) }),
  }))
  const errors = told.flatMap((p) => [
    { at: p.true / o.fullScale, error: p.errorUp },
    ...(p.errorDown === undefined ? [] : [{ at: p.true / o.fullScale, error: p.errorDown }]),
  ])
  const largest = largestOf(errors.map((e) => e.error))
  const zeros = errors.filter((e) => e.at === 0)
  const zero = zeros.length === 0 ? undefined : zeros.reduce((sum, e) => sum + e.error, 0) / zeros.length
  const friction = frictionOf(points, o.fullScale)
  const line = leastSquares(
    [errors.map(() => 1), errors.map((e) => e.at)],
    errors.map((e) => e.error),
  )
  const [offset, slope] = line.coefficients as [number, number]
  const meets = classIndices.find((c) => Math.abs(largest) * 100 <= c * (1 + 1e-9))
  const verdict = verdictOf(Math.abs(largest), o)
  const found = {
    points: told,
    largest,
    ...(zero === undefined ? {} : { zero }),
    ...(friction && { friction }),
    offset,
    slope,
    left: largestOf([...line.residuals]),
    ...(meets === undefined ? {} : { meets }),
    ...(verdict && { verdict }),
  }
  return { ...found, advice: advise(found, o) }
}

const largestOf = (errors: readonly number[]): number =>
  errors.reduce((far, e) => (Math.abs(e) > Math.abs(far) ? e : far), 0)

function frictionOf(points: readonly ScalePoint[], fullScale: number): ScaleCheck['friction'] {
  const both = points.flatMap((p) =>
    p.down === undefined ? [] : [{ difference: Math.abs(p.down - p.up) / fullScale, at: p.true }],
  )
  return both.sort((a, b) => b.difference - a.difference)[0]
}

function verdictOf(error: number, { classPercent, expanded }: ScaleCheckOptions): ScaleCheck['verdict'] {
  if (classPercent === undefined) return undefined
  const limit = classPercent / 100
  if (error + expanded <= limit * (1 + 1e-9)) return 'conforms'
  return error - expanded > limit ? 'does not conform' : 'undecided'
}

const percent = (part: number): string => `${Number((part * 100).toPrecision(2))} %`

/** Class the advice goes by where none is printed: a panel meter's (common practice). */
const usualClass = 2

function advise(c: Omit<ScaleCheck, 'advice'>, o: ScaleCheckOptions): readonly string[] {
  const half = (o.classPercent ?? usualClass) / 200
  const lines: string[] = []
  if (Math.abs(c.offset) > half / 2 && Math.abs(c.zero ?? c.offset) > half / 2)
    lines.push(`Everything stands about ${percent(c.offset)} off: turn the zero screw first, then read again.`)
  if (Math.abs(c.slope) > half)
    lines.push(
      c.slope > 0
        ? `It shows ${percent(c.slope)} too much in proportion: more in series, or a little less across the movement.`
        : `It shows ${percent(-c.slope)} too little in proportion: a tired magnet, or too much in series; trim the resistors, leave the magnet.`,
    )
  if (c.friction !== undefined && c.friction.difference > half)
    lines.push(
      `Up and down differ by ${percent(c.friction.difference)}, more than half of the class: it sticks. Look for lint and iron in the gap, and for a pivot screwed too tight; tap the case before you read.`,
    )
  if (c.verdict === 'undecided')
    lines.push('The doubt of the true values reaches over the limit: take a closer reference to settle it.')
  return lines
}
