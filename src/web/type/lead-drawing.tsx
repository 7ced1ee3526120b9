import type { Leads } from '#core/device'
import './lead-drawing.css'

interface Props {
  readonly leads: Leads
}

/** One lead on the drawing: where it leaves the case, and its letter beside it. */
interface Pin {
  readonly name: string
  readonly x: number
  readonly y: number
  readonly labelX: number
  readonly labelY: number
  /** The case itself: there is no pin to draw. */
  readonly isCase?: boolean
}

interface Drawing {
  /** Outline of the case, as path data; `bare` where only the leads are drawn. */
  readonly body: string
  /** Thin lines inside it: a flat, a band, a tab. */
  readonly detail?: string
  /** Lines of the leads where they are seen from the side. */
  readonly wires?: string
  readonly pins: readonly Pin[]
  readonly width: number
  readonly height: number
}

/** The case from the side its record names, each lead with its letter. */
export function LeadDrawing({ leads }: Props) {
  const names = leads.order === 'verify' ? ['?', '?', '?'] : leads.order.split('-')
  const d = drawingOf(names, leads.view)
  return (
    <svg
      className="leads"
      viewBox={`0 0 ${d.width} ${d.height}`}
      width={d.width}
      height={d.height}
      role="img"
      aria-label={leads.order === 'verify' ? 'Leads: not settled' : `Leads ${leads.order}, ${leads.view}`}
    >
      <path className="leads-body" d={d.body} />
      {d.detail !== undefined && <path className="leads-detail" d={d.detail} />}
      {d.wires !== undefined && <path className="leads-wire" d={d.wires} />}
      {d.pins.map((p, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: leads may share a letter, and never change places
        <g key={i}>
          {d.wires === undefined && p.isCase !== true && <circle className="leads-pin" cx={p.x} cy={p.y} r="4" />}
          <text className="leads-name" x={p.labelX} y={p.labelY} textAnchor="middle" dominantBaseline="central">
            {p.name}
          </text>
        </g>
      ))}
    </svg>
  )
}

function drawingOf(names: readonly string[], view: string): Drawing {
  if (/axial/.test(view)) return axial(names)
  if (/pin 1, pin 2, case/.test(view)) return diamond(names)
  if (/clockwise from the tab/.test(view)) return can(names)
  if (/triangle, bottom/.test(view)) return triangle(names)
  if (/in line/.test(view)) return inLine(names)
  if (/facing you/.test(view)) return standing(names, !/flat side/.test(view))
  return inLine(names)
}

/** A body with a band at the first lead. */
function axial(names: readonly string[]): Drawing {
  const [left = '', right = ''] = names
  return {
    width: 230,
    height: 70,
    body: 'M80 20H150A4 4 0 0 1 154 24V46A4 4 0 0 1 150 50H80A4 4 0 0 1 76 46V24A4 4 0 0 1 80 20Z',
    detail: 'M88 20V50M90 20V50M92 20V50',
    wires: 'M26 35H76M154 35H204',
    pins: [
      { name: left, x: 26, y: 35, labelX: 12, labelY: 35 },
      { name: right, x: 204, y: 35, labelX: 218, labelY: 35 },
    ],
  }
}

/** A pin on a circle, its letter outside the case, turned by `aside` degrees where something is in its way. */
const pinAt = (name: string, [cx, cy]: readonly [number, number], degrees: number, aside = 0): Pin => {
  const at = (r: number, by: number): readonly [number, number] => {
    const a = ((degrees + by) * Math.PI) / 180
    return [cx + r * Math.cos(a), cy + r * Math.sin(a)]
  }
  const [x, y] = at(24, 0)
  const [labelX, labelY] = at(63, aside)
  return { name, x, y, labelX, labelY }
}

const circle = (cx: number, cy: number, r: number): string =>
  `M${cx - r} ${cy}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`

/** Seen from below, clockwise from the tab, which is drawn at the lower left. */
function can(names: readonly string[]): Drawing {
  const [cx, cy] = [76, 74]
  return {
    width: 152,
    height: 150,
    body: circle(cx, cy, 46),
    detail: `M${cx - 38} ${cy + 26}l-12 8l6 9l12 -8`,
    pins: names.map((name, i) => pinAt(name, [cx, cy], 145 + i * 90, i === 0 ? 30 : 0)),
  }
}

/** Seen from below, three leads as a triangle. */
function triangle(names: readonly string[]): Drawing {
  return {
    width: 152,
    height: 122,
    body: circle(76, 68, 46),
    pins: names.map((name, i) => pinAt(name, [76, 68], 180 + i * 90)),
  }
}

/** Seen from below, leads in line, the last one set apart and marked by the dot. */
function inLine(names: readonly string[]): Drawing {
  const step = names.length > 3 ? 18 : 22
  const gap = names.length > 1 ? 16 : 0
  const length = step * (names.length - 1) + gap
  const from = 54 - length / 2
  const pins = names.map((name, i): Pin => {
    const x = from + i * step + (i === names.length - 1 ? gap : 0)
    return { name, x, y: 54, labelX: x, labelY: 128 }
  })
  const last = pins.at(-1)?.x ?? 54
  return {
    width: 108,
    height: 142,
    body: circle(54, 54, 50),
    detail: `${circle(Math.min(last + 18, 96), 54, 2.5)}${pins.map((p) => `M${p.x} 62V114`).join('')}`,
    pins,
  }
}

/** Standing on its leads, seen from the front. */
function standing(names: readonly string[], hasTab: boolean): Drawing {
  const middle = (names.length - 1) / 2
  const pins = names.map((name, i): Pin => {
    const x = 46 + (i - middle) * 30
    return { name, x, y: 76, labelX: x, labelY: 134 }
  })
  const tab = 'M2 34V14H90V34M41 24a5 5 0 1 0 10 0a5 5 0 1 0 -10 0'
  const top = hasTab ? 34 : 22
  return {
    width: 92,
    height: 146,
    body: `M2 ${top}H90V76H2Z`,
    ...(hasTab ? { detail: tab } : { detail: 'M8 28H84' }),
    wires: pins.map((p) => `M${p.x} 76V120`).join(''),
    pins,
  }
}

/** A diamond with two pins, seen from below; the case is the third electrode. */
function diamond(names: readonly string[]): Drawing {
  const [one = '', two = '', shell = ''] = names
  return {
    width: 230,
    height: 150,
    body: 'M22 70C26 62 78 20 115 20S204 62 208 70S152 120 115 120S26 78 22 70Z',
    detail: `${circle(38, 70, 6)}${circle(192, 70, 6)}${circle(115, 70, 40)}`,
    pins: [
      { name: one, x: 103, y: 58, labelX: 86, labelY: 58 },
      { name: two, x: 103, y: 82, labelX: 86, labelY: 82 },
      { name: `${shell} is the case`, x: 0, y: 0, labelX: 115, labelY: 140, isCase: true },
    ],
  }
}
