import { useElementSize } from '@mantine/hooks'
import { useMemo } from 'react'
import type { MatchOffers } from '#api'
import { type MatchedSet, type MatchPart, wantedValue } from '#core/match'
import { parameterName } from '#report/model'
import { type Axis, layScale, place } from '#report/plot'
import { Axes, AxisTitle } from '#web/plot'
import { unitOf } from './wish.ts'

interface Props {
  readonly parts: readonly MatchPart[]
  readonly sets: readonly MatchedSet[]
  /** The first parameter lies across, the second up. */
  readonly names: readonly string[]
  readonly offers: MatchOffers
  /** Tags that stand out: of the set one looks at, or the part one holds. */
  readonly bright: ReadonlySet<string>
  readonly onSet: (set: MatchedSet | undefined) => void
}

const room = { left: 66, right: 18, top: 12, bottom: 30, height: 340 } as const

const axisOf = (name: string, offers: MatchOffers): Axis => {
  const { of, log } = wantedValue(name)
  const symbol = of.split('@')[0]!
  const words = parameterName(symbol)
  return {
    symbol,
    name: log === undefined ? words : `logarithm of ${words}`,
    unit: unitOf(name, offers),
    kind: 'linear',
  }
}

/** All parts as points, those of a set joined. */
export function SetCloud({ parts, sets, names, offers, bright, onSet }: Props) {
  const { ref, width } = useElementSize()
  return (
    <div ref={ref} className="match-cloud">
      {width > 200 && names[0] !== undefined && (
        <Drawing {...{ parts, sets, offers, bright, onSet, width }} across={names[0]} up={names[1] ?? names[0]} />
      )}
    </div>
  )
}

interface DrawingProps extends Omit<Props, 'names'> {
  readonly across: string
  readonly up: string
  readonly width: number
}

function Drawing({ parts, sets, across, up, offers, bright, onSet, width }: DrawingProps) {
  const axes = [axisOf(across, offers), axisOf(up, offers)] as const
  const laid = useMemo(() => {
    const has = parts.filter((p) => p.values[across] !== undefined && p.values[up] !== undefined)
    const ends = (name: string): readonly number[] => extremes(has.map((p) => p.values[name]!))
    const x = layScale(axisOf(across, offers), ends(across), {
      from: room.left,
      to: width - room.right,
      labels: width < 480 ? 4 : 8,
    })
    const y = layScale(axisOf(up, offers), ends(up), { from: room.height - room.bottom, to: room.top, labels: 8 })
    const at = new Map(has.map((p) => [p.tag, [place(x, p.values[across]!), place(y, p.values[up]!)] as const]))
    return { x, y, at }
  }, [parts, across, up, offers, width])
  const { at } = laid
  const used = useMemo(() => new Set(sets.flatMap((s) => s.tags)), [sets])
  const dots = (isUsed: boolean): string =>
    [...at]
      .flatMap(([tag, [x, y]]) => (used.has(tag) === isUsed ? [`M${x.toFixed(1)} ${y.toFixed(1)}h0`] : []))
      .join('')
  const lit = sets.find((s) => s.tags.some((tag) => bright.has(tag)))
  return (
    <figure className="chart">
      <p className="chart-up">
        <AxisTitle axis={axes[1]} scale={laid.y} />
      </p>
      <div className="chart-place" style={{ height: room.height }}>
        <Axes width={width} height={room.height} x={laid.x} y={laid.y} />
        <svg
          className="plot match-drawing"
          viewBox={`0 0 ${width} ${room.height}`}
          width={width}
          height={room.height}
          role="img"
          aria-label={`${at.size} parts, ${axes[1].name} against ${axes[0].name}, in ${sets.length} sets. The table holds the same.`}
        >
          <path className="match-joins" d={sets.map((s) => ring(s.tags, at)).join('')} />
          <path className="dots match-free" d={dots(false)} />
          <path className="dots match-used" d={dots(true)} />
          {lit !== undefined && <path className="match-join lit" d={ring(lit.tags, at)} />}
          {[...bright].map((tag) => {
            const here = at.get(tag)
            return here === undefined ? null : (
              <g key={tag}>
                <circle className="match-lit" cx={here[0]} cy={here[1]} r={6} />
                <text x={Math.min(here[0] + 9, width - 50)} y={Math.max(here[1] - 7, 12)} className="tag">
                  {tag}
                </text>
              </g>
            )
          })}
          {sets.length <= 400 &&
            sets.map((s) => (
              <path
                key={s.tags[0]}
                className="match-touch"
                d={ring(s.tags, at)}
                onPointerEnter={() => onSet(s)}
                onPointerLeave={() => onSet(undefined)}
              />
            ))}
        </svg>
      </div>
      <figcaption className="chart-across">
        <AxisTitle axis={axes[0]} scale={laid.x} />
        {at.size < parts.length && <span className="soft"> · {parts.length - at.size} without these values</span>}
      </figcaption>
    </figure>
  )
}

function extremes(values: readonly number[]): readonly number[] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const v of values) {
    if (v < low) low = v
    if (v > high) high = v
  }
  return low <= high ? [low, high] : []
}

type Places = ReadonlyMap<string, readonly [x: number, y: number]>

/** A line between two parts; around more of them, so that it does not cross itself. */
function ring(tags: readonly string[], at: Places): string {
  const points = tags.flatMap((tag) => (at.has(tag) ? [at.get(tag)!] : []))
  if (points.length < 2) return ''
  const middle = [0, 1].map((k) => points.reduce((sum, p) => sum + p[k]!, 0) / points.length) as [number, number]
  const angle = (p: readonly [number, number]): number => Math.atan2(p[1] - middle[1], p[0] - middle[0])
  const around = points.length === 2 ? points : [...points].sort((a, b) => angle(a) - angle(b))
  return `M${around.map((p) => `${p[0].toFixed(1)} ${p[1].toFixed(1)}`).join('L')}${points.length > 2 ? 'Z' : ''}`
}
