import { pageShell, scrolling } from '#report/page'
import { coursePlot } from '#report/plot'
import { html, type Markup, markSvg, proseHtml, trusted } from '#report/typeset'
import type { Sheet, SheetBlock, SheetDrawing, SheetPhoto, SheetPlot, SheetTable } from './sheet.ts'

/** A sheet as one file that needs nothing else. */
export const sheetHtml = (s: Sheet): string =>
  pageShell(
    s.title,
    html`<header><p class="eyebrow">${s.kind}</p><h1>${s.title}</h1><div class="lead">${s.lead.map(
      (l) => html`<p>${l.outcome !== undefined && html`${markSvg(l.outcome)} `}${proseHtml(l.say)}</p>`,
    )}</div><dl class="about">${s.facts.map(([name, text]) => html`<dt>${name}</dt><dd>${proseHtml(text)}</dd>`)}</dl></header>
<main>
${s.blocks.map(blockHtml)}</main>
<footer class="foot"><h2>How this was worked out</h2><ul>${s.notes.map((n) => html`<li>${proseHtml(n)}</li>`)}</ul></footer>`,
  )

function blockHtml(b: SheetBlock): Markup {
  switch (b.kind) {
    case 'table':
      return tableHtml(b)
    case 'plot':
      return plotHtml(b)
    case 'drawing':
      return drawingHtml(b)
    case 'photo':
      return photoHtml(b)
    case 'prose':
      return html`<section><h2>${b.heading}</h2>${b.lines.map((l) => html`<p>${proseHtml(l)}</p>`)}</section>\n`
  }
}

function plotHtml(b: SheetPlot): Markup {
  const drawn = (size: 'wide' | 'narrow', width: number): Markup =>
    trusted(coursePlot(b.plot, { width }).replace('class="plot"', `class="plot ${size}"`))
  return html`<figure>${drawn('wide', 760)}${drawn('narrow', 356)}<figcaption>${proseHtml(b.caption)}</figcaption></figure>\n`
}

const drawingHtml = ({ svg, caption }: SheetDrawing): Markup =>
  html`<figure>${trusted(svg)}<figcaption>${proseHtml(caption)}</figcaption></figure>\n`

const photoHtml = ({ type, base64, caption }: SheetPhoto): Markup =>
  html`<figure><img src="data:${type};base64,${base64}" alt="${caption}"><figcaption>${caption}</figcaption></figure>\n`

const isNumber = (head: string): boolean => head.startsWith('>')

function tableHtml(t: SheetTable): Markup {
  const name = (head: string): Markup => proseHtml(head.replace(/^>/, ''))
  const heads = t.head.map((h) => html`<th scope="col"${isNumber(h) && html` class="n"`}>${name(h)}</th>`)
  const rows = t.rows.map(
    (cells) =>
      html`<tr>${cells.map((c, i) =>
        i === 0
          ? html`<th scope="row"><bdi>${proseHtml(c)}</bdi></th>`
          : html`<td${isNumber(t.head[i] ?? '') && html` class="n"`}>${proseHtml(c)}</td>`,
      )}</tr>\n`,
  )
  return scrolling(
    t.caption,
    html`<table><caption>${t.caption}</caption><thead><tr>${heads}</tr></thead><tbody>${rows}</tbody></table>`,
  )
}
