import { type Axis, place, type Scale } from '#report/plot'
import { LetterSymbol } from '#web/typeset'

/** What an axis shows: its name, symbol, unit, and whether it is logarithmic. */
export function AxisTitle({ axis, scale }: { readonly axis: Axis; readonly scale: Scale }) {
  return (
    <>
      {axis.name.charAt(0).toUpperCase() + axis.name.slice(1)} <LetterSymbol of={axis.symbol} />
      {scale.unit !== '' && `, ${scale.unit}`}
      {scale.kind === 'log' && ', log scale'}
    </>
  )
}

/** How round a number is: 1, 10, 100 first, then fives and twos, then the rest. */
function roundness(value: number): number {
  const digits = Number(Math.abs(value).toExponential(6).split('e')[0])
  return value === 0 || digits === 1 ? 0 : digits === 5 ? 1 : digits === 2 ? 2 : 3
}

/** Labels of a scale; where two would run into each other the rounder number stays. */
function labels(scale: Scale, room: number): readonly { readonly at: number; readonly label: string }[] {
  const all = scale.ticks.filter((t) => t.label !== '')
  const rounder = scale.kind === 'log' ? all.toSorted((a, b) => roundness(a.value) - roundness(b.value)) : all
  const kept: { at: number; label: string }[] = []
  for (const { value, label } of rounder) {
    const at = place(scale, value)
    if (kept.every((k) => Math.abs(at - k.at) >= room)) kept.push({ at, label })
  }
  return kept
}

interface Props {
  readonly width: number
  readonly height: number
  readonly x: Scale
  readonly y: Scale
}

/** Axes and grid of a drawing. */
export function Axes({ width, height, x, y }: Props) {
  return (
    <svg
      className="plot chart-axes"
      viewBox={`0 0 ${width} ${height}`}
      width={width}
      height={height}
      aria-hidden="true"
    >
      {labels(y, 18).map((t) => (
        <g key={t.label}>
          <path className="grid" d={`M${x.from} ${t.at}H${x.to}`} />
          <text className="label" x={x.from - 8} y={t.at + 4} textAnchor="end">
            {t.label}
          </text>
        </g>
      ))}
      {labels(x, 46).map((t) => (
        <g key={t.label}>
          <path className="grid" d={`M${t.at} ${y.to}V${y.from}`} />
          <path className="tick" d={`M${t.at} ${y.from}v5`} />
          <text className="label" x={t.at} y={y.from + 18} textAnchor="middle">
            {t.label}
          </text>
        </g>
      ))}
      <path className="axis" d={`M${x.from} ${y.to}V${y.from}H${x.to}`} />
    </svg>
  )
}
