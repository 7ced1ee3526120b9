import { FaultError } from '#core/fault'
import { fisherCdf, type LinearFit, leastSquares, summarize } from '#core/numeric'
import type { CalibrationPoint, CorrectionLaw } from '#core/tester'

/** A correction laid through calibration readings. */
export interface Correction {
  readonly law: CorrectionLaw
  /** Straight line of reference less shown against shown. */
  readonly line: LinearFit
  /** Standard deviation of one reading about the law. */
  readonly scatter: number
  /** Degrees of freedom of that; at least 1. */
  readonly dof: number
  /** Whether a straight line is too simple: chance of such a bend by scatter alone; left out where nothing was repeated. */
  readonly bend?: number
  /** Half of the mean difference between readings from below and from above; left out where there are none of both. */
  readonly friction?: number
}

/** A bend counts as seen below this chance. */
const bent = 0.05
/** A curve needs so many different readings. */
const leastLevels = 4

/**
 * The correction of a range: a straight line, or a monotone curve through the means where repeats show that a line is
 * too simple.
 *
 * @throws {FaultError} `out-of-domain` for fewer than three points or all at one reading
 * @see JCGM 100:2008, H.3; the test for a bend: N. R. Draper and H. Smith, Applied Regression Analysis, 1.5 (lack of fit)
 */
export function correctionOf(
  points: readonly CalibrationPoint[],
  wanted: 'auto' | 'line' | 'curve' = 'auto',
): Correction {
  if (points.length < 3)
    throw new FaultError({
      code: 'out-of-domain',
      name: 'count of calibration readings',
      value: points.length,
      allowed: 'at least 3',
    })
  // about the mean, offset and slope are independent
  const at = summarize(points.map((p) => p.shown)).mean
  const line = leastSquares(
    [points.map(() => 1), points.map((p) => p.shown - at)],
    points.map((p) => p.reference - p.shown),
  )
  const levels = levelsOf(points)
  const bend = bendOf(line, levels)
  const friction = frictionOf(points)
  const isCurve =
    wanted === 'curve' || (wanted === 'auto' && bend !== undefined && bend < bent && levels.length >= leastLevels)
  const found = isCurve ? curveOf(levels, line) : lineOf(line, at)
  return {
    ...found,
    line,
    ...(bend === undefined ? {} : { bend }),
    ...(friction === undefined ? {} : { friction }),
  }
}

const lineOf = (line: LinearFit, at: number): Pick<Correction, 'law' | 'scatter' | 'dof'> => ({
  law: {
    kind: 'line',
    at,
    offset: line.coefficients[0]!,
    slope: line.coefficients[1]!,
    uOffset: line.sd[0]!,
    uSlope: line.sd[1]!,
  },
  scatter: line.residualSd,
  dof: line.dof,
})

/** Readings at one setting of the reference. */
interface Level {
  readonly shown: number
  readonly correction: number
  readonly corrections: readonly number[]
}

/** References closer than this to each other, relative to the largest, count as one setting. */
const sameSetting = 2e-3

function levelsOf(points: readonly CalibrationPoint[]): readonly Level[] {
  const size = Math.max(...points.map((p) => Math.abs(p.reference)))
  const groups: CalibrationPoint[][] = []
  for (const p of [...points].sort((a, b) => a.reference - b.reference)) {
    const last = groups.at(-1)
    if (last !== undefined && p.reference - last[0]!.reference <= sameSetting * size) last.push(p)
    else groups.push([p])
  }
  return groups.map((g) => {
    const corrections = g.map((p) => p.reference - p.shown)
    return { shown: summarize(g.map((p) => p.shown)).mean, correction: summarize(corrections).mean, corrections }
  })
}

/** Sum of squares and degrees of freedom of repeats about their means. */
function repeatsOf(levels: readonly Level[]): { readonly squares: number; readonly dof: number } {
  const squares = levels.reduce((sum, l) => sum + l.corrections.reduce((s, c) => s + (c - l.correction) ** 2, 0), 0)
  return { squares, dof: levels.reduce((n, l) => n + l.corrections.length - 1, 0) }
}

/** Less than this part of what is shown is rounding, not a bend. */
const rounding = 1e-12

function bendOf(line: LinearFit, levels: readonly Level[]): number | undefined {
  const { squares, dof } = repeatsOf(levels)
  const bendDof = line.dof - dof
  if (dof === 0 || bendDof <= 0) return undefined
  if (squares === 0) return line.rss > (rounding * Math.max(...levels.map((l) => Math.abs(l.shown)))) ** 2 ? 0 : 1
  const ratio = Math.max(0, line.rss - squares) / bendDof / (squares / dof)
  return 1 - fisherCdf(ratio, bendDof, dof)
}

function curveOf(levels: readonly Level[], line: LinearFit): Pick<Correction, 'law' | 'scatter' | 'dof'> {
  const sorted = [...levels].sort((a, b) => a.shown - b.shown)
  const rises = sorted.every((l, i) => i === 0 || l.shown > sorted[i - 1]!.shown)
  const climbs = sorted.every(
    (l, i) => i === 0 || l.shown + l.correction > sorted[i - 1]!.shown + sorted[i - 1]!.correction,
  )
  if (sorted.length < 2 || !rises || !climbs)
    throw new FaultError({
      code: 'out-of-domain',
      name: 'order of the calibration readings',
      value: 'not rising with the reference',
      allowed: 'rising for a curve: look for a slip, or ask for a line',
    })
  const { squares, dof } = repeatsOf(levels)
  // without repeats the scatter about the line is all there is to go by
  const scatter = dof === 0 ? line.residualSd : Math.sqrt(squares / dof)
  return {
    law: {
      kind: 'curve',
      shown: sorted.map((l) => l.shown),
      correction: sorted.map((l) => l.correction),
      u: sorted.map((l) => scatter / Math.sqrt(l.corrections.length)),
    },
    scatter,
    dof: dof === 0 ? line.dof : dof,
  }
}

/** Needles that stick read low on the way up and high on the way down. */
function frictionOf(points: readonly CalibrationPoint[]): number | undefined {
  const size = Math.max(...points.map((p) => Math.abs(p.reference)))
  const down = points.filter((p) => p.way === 'down')
  const gaps = points
    .filter((p) => p.way === 'up')
    .flatMap((p) => {
      const other = down.find((d) => Math.abs(d.reference - p.reference) <= sameSetting * size)
      return other === undefined ? [] : [other.shown - other.reference - (p.shown - p.reference)]
    })
  return gaps.length === 0 ? undefined : Math.abs(summarize(gaps).mean) / 2
}
