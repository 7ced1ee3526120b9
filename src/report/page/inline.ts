import type { Bounds, Condition } from '#report/model'
import { figureHtml, html, joined, type Markup, symbolHtml } from '#report/typeset'

/** Conditions in a line: `I_C 10 mA, V_CE 4.5 V, 25 °C`. A temperature needs no symbol. */
export const conditionsHtml = (list: readonly Condition[]): Markup =>
  joined(
    list.map(
      (c) =>
        html`<span class="fig">${c.symbol !== 'T' && html`${symbolHtml(c.symbol)} `}${figureHtml(c.figure)}</span>`,
    ),
    ', ',
  )

/** Published numbers in words: "from 60 to 175", "at most 10 µA". */
export function boundsHtml(b: Bounds): Markup {
  const typ = b.typ !== undefined && html` (typically ${figureHtml(b.typ)})`
  if (b.min !== undefined && b.max !== undefined) return html`${figureHtml(b.min)} to ${figureHtml(b.max)}${typ}`
  if (b.min !== undefined) return html`at least ${figureHtml(b.min)}${typ}`
  if (b.max !== undefined) return html`at most ${figureHtml(b.max)}${typ}`
  return html`${typ}`
}
