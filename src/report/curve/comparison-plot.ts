import { type Compared, type Comparison, rangeOf, type View } from '#core/curve'
import type { Line, LinePlot, Panel } from '#report/plot'
import { grouped, heldText, percentAxis, sweepAxis } from './axes.ts'
import { type CurveSweeps, curvePlot } from './curve-plot.ts'

/** Curves over each other, and below them how far each is from the first. */
export function comparisonPlot(curves: readonly CurveSweeps[], found: Compared, view: View): LinePlot {
  const whole = curvePlot(curves, view)
  const names = curves.map((c) => c.name)
  const below = grouped(found.comparisons, (c) => `${c.x} ${c.y}`).map(([, group]) => ({
    ...differencePanel(group, names),
    reach: reachOf(curves, group[0]!.x),
  }))
  return {
    title: `${whole.title}, and how far the others are from ${names[0]}`,
    desc: `${whole.desc} Below: difference from ${names[0]}.`,
    panels: [...whole.panels, ...below],
  }
}

/** First and last place at which any of the curves was read. */
function reachOf(curves: readonly CurveSweeps[], x: Comparison['x']): readonly number[] {
  const places = curves.flatMap((c) => c.sweeps.filter((s) => s.x === x).flatMap(rangeOf))
  return [Math.min(...places), Math.max(...places)]
}

function differencePanel(group: readonly Comparison[], names: readonly string[]): Panel {
  const { x, y } = group[0]!
  const isRelative = group.every((c) => c.others.every((o) => o.relative !== undefined))
  const lines = group.flatMap((c) =>
    c.others.map((o): Line => {
      const values = isRelative ? o.relative!.map((r) => 100 * r) : o.differences
      return {
        series: names.indexOf(o.name),
        points: c.places.map((place, i) => ({ x: place, y: values[i]! })),
        draw: 'line',
        ...(group.length > 1 && c.at !== undefined ? { label: heldText(c.at) } : {}),
      }
    }),
  )
  const own = sweepAxis([y], 'linear')
  return {
    x: sweepAxis([x], x === 'I_C' ? 'log' : 'linear'),
    y: isRelative ? percentAxis(`difference in ${own.name}, %`) : { ...own, name: `difference in ${own.name}` },
    lines,
    bounds: [0],
    height: 130,
  }
}
