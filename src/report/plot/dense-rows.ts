import { dotClass, html, type Markup, type Outcome, outcomes } from '#report/typeset'
import { markAt, px } from './frame.ts'
import type { IntervalRow } from './interval-plot.ts'
import { place, type Scale } from './scale.ts'

/** Up to this many parts of one outcome keep their own shape among thousands. */
export const shapesKept = 150

/**
 * Rows of thousands of parts, in order of value: one path holds all intervals and one the dots of an outcome. Parts
 * that did not simply conform keep their shape while they are few.
 */
export function denseRows(rows: readonly IntervalRow[], s: Scale, top: number, height: number): Markup {
  const sorted = [...rows].sort((a, b) => a.value - b.value)
  const pitch = height / Math.max(1, sorted.length)
  const intervals: string[] = []
  const found = new Map<Outcome, (readonly [x: number, y: number])[]>()
  sorted.forEach((r, i) => {
    const y = top + (i + 0.5) * pitch
    intervals.push(`M${px(place(s, r.low))} ${px(y)}H${px(place(s, r.high))}`)
    const places = found.get(r.outcome) ?? []
    places.push([place(s, r.value), y])
    found.set(r.outcome, places)
  })
  const lines = html`<path class="interval many" d="${intervals.join('')}"/>`
  return html`${lines}${outcomes.map((o) => scattered(o, found.get(o) ?? [], pitch))}`
}

/** Points of one outcome: shapes while they are few, else dots in one path, larger where there is `room`, px. */
export function scattered(o: Outcome, places: readonly (readonly [x: number, y: number])[], room: number): Markup {
  if (places.length === 0) return html``
  if (o !== 'conforms' && places.length <= shapesKept) return html`${places.map(([x, y]) => markAt(o, x, y))}`
  const path = places.map(([x, y]) => `M${px(x)} ${px(y)}h0`).join('')
  return html`<path class="dots ${dotClass(o)}" stroke-width="${px(Math.min(5, Math.max(2, room)))}" d="${path}"/>`
}
