import type { Cell, LimitRow, PartRow, PartTable } from '#report/model'
import { figureHtml, html, joined, type Markup, markSvg, outcomeHtml, proseHtml, symbolHtml } from '#report/typeset'
import { boundsHtml, conditionsHtml } from './inline.ts'

/** A wide table that can be moved sideways where the page is narrow, by keys too. */
export const scrolling = (label: string, table: Markup): Markup =>
  html`<section class="scroll" tabindex="0" aria-label="${label}">${table}</section>`

/** The table of parts: verdict next to the tag, because that is what one looks for. */
export function partTableHtml(t: PartTable): Markup {
  const heads = t.columns.map(
    (c) =>
      html`<th scope="col" class="n"><span class="sym">${symbolHtml(c.symbol)}</span><span class="name">${c.name}</span></th>`,
  )
  const head = html`<thead><tr><th scope="col">Tag</th><th scope="col">Verdict</th><th scope="col">Type</th>${heads}</tr></thead>`
  return scrolling(
    t.caption,
    html`<table class="parts"><caption>${t.caption}</caption>${head}<tbody>${t.rows.map(rowHtml)}</tbody></table>`,
  )
}

function rowHtml(r: PartRow): Markup {
  const tag = html`<bdi>${r.tag}</bdi>`
  const linked = r.section === undefined ? tag : html`<a href="#${r.section}">${tag}</a>`
  const because = r.because.length > 0 && html`<span class="because">${joined(r.because.map(symbolHtml), ', ')}</span>`
  return html`<tr><th scope="row">${linked}</th><td>${outcomeHtml(r.outcome)}${because}</td><td>${r.type}</td>${r.cells.map(cellHtml)}</tr>\n`
}

/** A number; a mark before it where it did not simply conform. */
function cellHtml(c: Cell | null): Markup {
  if (c === null) return html`<td class="n none">\u2013</td>`
  const isPlain = c.outcome === undefined || c.outcome === 'conforms'
  const mark = !isPlain && html`${markSvg(c.outcome!)}<span class="vh">${c.outcome}: </span> `
  return html`<td class="n">${mark}${figureHtml(c.figure)}</td>`
}

/** The published limits that something was held against, with where each comes from. */
export function limitTableHtml(rows: readonly LimitRow[]): Markup {
  const head = html`<thead><tr><th scope="col">Type</th><th scope="col">Parameter</th><th scope="col">Limit</th><th scope="col">At</th><th scope="col">Source</th></tr></thead>`
  const body = rows.map(
    (r) =>
      html`<tr><th scope="row">${r.type}</th><td>${symbolHtml(r.symbol)} <span class="soft">${r.name}</span></td><td>${boundsHtml(r.bounds)}</td><td>${conditionsHtml(r.conditions)}</td><td>${r.source}${r.note !== undefined && html`. ${proseHtml(r.note)}`}</td></tr>\n`,
  )
  const caption = 'Limits the parts were held against'
  return scrolling(
    caption,
    html`<table class="limits"><caption>${caption}</caption>${head}<tbody>${body}</tbody></table>`,
  )
}
