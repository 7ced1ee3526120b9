import { html, type Markup } from '#report/typeset'
import { type DrawnTransistor, leadsAt, type Spot } from './layout.ts'

/** Graphical symbols as IEC 60617 has them; numbers `from memory`. Places are whole or half px. */

const at = ([x, y]: Spot): string => `${x} ${y}`

/** A wire through places. */
export const pathThrough = (spots: readonly Spot[]): string =>
  spots.map((s, i) => `${i === 0 ? 'M' : 'L'}${at(s)}`).join('')

/** Middle of two places. */
export const middleOf = ([ax, ay]: Spot, [bx, by]: Spot): Spot => [(ax + bx) / 2, (ay + by) / 2]

/** Degrees by which a symbol that points right is turned to point from one place to another. */
const turnOf = ([ax, ay]: Spot, [bx, by]: Spot): number => Math.round((Math.atan2(by - ay, bx - ax) * 180) / Math.PI)

/** A symbol drawn around the origin, pointing right, turned to lie between two places. */
function lying(from: Spot, to: Spot, half: number, symbol: Markup): Markup {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1])
  const lead = length / 2 - half
  const leads = html`<path class="wire" d="M${-length / 2} 0h${lead}M${half} 0h${lead}"/>`
  return html`<g transform="translate(${at(middleOf(from, to))}) rotate(${turnOf(from, to)})">${leads}${symbol}</g>`
}

/** Half the length of a resistor's body, px; shorter where there is little room. */
const bodyHalf = (from: Spot, to: Spot): number => Math.min(17, Math.hypot(to[0] - from[0], to[1] - from[1]) / 2 - 6)

const body = (half: number): Markup => html`<rect class="body" x="${-half}" y="-6" width="${2 * half}" height="12"/>`

/** Resistor: a rectangle (04-01-01). */
export function resistor(from: Spot, to: Spot): Markup {
  const half = bodyHalf(from, to)
  return lying(from, to, half, body(half))
}

/** Thermistor: a rectangle with an oblique line that has a foot (04-01-12); `−t°` beside it says that it falls. */
export function thermistor(from: Spot, to: Spot): Markup {
  const half = bodyHalf(from, to)
  return lying(from, to, half, html`${body(half)}<path class="wire" d="M-15 12h7L12 -12"/>`)
}

/** Semiconductor diode (05-03-01): a triangle towards its cathode, and a bar. */
export const diode = (anode: Spot, cathode: Spot): Markup =>
  lying(anode, cathode, 7, html`<path class="solid" d="M-7 -7V7L7 0Z"/><path class="wire" d="M-7 0H7M7 -7V7"/>`)

const spotAlong = ([ax, ay]: Spot, [bx, by]: Spot, share: number): Spot => [
  ax + (bx - ax) * share,
  ay + (by - ay) * share,
]

/** A filled arrow head whose tip is at a place, coming from another. */
export const arrowHead = (from: Spot, tip: Spot, kind: 'solid' | 'flow'): Markup =>
  html`<path class="${kind}" d="M0 0L-8 3.5L-8 -3.5Z" transform="translate(${at(tip)}) rotate(${turnOf(from, tip)})"/>`

/**
 * Transistor in its envelope (05-05-01 PNP, 05-05-02 NPN): the arrow is on the emitter and points the way the current goes,
 * away from the base of an NPN transistor and towards it in a PNP one.
 */
export function transistor(t: DrawnTransistor, polarity: 'NPN' | 'PNP'): Markup {
  const [x, y] = t.at
  const { b, c, e } = leadsAt(t)
  const up = c[1] < y ? -1 : 1
  const bar = x - 7
  const onBar = (side: number): Spot => [bar, y + side * 5]
  const bent = (side: number): Spot => [x + 8, y + side * 14]
  const emitterFrom = onBar(-up)
  const emitterTo = bent(-up)
  const arrow =
    polarity === 'NPN'
      ? arrowHead(emitterFrom, spotAlong(emitterFrom, emitterTo, 0.92), 'solid')
      : arrowHead(emitterTo, spotAlong(emitterTo, emitterFrom, 0.82), 'solid')
  const leads = [
    pathThrough([b, [bar, y]]),
    pathThrough([onBar(up), bent(up), c]),
    pathThrough([emitterFrom, emitterTo, e]),
  ].join('')
  return html`<circle class="envelope" cx="${x}" cy="${y}" r="19"/><path class="wire" d="${leads}"/><path class="bar" d="M${bar} ${y - 11}V${y + 11}"/>${arrow}`
}

/** Two plates across a path (04-02-01). */
export function plates([x, y]: Spot, isAcross: boolean): Markup {
  const gap = isAcross
    ? html`<path class="gap" d="M${x - 2.5} ${y}h5"/>`
    : html`<path class="gap" d="M${x} ${y - 2.5}v5"/>`
  const two = isAcross
    ? `M${x - 2.5} ${y - 9}v18M${x + 2.5} ${y - 9}v18`
    : `M${x - 9} ${y - 2.5}h18M${x - 9} ${y + 2.5}h18`
  return html`${gap}<path class="signal" d="${two}"/>`
}

/** Battery of cells (06-15-01): the longer line is its positive end. */
export function battery(from: Spot, to: Spot, isFromPositive: boolean): Markup {
  const [long, short] = isFromPositive ? [-1, 1] : [1, -1]
  const cell = (x: number): string => `M${x + 2.5 * long} -10V10M${x + 2.5 * short} -5V5`
  return lying(
    from,
    to,
    12,
    html`<path class="wire" d="M-12 0h${isFromPositive ? 2 : 2}M${10} 0h2"/><path class="bar" d="${cell(-7.5)}${cell(7.5)}"/><path class="dash" d="M-4 0h8"/>`,
  )
}

/** Earth (02-15-01), here the common line. */
export const earth = ([x, y]: Spot): Markup =>
  html`<path class="wire" d="M${x} ${y}v8M${x - 9} ${y + 8}h18M${x - 6} ${y + 12}h12M${x - 3} ${y + 16}h6"/>`

/** Source of a wave (02-16-01 with the sign of alternating current). */
export const waveSource = (from: Spot, to: Spot): Markup =>
  html`${lying(from, to, 15, html`<circle class="body" r="15"/>`)}<path class="wire" d="M${middleOf(from, to)[0] - 8} ${middleOf(from, to)[1]}q4 -8 8 0t8 0"/>`

/** Terminal: a small ring (03-02-02). */
export const terminal = ([x, y]: Spot): Markup => html`<circle class="terminal" cx="${x}" cy="${y}" r="3"/>`

/** Joint of conductors: a dot (03-02-01). */
export const joint = ([x, y]: Spot): Markup => html`<circle class="joint" cx="${x}" cy="${y}" r="2.6"/>`
