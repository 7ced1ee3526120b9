import { type Fault, FaultError } from '#core/fault'
import { type Curve, type CurveFit, curvesOf, type FitCurveOptions, type FitKind, fitCurve } from '#core/fit'

/** A file of curves. */
export interface CurveFile {
  readonly text: string
  readonly file: string
}

export interface FitInput extends Partial<FitCurveOptions> {
  readonly kind: FitKind
  readonly files: readonly CurveFile[]
  /** Other headers: header to symbol. */
  readonly columns?: Readonly<Record<string, string>>
  /** Told after each curve; false stops. */
  readonly onFit?: (done: number, all: number) => boolean
}

/** Every curve of some files. @throws {FaultError} the faults of all files together */
export function curvesOfFiles(input: Pick<FitInput, 'kind' | 'files' | 'columns'>): readonly Curve[] {
  const faults: Fault[] = []
  const curves = input.files.flatMap(({ text, file }) => {
    try {
      return curvesOf(text, input.kind, { file, ...(input.columns === undefined ? {} : { columns: input.columns }) })
    } catch (error) {
      if (!(error instanceof FaultError)) throw error
      faults.push(...error.faults)
      return []
    }
  })
  if (faults.length > 0) throw new FaultError(faults)
  return curves
}

/** Fits every curve of some files, in their order. */
export function fitFiles(input: FitInput): readonly CurveFit[] {
  const curves = curvesOfFiles(input)
  const fits: CurveFit[] = []
  for (const curve of curves) {
    fits.push(fitCurve(curve, input))
    if (input.onFit?.(fits.length, curves.length) === false) break
  }
  return fits
}

/** One fit in a document. */
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

/** The document of one fit, and of several. */
export type FitDocument = FitEntry | { readonly format: 'germane/fits/1'; readonly fits: readonly FitEntry[] }

/** What was fitted, for scripts. */
export function fitDocument(fits: readonly CurveFit[]): FitDocument {
  const [only] = fits
  if (only !== undefined && fits.length === 1) return entryOf(only)
  return { format: 'germane/fits/1', fits: fits.map(entryOf) }
}
