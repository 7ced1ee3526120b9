import { type FittedSweep, fittedSweeps, residualSweeps, type Sweep, scatterBand, sweepsToFit } from '#core/curve'
import type { Curve, CurveFit } from '#core/fit'
import type { KeyEntry, Line, LinePlot, Panel, Swath } from '#report/plot'
import { grouped, heldText, percentAxis, sweepAxis } from './axes.ts'

/**
 * A curve with the law that was fitted to it, and below each pair of axes what the readings leave over: the swath is the
 * 95 % interval of the law, the dotted lines are where 95 of 100 readings are to be expected.
 */
export function fitPlot(curve: Curve, fit: CurveFit): LinePlot {
  const sweeps = sweepsToFit(curve)
  const laws = fittedSweeps(curve, fit, sweeps)
  const panels = grouped(sweeps, (s) => s.x).flatMap(([x, own]) => {
    const law = laws.filter((l) => l.x === x)
    return [curvePanel(fit, own, law), residualPanel(fit, own, law)]
  })
  return {
    title: `${fit.name}: readings and the law that was fitted at ${fit.temperatureC} °C`,
    desc: `${fit.points} readings, the fitted law with its 95 % interval, and below the residuals of the readings.`,
    panels,
  }
}

const symbolsIn = (sweeps: readonly Pick<Sweep, 'y'>[]): readonly Sweep['y'][] => [...new Set(sweeps.map((s) => s.y))]

function curvePanel(fit: CurveFit, sweeps: readonly Sweep[], laws: readonly FittedSweep[]): Panel {
  const symbols = symbolsIn(sweeps)
  const isFamily = sweeps.filter((s) => s.y === symbols[0]).length > 1
  const read = sweeps.map((s): Line => ({ series: symbols.indexOf(s.y), points: s.points, draw: 'points' }))
  const drawn = laws.map(
    (l): Line => ({
      series: symbols.indexOf(l.y),
      points: l.points,
      draw: 'line',
      ...(isFamily && l.at !== undefined ? { label: heldText(l.at) } : {}),
    }),
  )
  const isLog = fit.kind === 'diode' || sweeps[0]!.x === 'V_BE'
  return {
    x: sweepAxis([sweeps[0]!.x], 'linear'),
    y: sweepAxis(symbols, isLog ? 'log' : 'linear'),
    isFromZero: !isLog,
    lines: [...drawn, ...read],
    swaths: laws.flatMap((l) => swathOf(l, symbols.indexOf(l.y))),
    key: keyOf(sweeps, symbols, isFamily),
  }
}

function swathOf(law: FittedSweep, series: number): readonly Swath[] {
  const points = law.points.flatMap(({ x, low, high }) =>
    low === undefined || high === undefined ? [] : [{ x, low, high }],
  )
  return points.length < 2 ? [] : [{ series, points }]
}

function keyOf(sweeps: readonly Sweep[], symbols: readonly Sweep['y'][], isFamily: boolean): readonly KeyEntry[] {
  const at = isFamily ? undefined : sweeps[0]!.at
  const held = at === undefined ? '' : ` at ${heldText(at)}`
  return [
    ...symbols.map((symbol, series): KeyEntry => ({ series, draw: 'points', label: `${symbol}${held}, as read` })),
    { series: 0, draw: 'line', label: 'fitted law' },
  ]
}

function residualPanel(fit: CurveFit, sweeps: readonly Sweep[], laws: readonly FittedSweep[]): Panel {
  const symbols = symbolsIn(sweeps)
  const band = scatterBand(fit)
  const percent = laws.map(
    (l): FittedSweep => ({
      ...l,
      points: l.points.map(({ x, y, low, high }) =>
        low === undefined || high === undefined
          ? { x, y }
          : { x, y, low: 100 * (low / y - 1), high: 100 * (high / y - 1) },
      ),
    }),
  )
  return {
    x: sweepAxis([sweeps[0]!.x], 'linear'),
    y: percentAxis('read less fitted, % of fitted'),
    lines: residualSweeps(fit, sweeps).map((s) => ({
      series: symbols.indexOf(s.y),
      points: s.points.map((p) => ({ x: p.x, y: 100 * p.relative })),
      draw: 'points',
    })),
    swaths: percent.flatMap((l) => swathOf(l, symbols.indexOf(l.y))),
    bounds: band === undefined ? [0] : [0, 100 * band, -100 * band],
    key: [
      { series: 0, draw: 'swath', label: '95 % interval of the law' },
      ...(band === undefined ? [] : [{ series: 0, draw: 'bound' as const, label: 'where 95 of 100 readings lie' }]),
    ],
    height: 130,
  }
}
