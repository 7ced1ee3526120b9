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

/** Labels of a scale, without those that would run into the one before. */
function labels(scale: Scale, room: number): readonly { readonly at: number; readonly label: string }[] {
  const kept: { at: number; label: string }[] = []
  for (const t of scale.ticks) {
    const at = place(scale, t.value)
    const before = kept.at(-1)
    if (t.label !== '' && (before === undefined || Math.abs(at - before.at) >= room)) kept.push({ at, label: t.label })
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
    <svg className="plot look-axes" viewBox={`0 0 ${width} ${height}`} width={width} height={height} aria-hidden="true">
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
