import { explain } from '#core/fault'
import type { CurveFit } from '#core/fit'
import type { FittedDrawer } from './fit-drawer.ts'

/** One fit in a document. Documented in docs/reference/json.md; new keys may come, none changes. */
export interface FitEntry extends CurveFit {
  readonly format: 'germane/fit/1'
  readonly held: readonly { readonly symbol: string; readonly value: number; readonly why: string }[]
}

const entryOf = (fit: CurveFit): FitEntry => ({
  format: 'germane/fit/1',
  ...fit,
  held: fit.parameters.flatMap(({ symbol, value, standing, why }) =>
    standing === 'held' ? [{ symbol, value, why: why ?? '' }] : [],
  ),
})

/** What was fitted, for scripts: of one curve its fit, of a drawer every fit and every file that could not be used. */
export function fitDocument({ outcomes, of, isStopped }: FittedDrawer) {
  const fits = outcomes.flatMap((o) => ('fits' in o ? o.fits : []))
  if (of === 1 && fits.length === 1) return entryOf(fits[0]!)
  const unusable = outcomes.flatMap((o) => ('faults' in o ? [o] : []))
  return {
    format: 'germane/fits/1' as const,
    fits: fits.map(entryOf),
    ...(unusable.length === 0
      ? {}
      : {
          unusable: unusable.map(({ file, faults }) => ({
            file,
            faults: faults.map((f) => ({ sentence: explain(f), ...f })),
          })),
        }),
    ...(isStopped ? { stopped: { done: outcomes.length, of } } : {}),
  }
}
