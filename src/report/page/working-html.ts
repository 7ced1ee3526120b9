import type { WorkingModel, WorkingStep } from '#report/model'
import { budgetBars } from '#report/plot'
import { figureHtml, formulaHtml, html, type Markup, proseHtml, putInHtml, symbolHtml, trusted } from '#report/typeset'

/** The working of a number: its equations, the numbers they rest on, and where the doubt comes from. */
export function workingHtml(w: WorkingModel): Markup {
  const budget = w.budget !== undefined && trusted(budgetBars(w.budget))
  return html`<div class="working">${stepsHtml(w.steps)}${budget}<p class="coverage">${proseHtml(w.coverage)}</p></div>`
}

/** Equations first, then a table of the numbers they rest on. */
export function stepsHtml(steps: readonly WorkingStep[]): Markup {
  const given = steps.filter((s) => s.formula === undefined)
  return html`${steps.map((s) => s.formula !== undefined && equation(s, s.formula))}${given.length > 0 && inputTable(given)}`
}

/** Formula, the same with numbers put in, and the result, their equals signs below each other. */
function equation(s: WorkingStep, formula: string): Markup {
  const cut = formula.indexOf(' = ')
  const left = formula.slice(0, cut)
  const name = s.symbol !== left && html`<span class="which">${named(s)}</span>`
  const law = line(formulaHtml(left), formulaHtml(formula.slice(cut + 3)))
  const putIn = s.putIn !== undefined && line('', putInHtml(s.putIn))
  const source = s.source !== undefined && html`<span class="source">${proseHtml(s.source)}</span>`
  const body = html`${name}${law}${putIn}${line('', figureHtml(s.result))}${source}`
  return s.id === undefined ? html`<div class="eq">${body}</div>` : html`<div class="eq" id="${s.id}">${body}</div>`
}

const line = (left: Markup | '', right: Markup): Markup =>
  html`<span class="lhs">${left}</span><span>=</span><span class="rhs">${right}</span>`

/** A number by its symbol, and by its words where they say more. */
function named(s: WorkingStep): Markup {
  const isNews = s.what !== '' && s.what.replaceAll('_', '') !== s.symbol.replaceAll('_', '')
  return html`${formulaHtml(s.symbol)}${isNews && html` <span class="soft">${proseHtml(s.what)}</span>`}`
}

function inputTable(steps: readonly WorkingStep[]): Markup {
  const rows = steps.map(
    (s) =>
      html`<tr><th scope="row">${named(s)}</th><td class="n">${figureHtml(s.result)}</td><td class="soft">${known(s)}</td></tr>`,
  )
  return html`<table class="inputs"><caption>What it rests on</caption><thead class="vh"><tr><th scope="col">Number</th><th scope="col">Value</th><th scope="col">How it is known</th></tr></thead><tbody>${rows}</tbody></table>`
}

function known(s: WorkingStep): Markup {
  if (s.worked === undefined) return proseHtml(s.known ?? '')
  const { id, under } = s.worked
  return html`<a href="#${id}">${under === undefined ? 'worked once, below' : html`worked under ${symbolHtml(under)}`}</a>`
}
