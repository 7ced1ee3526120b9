import { isLogarithmic, type Sweep, type SweepSymbol, type View, viewWords } from '#core/curve'
import type { KeyEntry, Line, LinePlot, Panel } from '#report/plot'
import { grouped, heldText, sweepAxis } from './axes.ts'

/** A curve and the sweeps of it that a view shows. */
export interface CurveSweeps {
  readonly name: string
  readonly sweeps: readonly Sweep[]
}

/** A sweep with the curve it is of. */
interface Owned {
  readonly curve: number
  readonly sweep: Sweep
}

/** Curves laid over each other as a view shows them; sweeps against other quantities stand below. */
export function curvePlot(curves: readonly CurveSweeps[], view: View): LinePlot {
  const all = curves.flatMap((c, curve) => c.sweeps.map((sweep): Owned => ({ curve, sweep })))
  const names = curves.map((c) => c.name)
  const panels = grouped(all, (o) => o.sweep.x).map(([, owned]) => panelOf(owned, names, view))
  return {
    title: `${names.join(', ')}: ${viewWords[view]}`,
    desc: `${panels.map(panelText).join('. ')}.`,
    panels,
  }
}

const panelText = (p: Panel): string =>
  `${p.y.name} against ${p.x.name}, ${p.lines.length} ${p.lines.length === 1 ? 'line' : 'lines'}`

function panelOf(owned: readonly Owned[], names: readonly string[], view: View): Panel {
  const symbols = [...new Set(owned.map((o) => o.sweep.y))]
  const x = owned[0]!.sweep.x
  const isOne = names.length === 1
  const series = (o: Owned): number => (isOne ? symbols.indexOf(o.sweep.y) : o.curve)
  const isFamily = owned.filter((o) => o.curve === 0 && o.sweep.y === symbols[0]).length > 1
  const lines = owned.map((o): Line => {
    const { at, points, y } = o.sweep
    return {
      series: series(o),
      points: view === 'log' || view === 'gummel' ? points.map((p) => ({ x: p.x, y: Math.abs(p.y) })) : points,
      draw: 'both',
      ...(symbols.indexOf(y) > 0 ? { isDashed: true } : {}),
      ...(isFamily && at !== undefined ? { label: heldText(at) } : {}),
    }
  })
  const isLog = isLogarithmic(view, symbols[0]!)
  return {
    x: sweepAxis([x], isLogarithmic(view, x) ? 'log' : 'linear'),
    y: sweepAxis(symbols, isLog ? 'log' : 'linear'),
    isFromZero: !isLog,
    lines,
    key: isOne ? symbolKey(owned, symbols, isFamily) : [...nameKey(names), ...dashKey(symbols)],
  }
}

const nameKey = (names: readonly string[]): readonly KeyEntry[] =>
  names.map((label, series) => ({ series, draw: 'both', label }))

/** Which current is dashed, where curves have the colours. */
const dashKey = (symbols: readonly SweepSymbol[]): readonly KeyEntry[] =>
  symbols.length < 2
    ? []
    : symbols.map((label, i) => ({ series: 0, draw: 'line', label, ...(i > 0 ? { isDashed: true } : {}) }))

/** The quantities of one curve, and what was held where it was one thing. */
function symbolKey(owned: readonly Owned[], symbols: readonly SweepSymbol[], isFamily: boolean): readonly KeyEntry[] {
  const at = isFamily ? undefined : owned[0]!.sweep.at
  if (symbols.length < 2 && at === undefined) return []
  return symbols.map((symbol, series) => ({
    series,
    draw: 'both',
    label: at === undefined ? symbol : `${symbol} at ${heldText(at)}`,
    ...(series > 0 ? { isDashed: true } : {}),
  }))
}
