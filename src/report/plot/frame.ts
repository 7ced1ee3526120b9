import {
  html,
  type Markup,
  marks,
  type Outcome,
  outcomeClass,
  type Piece,
  symbolSvg,
  symbolText,
} from '#report/typeset'
import { type Axis, place, type Scale } from './scale.ts'

/** Size of a drawing, px. */
export interface Size {
  readonly width: number
  readonly height: number
}

/** Height of one line of text in a drawing, px. */
export const lineHeight = 15

/** Width of a text at the drawing's size of type, px: a fair guess, on the wide side. */
export const textWidth = (text: string): number => text.length * 6.4

/** A text cut to a width, with an ellipsis where something is left out. */
export function fitted(text: string, width: number): string {
  const room = Math.max(1, Math.floor(width / 6.4))
  const letters = [...text]
  return letters.length <= room ? text : `${letters.slice(0, room - 1).join('')}\u2026`
}

/** Whole and tenths of a pixel are enough. */
export const px = (n: number): string => String(Math.round(n * 10) / 10)

/** The drawing itself, named and described for those who do not see it. */
export function drawing(size: Size, title: string, desc: string, body: Piece): string {
  const { width, height } = size
  return html`<svg class="plot" role="img" viewBox="0 0 ${px(width)} ${px(height)}" width="${px(width)}" height="${px(height)}"><title>${title}</title><desc>${desc}</desc>${body}</svg>`
    .markup
}

/** Name, symbol and unit of an axis, as drawn along it. */
export function axisTitle(axis: Axis, s: Scale): Markup {
  const unit = s.unit === '' ? '' : `, ${s.unit}`
  const symbol = axis.symbol === '' ? undefined : html` ${symbolSvg(axis.symbol)}`
  return html`${capital(axis.name)}${symbol}${unit}${axis.kind === 'log' ? ', log scale' : ''}`
}

/** The same in plain text. */
export const axisText = (axis: Axis): string => `${axis.name} (${symbolText(axis.symbol)})`

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** Labels that do not run into the one before, along an axis that goes from left to right. */
function spaced(s: Scale): ReadonlySet<number> {
  const kept = new Set<number>()
  let end = Number.NEGATIVE_INFINITY
  for (const t of s.ticks) {
    if (t.label === '') continue
    const half = textWidth(t.label) / 2
    const at = place(s, t.value)
    if (at - half < end + 6) continue
    kept.add(t.value)
    end = at + half
  }
  return kept
}

/** Axis along the bottom at height `y`, its grid reaching up to `top`. */
export function bottomAxis(axis: Axis, s: Scale, y: number, top: number): Markup {
  const kept = spaced(s)
  const ticks = s.ticks.map((t) => {
    const x = px(place(s, t.value))
    if (!kept.has(t.value)) return html`<path class="tick" d="M${x} ${px(y)}v3"/>`
    return html`<path class="grid" d="M${x} ${px(top)}V${px(y)}"/><path class="tick" d="M${x} ${px(y)}v5"/><text class="label" x="${x}" y="${px(y + 17)}" text-anchor="middle">${t.label}</text>`
  })
  const line = html`<path class="axis" d="M${px(s.from)} ${px(y)}H${px(s.to)}"/>`
  const title = html`<text class="title" x="${px((s.from + s.to) / 2)}" y="${px(y + 35)}" text-anchor="middle">${axisTitle(axis, s)}</text>`
  return html`${ticks}${line}${title}`
}

/** Axis along the left at `x`, its grid reaching right to `end`; its name stands above it. */
export function leftAxis(axis: Axis, s: Scale, x: number, end: number): Markup {
  const ticks = s.ticks.map((t) => {
    const y = px(place(s, t.value))
    if (t.label === '') return html`<path class="tick" d="M${px(x)} ${y}h-3"/>`
    return html`<path class="grid" d="M${px(x)} ${y}H${px(end)}"/><path class="tick" d="M${px(x)} ${y}h-5"/><text class="label" x="${px(x - 8)}" y="${y}" dy="4" text-anchor="end">${t.label}</text>`
  })
  const line = html`<path class="axis" d="M${px(x)} ${px(s.to)}V${px(s.from)}"/>`
  return html`${ticks}${line}<text class="title" x="4" y="13">${axisTitle(axis, s)}</text>`
}

/** The mark of an outcome at a place of the drawing. */
export const markAt = (o: Outcome, x: number, y: number): Markup =>
  html`<path class="${outcomeClass(o)}" transform="translate(${px(x)} ${px(y)})" d="${marks[o].path}"/>`
