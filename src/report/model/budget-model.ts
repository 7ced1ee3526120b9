import type { Working } from '#core/uncertainty'
import type { BudgetBars } from '#report/plot'
import { plainFigure } from '#report/typeset'

/** A budget shows this many causes; the small rest is one line. */
export const causesAtMost = 7

/** Shares below this, in percent, are rounding and not causes. */
const nothing = 1e-9

/** Where the doubt comes from, largest first; undefined where there is no doubt. */
export function budgetModel(w: Working, symbol: string): BudgetBars | undefined {
  const causes = w.budget.filter((l) => Math.abs(l.percent) > nothing)
  if (causes.length === 0) return undefined
  const shown = causes.length > causesAtMost ? causes.slice(0, causesAtMost - 1) : causes
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
