import type { DoubtLine, PartSection, ReadingRow, Result, VerdictLine, Workings } from '#report/model'
import { figureHtml, html, joined, type Markup, outcomeHtml, proseHtml, symbolHtml } from '#report/typeset'
import { boundsHtml, conditionsHtml } from './inline.ts'
import { scrolling } from './tables-html.ts'
import { stepsHtml, workingHtml } from './working-html.ts'

/** All about one part: how it came out, each number with its verdicts and working, and what was read. */
export function sectionHtml(s: PartSection, workings: Workings, isLot: boolean): Markup {
  const kind = html`<span class="kind">${s.type}${s.kind !== '' && `, ${s.kind}`}</span>`
  const header = html`<header><h3><bdi>${s.tag}</bdi></h3>${kind}${outcomeHtml(s.outcome)}</header>`
  const lead = isLot && html`<p class="plead">${proseHtml(s.lead)}</p>`
  const trouble =
    s.trouble !== undefined && html`<p class="doubt"><b>Known of this type.</b> ${proseHtml(s.trouble)}</p>`
  const results = bySymbolHtml(s.results, workings)
  const back = isLot && html`<p class="top"><a href="#parts">All parts</a></p>`
  return html`<article class="part" id="${s.id}">${header}${lead}${trouble}${s.doubts.map(doubtHtml)}${results}${sharedHtml(s, workings)}${untestedHtml(s)}${readingsHtml(s)}${back}</article>\n`
}

const doubtHtml = (d: DoubtLine): Markup =>
  html`<p class="doubt"><b>${d.weight === 'nonsense' ? 'Not usable.' : 'Note.'}</b> ${proseHtml(d.say)}</p>`

/** Results of one symbol under one heading: as measured, then as it was brought elsewhere. */
function bySymbolHtml(results: readonly Result[], workings: Workings): Markup {
  const groups: Result[][] = []
  for (const r of results) {
    const last = groups.at(-1)
    if (last !== undefined && last[0]!.symbol === r.symbol) last.push(r)
    else groups.push([r])
  }
  return html`${groups.map((g) => groupHtml(g, workings))}`
}

function groupHtml(group: readonly Result[], workings: Workings): Markup {
  const { id, symbol, name } = group[0]!
  const heading = html`<h4 id="${id}"><span class="sym">${symbolHtml(symbol)}</span><span class="name">${name}</span></h4>`
  const bodies = group.map((r, i) =>
    i === 0
      ? html`<div class="one">${resultHtml(r, workings)}</div>`
      : html`<div class="one again" id="${r.id}">${resultHtml(r, workings)}</div>`,
  )
  return html`<section class="result" aria-labelledby="${id}">${heading}<div>${bodies}</div></section>\n`
}

function resultHtml(r: Result, workings: Workings): Markup {
  const at = r.conditions.length > 0 && html` at ${conditionsHtml(r.conditions)}`
  const isMeasured = r.standing === 'measured'
  const ambient = isMeasured && html`, ambient ${figureHtml(r.temperature)}`
  const where = html`<p class="at">${isMeasured ? 'measured' : r.standing.replace(/ C$/, ' \u00b0C')}${at}${ambient}</p>`
  const held = r.verdicts.length > 0 && html`<ul class="held">${r.verdicts.map(verdictHtml)}</ul>`
  return html`<p class="value">${figureHtml(r.figure)}</p>${where}${held}${r.doubts.map(doubtHtml)}${opened(r, workings)}`
}

function opened(r: Result, workings: Workings): Markup | undefined {
  if (r.working === undefined || workings === 'none') return undefined
  const summary = html`<summary>Working<span class="vh"> of ${r.symbol}</span></summary>`
  return folded(summary, workingHtml(r.working), workings)
}

/** Steps that several numbers of the part need. */
function sharedHtml(s: PartSection, workings: Workings): Markup | undefined {
  if (s.shared.length === 0) return undefined
  const summary = html`<summary>Worked once for all of them</summary>`
  const body = html`<div class="working">${stepsHtml(s.shared)}</div>`
  return html`<section class="result shared"><h4><span class="name">What these numbers share</span></h4><div>${folded(summary, body, workings)}</div></section>\n`
}

const untestedHtml = (s: PartSection): Markup | undefined =>
  s.untested.length === 0
    ? undefined
    : html`<p class="untested">Published, but not tested here: ${joined(s.untested.map(symbolHtml), ', ')}.</p>`

const folded = (summary: Markup, body: Markup, workings: Workings): Markup =>
  workings === 'open' ? html`<details open>${summary}${body}</details>` : html`<details>${summary}${body}</details>`

/** A verdict: outcome, limit and odds in a line; then why, what would settle it, and where the limit comes from. */
function verdictHtml(v: VerdictLine): Markup {
  const odds = v.probability !== undefined && html`, ${v.probability} likely to be met`
  const at = v.conditions.length > 0 && html` at ${conditionsHtml(v.conditions)}`
  const note = v.note !== undefined && html` (${proseHtml(v.note)})`
  const head = html`<p><span class="word">${outcomeHtml(v.outcome)}</span>: limit ${boundsHtml(v.bounds)}${at}${note}${odds}</p>`
  const mend = v.outcome === 'undecided' ? 'To settle it:' : 'To compare it:'
  const settle = v.settle !== undefined && html`<p><b>${mend}</b> ${proseHtml(v.settle)}</p>`
  const source = html`<p class="source">Limit ${v.source.startsWith('from memory') ? '' : 'from '}${v.source}</p>`
  return html`<li>${head}<p class="why">${proseHtml(v.why)}</p>${settle}${source}</li>`
}

function readingsHtml(s: PartSection): Markup | undefined {
  if (s.readings.length === 0) return undefined
  const head = ['Reads', 'Seen', 'Range', 'Supply', 'Point', 'Ambient', 'When', 'Note']
  const heads = head.map((h) => html`<th scope="col">${h}</th>`)
  const caption = 'Readings as they were seen'
  return scrolling(
    `${caption}, ${s.tag}`,
    html`<table class="readings"><caption>${caption}</caption><thead><tr>${heads}</tr></thead><tbody>${s.readings.map(readingHtml)}</tbody></table>`,
  )
}

function readingHtml(r: ReadingRow): Markup {
  const reads = r.reads === 'short' ? html`short check` : symbolHtml(r.reads)
  const supply = r.supply === undefined ? '' : figureHtml(r.supply)
  const ambient = r.ambient === undefined ? '' : figureHtml(r.ambient)
  return html`<tr><th scope="row">${reads}</th><td><bdi>${r.seen}</bdi></td><td>${r.range}</td><td>${supply}</td><td>${r.point}</td><td>${ambient}</td><td>${r.at}</td><td>${r.note}</td></tr>`
}
