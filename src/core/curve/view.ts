import { FaultError } from '#core/fault'
import type { Curve, FitKind } from '#core/fit'
import type { Sweep, SweepSymbol } from './sweep.ts'
import { type Asked, isSwept, sweepsOf } from './sweeps.ts'

/** The ways in which people look at a curve. */
export const views = ['lin', 'log', 'gummel', 'gain', 'output'] as const

export type View = (typeof views)[number]

export const viewWords: Readonly<Record<View, string>> = {
  lin: 'current against voltage',
  log: 'current against voltage, logarithmic',
  gummel: 'collector and base current against V_BE, logarithmic',
  gain: 'gain against collector current',
  output: 'output family',
}

/** A curve as it is looked at. */
export interface Seen {
  readonly view: View
  readonly sweeps: readonly Sweep[]
}

const transfer: Readonly<Record<FitKind, readonly Asked[]>> = {
  diode: [{ x: 'V_F', y: 'I_F' }],
  bjt: [{ x: 'V_BE', y: 'I_C', held: 'V_CE' }],
  jfet: [{ x: 'V_GS', y: 'I_D', held: 'V_DS' }],
  mosfet: [{ x: 'V_GS', y: 'I_D', held: 'V_DS' }],
}
const reverse: Asked = { x: 'V_R', y: 'I_R' }
const base: Asked = { x: 'V_BE', y: 'I_B', held: 'V_CE' }
const gain: Asked = { x: 'I_C', y: 'h_FE', held: 'V_CE' }

/**
 * The sweeps of a curve that a view shows.
 *
 * @throws {FaultError} where the kind has no such view, or the curve holds nothing for it
 */
export function sweepsFor(curve: Curve, view: View): readonly Sweep[] {
  const found = sweepsIn(curve, view)
  if (found.length > 0) return found
  throw new FaultError({
    code: 'bad-input',
    place: { file: curve.name },
    value: view,
    problem: 'is a view for which this curve holds no sweep of two points or more',
    mend: `It shows ${viewsOf(curve).join(', ') || 'nothing that could be drawn'}.`,
  })
}

function sweepsIn(curve: Curve, view: View): readonly Sweep[] {
  const of = (asked: Asked): readonly Sweep[] => sweepsOf(curve, asked)
  const isBipolar = curve.kind === 'bjt'
  const main = transfer[curve.kind].flatMap(of)
  switch (view) {
    case 'lin':
    case 'log':
      if (curve.kind === 'diode') return [...signed(main, view), ...of(reverse)]
      return swept([main, output(curve)])
    case 'gummel':
      return isBipolar ? [...main, ...of(base)] : []
    case 'gain':
      return isBipolar ? gainOf(curve) : []
    case 'output':
      return output(curve)
  }
}

/** Groups that look swept; all where none does. */
function swept(groups: readonly (readonly Sweep[])[]): readonly Sweep[] {
  const good = groups.filter((g) => g.length > 0 && isSwept(g))
  return (good.length > 0 ? good : groups).flat()
}

/** A logarithm shows what is forward as it is, and what is reverse as magnitudes on its own axis. */
function signed(sweeps: readonly Sweep[], view: View): readonly Sweep[] {
  if (view === 'lin') return sweeps
  const side = (s: Sweep, sign: 1 | -1): Sweep => ({
    ...s,
    ...(sign < 0 ? { x: 'V_R', y: 'I_R' } : {}),
    points: s.points
      .filter((p) => p.x * sign > 0 && p.y * sign > 0)
      .map((p) => ({ ...p, x: p.x * sign, y: p.y * sign }))
      .sort((a, b) => a.x - b.x),
  })
  return sweeps.flatMap((s) => [side(s, 1), side(s, -1)]).filter((s) => s.points.length >= 2)
}

/** Gain from the rows that were driven by V_BE; from all where none was. */
function gainOf(curve: Curve): readonly Sweep[] {
  const driven = curve.points.filter((p) => p.values.V_BE !== undefined)
  const rows = driven.some((p) => p.values.I_B !== undefined) ? driven : curve.points
  return sweepsOf({ ...curve, points: rows }, gain)
}

/** Collector or drain current against its voltage, at steps of what drives it. */
function output(curve: Curve): readonly Sweep[] {
  if (curve.kind === 'diode') return []
  if (curve.kind !== 'bjt') return sweepsOf(curve, { x: 'V_DS', y: 'I_D', held: 'V_GS' })
  const byBase = sweepsOf(curve, { x: 'V_CE', y: 'I_C', held: 'I_B' })
  const byVoltage = sweepsOf(curve, { x: 'V_CE', y: 'I_C', held: 'V_BE' })
  const driven = byBase.filter((s) => s.at !== undefined)
  return driven.length > 0 ? byBase : byVoltage
}

/** The views for which a curve holds something. */
export const viewsOf = (curve: Curve): readonly View[] => views.filter((v) => sweepsIn(curve, v).length > 0)

/** The view people would look at first: of a transistor the Gummel plot where one was taken, else its family. */
export function firstView(curve: Curve): View {
  if (curve.kind === 'diode') return 'log'
  const main = transfer[curve.kind].flatMap((asked) => sweepsOf(curve, asked))
  const isDriven = main.length > 0 && isSwept(main)
  if (curve.kind === 'bjt') return isDriven ? 'gummel' : 'output'
  return isDriven || output(curve).length === 0 ? 'lin' : 'output'
}

/** The sweeps that show how a law fits: the driven ones, and the output family where one was taken. */
export function sweepsToFit(curve: Curve): readonly Sweep[] {
  if (curve.kind === 'diode') return sweepsIn(curve, 'log')
  const main =
    curve.kind === 'bjt' ? sweepsIn(curve, 'gummel') : transfer[curve.kind].flatMap((a) => sweepsOf(curve, a))
  return swept([main, output(curve)])
}

/** Whether the values of a view are drawn on a logarithmic axis. */
export function isLogarithmic(view: View, symbol: SweepSymbol): boolean {
  if (view === 'gain') return symbol === 'I_C'
  return (view === 'log' || view === 'gummel') && symbol.startsWith('I')
}
