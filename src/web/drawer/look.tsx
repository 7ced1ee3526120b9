import { useElementSize } from '@mantine/hooks'
import { useEffect, useMemo, useRef, useState } from 'react'
import { isUnit } from '#core/quantity'
import { axisKind, parameterName } from '#report/model'
import { type Axis, layScale, place, type Scale } from '#report/plot'
import { Axes, AxisTitle } from '#web/plot'
import { useScheme } from '#web/theme'
import { plainText } from '#web/typeset'
import { binsOf } from './bins.ts'
import { type Box, Brush, isInside } from './brush.tsx'
import { cloudOf, drawCloud, isPlaced, nearest } from './cloud.ts'
import type { Parts } from './parts.ts'
import { room } from './room.ts'
import { only, type Selection, toggled, withRows } from './selection.ts'
import './look.css'

/** How one looks at the drawer. */
export interface LookAt {
  readonly kind: 'none' | 'scatter' | 'histogram'
  readonly x: string
  readonly y: string
}

interface Props {
  readonly parts: Parts
  readonly rows: Int32Array
  readonly at25: boolean
  readonly look: LookAt
  readonly onLook: (look: LookAt) => void
  readonly selection: Selection
  readonly onSelect: (selection: Selection) => void
  readonly symbols: readonly string[]
}

const axisOf = (parts: Parts, symbol: string): Axis => {
  const unit = parts.symbols.get(symbol)?.unit ?? '1'
  return { symbol, name: parameterName(symbol), unit: isUnit(unit) ? unit : '1', kind: axisKind(symbol) }
}

const valuesOf = (parts: Parts, symbol: string, at25: boolean): Float64Array => {
  const v = parts.symbols.get(symbol)
  return (at25 ? v?.at25 : v?.value) ?? new Float64Array(parts.count).fill(Number.NaN)
}

/** Two ends of the values shown, for laying a scale. */
function endsOf(rows: Int32Array, values: Float64Array, kind: Axis['kind']): readonly number[] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (let i = 0; i < rows.length; i++) {
    const v = values[rows[i]!]!
    if (!Number.isFinite(v) || (kind === 'log' && v <= 0)) continue
    if (v < low) low = v
    if (v > high) high = v
  }
  return low <= high ? [low, high] : []
}

/** Gain against leakage or how often each value comes: a drag chooses, and the table shows what was chosen. */
export function Look(p: Props) {
  const { ref, width } = useElementSize()
  const isScatter = p.look.kind === 'scatter'
  return (
    <section className="look" aria-label={isScatter ? 'Scatter of the parts shown' : 'How often each value comes'}>
      <div className="look-choose">
        <SymbolSelect
          label="Across"
          value={p.look.x}
          symbols={p.symbols}
          onChange={(x) => p.onLook({ ...p.look, x })}
        />
        {isScatter && (
          <SymbolSelect label="Up" value={p.look.y} symbols={p.symbols} onChange={(y) => p.onLook({ ...p.look, y })} />
        )}
        <p className="soft small">Drag to choose parts; with Shift to choose more. A press chooses one.</p>
      </div>
      <div ref={ref} className="look-place">
        {width > 200 && (isScatter ? <Scatter {...p} width={width} /> : <Histogram {...p} width={width} />)}
      </div>
    </section>
  )
}

interface SymbolSelectProps {
  readonly label: string
  readonly value: string
  readonly symbols: readonly string[]
  readonly onChange: (symbol: string) => void
}

function SymbolSelect({ label, value, symbols, onChange }: SymbolSelectProps) {
  return (
    <label className="look-symbol">
      <span className="field-label">{label}</span>
      <select className="select" value={value} onChange={(e) => onChange(e.target.value)}>
        {symbols.map((s) => (
          <option key={s} value={s}>
            {s.replace('_', ' ')}, {parameterName(s)}
          </option>
        ))}
      </select>
    </label>
  )
}

type Sized = Props & { readonly width: number }

const acrossOf = (axis: Axis, ends: readonly number[], width: number): Scale =>
  layScale(axis, ends, { from: room.left, to: width - room.right, labels: width < 480 ? 4 : 9 })

function Scatter(p: Sized) {
  const { parts, rows, at25, look, selection, width } = p
  const canvas = useRef<HTMLCanvasElement>(null)
  const [scheme] = useScheme()
  const [over, setOver] = useState<number>()
  const axes = [axisOf(parts, look.x), axisOf(parts, look.y)] as const
  const laid = useMemo(() => {
    const [xAxis, yAxis] = [axisOf(parts, look.x), axisOf(parts, look.y)]
    const values = [valuesOf(parts, look.x, at25), valuesOf(parts, look.y, at25)] as const
    const x = acrossOf(xAxis, endsOf(rows, values[0], xAxis.kind), width)
    const y = layScale(yAxis, endsOf(rows, values[1], yAxis.kind), {
      from: room.height - room.bottom,
      to: room.top,
      labels: 9,
    })
    return { x, y, cloud: cloudOf(parts, rows, values, [x, y]) }
  }, [parts, rows, at25, look.x, look.y, width])
  // biome-ignore lint/correctness/useExhaustiveDependencies: the colours change with the scheme
  useEffect(() => {
    if (canvas.current !== null) drawCloud(canvas.current, laid.cloud, selection.rows)
  }, [laid, selection, scheme])
  const { cloud } = laid
  const choose = (box: Box | undefined, at: readonly [number, number], isMore: boolean): void => {
    if (box === undefined) {
      const found = nearest(cloud, at[0], at[1])
      const pressed = found === undefined ? [] : [cloud.rows[found]!]
      p.onSelect(isMore ? toggled(selection, pressed) : only(pressed))
      return
    }
    const inside: number[] = []
    for (let i = 0; i < cloud.count; i++) if (isInside(box, cloud.x[i]!, cloud.y[i]!)) inside.push(cloud.rows[i]!)
    p.onSelect(isMore ? withRows(selection, inside) : only(inside))
  }
  return (
    <figure className="chart">
      <p className="chart-up">
        <AxisTitle axis={axes[1]} scale={laid.y} />
      </p>
      <div className="chart-place" style={{ height: room.height }}>
        <Axes width={width} height={room.height} x={laid.x} y={laid.y} />
        <canvas
          ref={canvas}
          className="look-canvas"
          role="img"
          aria-label={`${cloud.count} parts, ${axes[1].name} against ${axes[0].name}; ${selection.rows.size} chosen. The table below holds the same parts.`}
        />
        <Brush onChoose={choose} onOver={(x, y) => setOver(nearest(cloud, x, y))} />
        {over !== undefined && over < cloud.count && (
          <span
            className="look-tag"
            style={{ left: Math.min(cloud.x[over]!, width - 90), top: Math.max(0, cloud.y[over]! - 30) }}
          >
            {parts.tags[cloud.rows[over]!]}
          </span>
        )}
      </div>
      <figcaption className="chart-across">
        <AxisTitle axis={axes[0]} scale={laid.x} />
        {cloud.count < rows.length && (
          <span className="soft"> · {(rows.length - cloud.count).toLocaleString('en')} without both values</span>
        )}
      </figcaption>
    </figure>
  )
}

function Histogram(p: Sized) {
  const { parts, rows, at25, look, selection, width } = p
  const axis = axisOf(parts, look.x)
  const values = valuesOf(parts, look.x, at25)
  const x = acrossOf(axis, endsOf(rows, values, axis.kind), width)
  const bins = binsOf(rows, values, x, selection.rows, width < 480 ? 24 : 48)
  const countAxis: Axis = { symbol: 'n', name: 'parts', unit: '1', kind: 'linear' }
  const y = layScale(countAxis, [0, Math.max(1, ...bins.counts)], {
    from: room.height - room.bottom,
    to: room.top,
    labels: 7,
  })
  const zero = place(y, 0)
  const choose = (box: Box | undefined, at: readonly [number, number], isMore: boolean): void => {
    const bin = bins.ends.findIndex((e, i) => at[0] >= place(x, e) && at[0] < place(x, bins.ends[i + 1] ?? e))
    const [left, right] =
      box === undefined ? [place(x, bins.ends[bin] ?? 0), place(x, bins.ends[bin + 1] ?? 0)] : [box.left, box.right]
    const inside = [...rows].filter((r) => {
      const v = values[r]!
      if (!isPlaced(v, x)) return false
      const at = place(x, v)
      return at >= left && at <= right
    })
    p.onSelect(isMore ? withRows(selection, inside) : only(inside))
  }
  const bar = (count: number, i: number, className: string) => {
    const [from, to] = [place(x, bins.ends[i]!), place(x, bins.ends[i + 1]!)]
    const top = place(y, count)
    return count === 0 ? null : (
      <rect
        key={`${className} ${bins.ends[i]}`}
        className={className}
        x={from + 0.5}
        y={top}
        width={Math.max(1, to - from - 1)}
        height={zero - top}
      />
    )
  }
  const total = bins.counts.reduce((a, b) => a + b, 0)
  return (
    <figure className="chart">
      <p className="chart-up">Parts</p>
      <div className="chart-place" style={{ height: room.height }}>
        <Axes width={width} height={room.height} x={x} y={y} />
        <svg
          className="chart-axes"
          viewBox={`0 0 ${width} ${room.height}`}
          width={width}
          height={room.height}
          role="img"
          aria-label={`${total} parts by ${axis.name}, most between ${mostText(bins, axis)}; ${selection.rows.size} chosen.`}
        >
          {bins.counts.map((n, i) => bar(n, i, selection.rows.size > 0 ? 'bar pale' : 'bar'))}
          {bins.chosen.map((n, i) => bar(n, i, 'bar chosen'))}
        </svg>
        <Brush onChoose={choose} isAcross />
      </div>
      <figcaption className="chart-across">
        <AxisTitle axis={axis} scale={x} />
      </figcaption>
    </figure>
  )
}

function mostText(bins: ReturnType<typeof binsOf>, axis: Axis): string {
  const at = bins.counts.indexOf(Math.max(...bins.counts))
  return `${plainText(bins.ends[at]!, axis.unit, 2)} and ${plainText(bins.ends[at + 1]!, axis.unit, 2)}`
}
