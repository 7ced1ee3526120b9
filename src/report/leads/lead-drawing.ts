import type { Base, LeadPlan } from '#core/standin'
import { drawing } from '#report/plot'
import { html, type Markup } from '#report/typeset'
import { type Pin, pinsOf, sizes, turned, turnOf } from './place.ts'
import { pathUnder, way } from './way.ts'

/** Two bases seen from below, and how the leads of one reach the places of the other. */
export interface LeadDrawing {
  /** Type numbers. */
  readonly wanted: string
  readonly offered: string
  readonly plan: LeadPlan
}

const size = { width: 300, height: 424 } as const
const middleX = size.width / 2
/** Middles of the two bases. */
const upperY = 112
const lowerY = 316

/**
 * The base of a stand-in above and the places of the old leads below, both seen from below, with the leads drawn from one
 * to the other. A lead that has to cross another passes under it.
 *
 * @returns undefined where one of the two lead orders is not settled
 */
export function leadDrawing({ wanted, offered, plan }: LeadDrawing): string | undefined {
  const { bases, crossed = [] } = plan
  if (bases === undefined) return undefined
  const { turn, holeTurn } = turnsOf(bases.offered, bases.wanted)
  const holes = moved(turned(pinsOf(bases.wanted), holeTurn), lowerY)
  const pins = moved(turned(pinsOf(bases.offered), turn), upperY)
  const side = bases.offered.shape === 'axial' ? '' : ', from below'
  const crossing: readonly string[] = crossed
  const ways = pins.flatMap((pin) => {
    const hole = holes.find((h) => h.name === pin.name)
    return hole === undefined ? [] : [{ name: pin.name, points: way(below(pin), above(hole)) }]
  })
  const lines = ways.map(({ name, points }, i) => {
    const over = ways.slice(0, i).map((w) => w.points)
    return html`<path class="${crossing.includes(name) ? 'centre' : 'limit'}" d="${pathUnder(points, over)}"/>`
  })
  const body = html`<text class="group" x="${middleX}" y="14" text-anchor="middle">${offered}${side}</text>
<g transform="translate(${middleX} ${upperY}) rotate(${turn})">${bodyOf(bases.offered, 'trace')}</g>
<g transform="translate(${middleX} ${lowerY}) rotate(${holeTurn})">${bodyOf(bases.wanted, 'edge')}</g>
${lines}${pins.map(pinMark)}${holes.map(pinMark)}
<text class="label" x="${middleX}" y="${size.height - 6}" text-anchor="middle">where ${wanted} was${side}</text>`
  return drawing(size, `Leads of ${offered} for ${wanted}`, plan.says, body)
}

/** Of a line and a circle the circle is turned, wherever it is. */
function turnsOf(offered: Base, wanted: Base): { readonly turn: number; readonly holeTurn: number } {
  return offered.shape === 'line' && wanted.shape === 'ring'
    ? { turn: 0, holeTurn: turnOf(wanted, pinsOf(offered)) }
    : { turn: turnOf(offered, pinsOf(wanted)), holeTurn: 0 }
}

const moved = (pins: readonly Pin[], y: number): readonly Pin[] =>
  pins.map((p) => ({ ...p, x: middleX + p.x, y: y + p.y }))

const below = (p: Pin): Pin => ({ ...p, y: p.y + sizes.pin })
const above = (p: Pin): Pin => ({ ...p, y: p.y - sizes.pin })

const pinMark = ({ name, x, y }: Pin): Markup =>
  html`<circle class="limit" cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="${sizes.pin}"/><text class="group" x="${x.toFixed(1)}" y="${(y + 4).toFixed(1)}" text-anchor="middle">${name}</text>`

const circle = (r: number): string => `M${-r} 0a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`

/** Outline of a case round its middle; a flat or printed side is up. */
function bodyOf(base: Base, look: 'trace' | 'edge'): Markup {
  const r = sizes.body
  switch (base.shape) {
    case 'ring':
      return html`<path class="${look}" d="${circle(r)}M-49 38l-9 7l7 9l9 -7"/>`
    case 'line':
      return base.hasFront
        ? html`<path class="${look}" d="M${-r} -24H${r}V8C${r} 40 ${-r} 40 ${-r} 8Z"/><path class="axis" d="M${-r} -24H${r}"/>`
        : html`<path class="${look}" d="${circle(r)}"/>`
    case 'axial':
      return html`<path class="${look}" d="M-46 -16H46V16H-46ZM-38 -16V16M-34 -16V16M${-sizes.axial + sizes.pin} 0H-46M46 0H${sizes.axial - sizes.pin}"/>`
    case 'bolted':
      return html`<path class="${look}" d="M0 -88C10 -88 52 -34 52 0S10 88 0 88S-52 34 -52 0S-10 -88 0 -88Z"/><path class="${look}" transform="translate(0 -68)" d="${circle(6)}"/>`
  }
}
