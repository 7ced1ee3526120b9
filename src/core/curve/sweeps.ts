import type { Curve, CurvePoint, CurveSymbol } from '#core/fit'
import { bySteps } from './steps.ts'
import type { Sweep, SweepPoint, SweepSymbol } from './sweep.ts'

/** A quantity against another, and what is held meanwhile. */
export interface Asked {
  readonly x: CurveSymbol
  readonly y: SweepSymbol
  readonly held?: CurveSymbol
}

/** Fewest different places that make a sweep. */
const fewest = 2

/**
 * The sweeps of a curve that show one quantity against another: one for each step of what was held, in the order of its
 * value. Rows that lack a value are passed over; a row without the held one belongs to a sweep of its own.
 */
export function sweepsOf(curve: Curve, { x, y, held }: Asked): readonly Sweep[] {
  const rows = curve.points.filter((p) => p.values[x] !== undefined && readOf(p, y) !== undefined)
  const stepped = held === undefined ? [] : rows.filter((p) => p.values[held] !== undefined)
  const loose = stepped.length === 0 ? rows : rows.filter((p) => p.values[held!] === undefined)
  const steps = held === undefined ? [] : bySteps(stepped, held, (p) => p.values[held]!)
  return [
    ...steps.map(
      ({ value, members }): Sweep => ({ x, y, at: { symbol: held!, value }, points: pointsOf(members, x, y) }),
    ),
    { x, y, points: pointsOf(loose, x, y) },
  ].filter((s) => new Set(s.points.map((p) => p.x)).size >= fewest)
}

/** Whether sweeps look like what was swept on the bench, and not like cuts through a family taken the other way. */
export function isSwept(sweeps: readonly Sweep[]): boolean {
  const most = sweeps.reduce((m, s) => Math.max(m, s.points.length), 0)
  return most >= Math.max(3, sweeps.length)
}

const pointsOf = (rows: readonly CurvePoint[], x: CurveSymbol, y: SweepSymbol): readonly SweepPoint[] =>
  rows
    .map((p): SweepPoint => {
      const u = spreadOf(p, y)
      return { x: p.values[x]!, y: readOf(p, y)!, ...(u === undefined ? {} : { u }), row: p.row }
    })
    .sort((a, b) => a.x - b.x)

function readOf({ values }: CurvePoint, y: SweepSymbol): number | undefined {
  if (y !== 'h_FE') return values[y]
  const { I_C: ic, I_B: ib } = values
  return ic !== undefined && ib !== undefined && ic > 0 && ib > 0 ? ic / ib : undefined
}

/** Standard uncertainty of a value; of the gain from those of both currents, taken to be independent. */
function spreadOf({ values, u }: CurvePoint, y: SweepSymbol): number | undefined {
  if (y !== 'h_FE') return u[y]
  if (u.I_C === undefined || u.I_B === undefined) return undefined
  return (values.I_C! / values.I_B!) * Math.hypot(u.I_C / values.I_C!, u.I_B / values.I_B!)
}
