import { type Figure, figureHtml, html, proseHtml } from '#report/typeset'

/** One cause of doubt and how much of the whole it makes. */
export interface BudgetBar {
  /** What it is, for people. */
  readonly label: string
  /** Standard uncertainty it brings, in the unit of the result. */
  readonly contribution: Figure
  /** Share of the variance, 0 to 1; below 0 where a correlation takes some away. */
  readonly share: number
}

/** A budget, ready to be drawn. */
export interface BudgetBars {
  /** What the table is, for its caption: "Where the doubt in h_FE comes from". */
  readonly caption: string
  readonly bars: readonly BudgetBar[]
}

/** Percent without false digits: `83 %`, `4.1 %`, `< 0.1 %`. */
export function shareText(share: number): string {
  const percent = share * 100
  if (percent < 0) return `\u2212${shareText(-share)}`
  if (percent === 0) return '0 %'
  if (percent < 0.1) return '< 0.1 %'
  return `${percent < 9.95 ? percent.toFixed(1) : percent.toFixed(0)} %`
}

/** Bars of a budget by cause: a table, so that it can be read without seeing the bars. */
export function budgetBars(budget: BudgetBars): string {
  const rows = budget.bars.map(
    (b) =>
      html`<tr><th scope="row">${proseHtml(b.label)}</th><td class="bar"><svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true"><rect width="${Math.max(0.6, Math.min(100, Math.abs(b.share) * 100)).toFixed(1)}" height="8"/></svg></td><td class="n">${shareText(b.share)}</td><td class="n">${figureHtml(b.contribution)}</td></tr>`,
  )
  return html`<table class="budget"><caption>${proseHtml(budget.caption)}</caption><thead><tr><th scope="col">Cause</th><th scope="col" colspan="2">Share</th><th scope="col">Brings</th></tr></thead><tbody>${rows}</tbody></table>`
    .markup
}
