import type { Working } from '#core/uncertainty'
import type { BudgetBars } from '#report/plot'
import { plainFigure } from '#report/typeset'

/** A budget shows this many lines at most; the small rest is one of them. */
export const causesAtMost = 7

/** Shares below these, in percent, are told together; and are rounding and no causes. */
const small = 0.5
const nothing = 1e-9

/** Where the doubt comes from, largest first; undefined where there is no doubt. */
export function budgetModel(w: Working, symbol: string): BudgetBars | undefined {
  const causes = w.budget.filter((l) => Math.abs(l.percent) > nothing)
  if (causes.length === 0) return undefined
  const large = causes.filter((l) => Math.abs(l.percent) >= small).length
  const kept = Math.min(Math.max(1, large), causesAtMost - 1)
  const shown = causes.length <= kept + 1 ? causes : causes.slice(0, kept)
  const rest = causes.slice(shown.length)
  const restBar = {
    label: `${rest.length} smaller causes`,
    contribution: plainFigure(Math.hypot(...rest.map((l) => l.contribution)), w.unit, 2),
    share: rest.reduce((sum, l) => sum + l.percent, 0) / 100,
  }
  const bars = shown.map((l) => ({
    label: l.label,
    contribution: plainFigure(Math.abs(l.contribution), w.unit, 2),
    share: l.percent / 100,
  }))
  return {
    caption: `Where the doubt in ${symbol} comes from`,
    bars: rest.length === 0 ? bars : [...bars, restBar],
  }
}
