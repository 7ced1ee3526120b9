import type { Face, Span } from './face.ts'
import './scale.css'

/** Room of the drawing, px; type keeps its size, so there is one for a page and one for a telephone. */
interface Room {
  readonly width: number
  readonly height: number
  readonly radius: number
  /** Half of the angle that the scale takes up, degrees. */
  readonly half: number
}

const wide: Room = { width: 640, height: 214, radius: 332, half: 47 }
const narrow: Room = { width: 344, height: 168, radius: 186, half: 50 }

/** The face a step is read on: its scale, the expected window shaded, and the needle where it is said to stand. */
export function Arc({ face, at, isNarrow, says }: ArcProps) {
  const room = isNarrow ? narrow : wide
  const g = geometry(room, face)
  return (
    <svg className="arc" viewBox={`0 0 ${room.width} ${room.height}`} role="img" aria-label={says}>
      {face.window !== undefined && <Window g={g} face={face} window={face.window} />}
      <path className="arc-line" d={g.arc(face.low, face.high, g.radius)} />
      {face.ticks.map((t) => (
        <path
          key={t.at}
          className={t.isMajor ? 'arc-tick long' : 'arc-tick'}
          d={g.ray(t.at, g.radius, g.radius + (t.isMajor ? 13 : 6))}
        />
      ))}
      {face.ticks.map((t) => t.label !== undefined && <Label key={t.at} g={g} at={t.at} text={t.label} />)}
      {at !== undefined && <Needle g={g} face={face} at={at} />}
    </svg>
  )
}

export interface ArcProps {
  readonly face: Face
  /** Where the needle stands, in the unit of the face. */
  readonly at: number | undefined
  readonly isNarrow: boolean
  /** The drawing in words. */
  readonly says: string
}

type Geometry = ReturnType<typeof geometry>

function geometry(room: Room, face: Face) {
  const cx = room.width / 2
  const cy = room.radius + 40
  const angle = (v: number): number =>
    ((-room.half + (2 * room.half * (v - face.low)) / (face.high - face.low)) * Math.PI) / 180
  const point = (v: number, r: number): readonly [number, number] => [
    cx + r * Math.sin(angle(v)),
    cy - r * Math.cos(angle(v)),
  ]
  const xy = (v: number, r: number): string =>
    point(v, r)
      .map((x) => x.toFixed(1))
      .join(' ')
  return {
    radius: room.radius,
    height: room.height,
    point,
    arc: (from: number, to: number, r: number): string => `M${xy(from, r)}A${r} ${r} 0 0 1 ${xy(to, r)}`,
    ray: (v: number, r1: number, r2: number): string => `M${xy(v, r1)}L${xy(v, r2)}`,
    band: (from: number, to: number, r1: number, r2: number): string =>
      `M${xy(from, r2)}A${r2} ${r2} 0 0 1 ${xy(to, r2)}L${xy(to, r1)}A${r1} ${r1} 0 0 0 ${xy(from, r1)}Z`,
  }
}

/** Depth of the window's band, px. */
const depth = 30

function Window({ g, face, window }: { readonly g: Geometry; readonly face: Face; readonly window: Span }) {
  const slim = 0.008 * (face.high - face.low)
  const inside = (v: number): number => Math.min(face.high, Math.max(face.low, v))
  const isPoint = window.min !== undefined && window.min === window.max
  const from = inside(isPoint ? window.min! - slim : (window.min ?? face.low))
  const to = inside(Math.max(from + slim, isPoint ? window.max! + slim : (window.max ?? face.high)))
  const inner = g.radius - depth
  const edges = [window.min, window.max].filter((e) => e !== undefined && e >= face.low && e <= face.high)
  const typ = window.typ !== undefined && !isPoint ? window.typ : undefined
  return (
    <g>
      <path className="arc-window" d={g.band(from, to, inner, g.radius)} />
      {!isPoint && edges.map((e) => <path key={e} className="arc-edge" d={g.ray(e!, inner, g.radius)} />)}
      {typ !== undefined && typ >= face.low && typ <= face.high && (
        <path className="arc-typ" d={g.ray(typ, inner + 9, g.radius - 9)} />
      )}
    </g>
  )
}

function Label({ g, at, text }: { readonly g: Geometry; readonly at: number; readonly text: string }) {
  const [x, y] = g.point(at, g.radius + 24)
  return (
    <text className="arc-label" x={x.toFixed(1)} y={(y + 4).toFixed(1)} textAnchor="middle">
      {text}
    </text>
  )
}

function Needle({ g, face, at }: { readonly g: Geometry; readonly face: Face; readonly at: number }) {
  const over = 0.025 * (face.high - face.low)
  const shown = Math.min(face.high + over, Math.max(face.low - over, at))
  return <path className="arc-needle" d={g.ray(shown, g.radius - Math.max(62, 0.235 * g.radius), g.radius - 3)} />
}
