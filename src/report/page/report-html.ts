import type { Count, Fact, LeadLine, NamedPart, ReportModel } from '#report/model'
import { html, joined, type Markup, markSvg, proseHtml, symbolHtml } from '#report/typeset'
import { pageShell } from './page-shell.ts'
import { curveHtml, plotHtml } from './plots-html.ts'
import { sectionHtml } from './section-html.ts'
import { limitTableHtml, partTableHtml } from './tables-html.ts'

/** The page of a report: one file that needs nothing else, asks nothing of any address and runs no script. */
export const reportHtml = (m: ReportModel): string =>
  pageShell(
    m.title,
    html`${headingHtml(m)}
<main>
${partsHtml(m)}${plotsHtml(m)}${curvesHtml(m)}${sectionsHtml(m)}${limitsHtml(m)}</main>
${footHtml(m)}`,
  )

function headingHtml(m: ReportModel): Markup {
  const eyebrow = m.kind === 'lot' ? 'Report of a lot' : 'Report of one part'
  const facts = html`<dl class="about">${m.about.map(factHtml)}</dl>`
  const summary =
    m.summary.length > 0 &&
    html`<ul class="summary" aria-label="How many parts came out which way">${m.summary.map(countHtml)}</ul>`
  const notes =
    m.notes.length > 0 && html`<div class="notes">${m.notes.map((n) => html`<p><bdi>${proseHtml(n)}</bdi></p>`)}</div>`
  return html`<header><p class="eyebrow">${eyebrow}</p><h1>${m.title}</h1><div class="lead">${m.lead.map(leadHtml)}</div>${summary}${facts}${notes}</header>`
}

function leadHtml(l: LeadLine): Markup {
  const mark = l.outcome !== undefined && html`${markSvg(l.outcome)} `
  if (l.parts.length === 0) return html`<p>${mark}${proseHtml(l.say)}</p>`
  const more = l.more > 0 && html` and ${l.more.toLocaleString('en-US')} more`
  return html`<p>${mark}${l.say}: ${joined(l.parts.map(namedHtml), ', ')}${more}.</p>`
}

function namedHtml(p: NamedPart): Markup {
  const tag = html`<bdi>${p.tag}</bdi>`
  const linked = p.section === undefined ? tag : html`<a href="#${p.section}">${tag}</a>`
  const because = p.because.length > 0 && html` <span class="soft">(${joined(p.because.map(symbolHtml), ', ')})</span>`
  return html`${linked}${because}`
}

const factHtml = (f: Fact): Markup =>
  html`<dt>${f.name}</dt><dd>${f.text}${f.detail !== undefined && html`<span class="soft">${f.detail}</span>`}</dd>`

const countHtml = (c: Count): Markup =>
  html`<li><b>${c.parts.toLocaleString('en-US')}</b>${markSvg(c.outcome)} ${c.outcome}</li>`

const partsHtml = (m: ReportModel): Markup | undefined =>
  m.tables.length === 0
    ? undefined
    : html`<section aria-labelledby="parts"><h2 id="parts">Parts</h2>${m.tables.map(partTableHtml)}${m.leftOut !== undefined && html`<p class="soft">${m.leftOut}</p>`}</section>\n`

const curvesHtml = (m: ReportModel): Markup | undefined =>
  m.curves.length === 0
    ? undefined
    : html`<section aria-labelledby="curves"><h2 id="curves">Curves</h2>${m.curves.map(curveHtml)}</section>\n`

const plotsHtml = (m: ReportModel): Markup | undefined =>
  m.plots.length === 0
    ? undefined
    : html`<section aria-labelledby="plots"><h2 id="plots">Against the limits</h2>${m.plots.map(plotHtml)}</section>\n`

function sectionsHtml(m: ReportModel): Markup | undefined {
  if (m.sections.length === 0) return undefined
  const isLot = m.kind === 'lot'
  const title = isLot ? 'Part by part' : 'The part'
  return html`<section aria-labelledby="each"><h2 id="each">${title}</h2>${m.sections.map((s) => sectionHtml(s, m.workings, isLot))}</section>\n`
}

const limitsHtml = (m: ReportModel): Markup | undefined =>
  m.limits.length === 0
    ? undefined
    : html`<section aria-labelledby="limits"><h2 id="limits">Published limits</h2>${limitTableHtml(m.limits)}</section>\n`

const footHtml = (m: ReportModel): Markup =>
  html`<footer class="foot"><h2>How to read this page</h2><ul>${[...m.reading, ...m.cautions].map((line) => html`<li>${line}</li>`)}</ul></footer>`
