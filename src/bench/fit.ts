import { type Fault, FaultError } from '#core/fault'
import { type Curve, type CurveFit, curvesOf, type FitCurveOptions, type FitKind, fitCurve } from '#core/fit'

/** A file of curves. */
export interface CurveFile {
  readonly text: string
  readonly file: string
}

/** How curves are to be fitted. */
export interface FitWishes extends Partial<Omit<FitCurveOptions, 'onStep'>> {
  readonly kind: FitKind
  /** Other headers: header to symbol. */
  readonly columns?: Readonly<Record<string, string>>
}

/** What became of one file: a fit for each of its curves, or what is wrong with it. */
export type FitOutcome =
  | { readonly file: string; readonly fits: readonly CurveFit[] }
  | { readonly file: string; readonly faults: readonly Fault[] }

/** Every curve of a file. @throws {FaultError} every fault of it */
export const curvesOfFile = ({ text, file }: CurveFile, { kind, columns }: Pick<FitWishes, 'kind' | 'columns'>) =>
  curvesOf(text, kind, { file, ...(columns === undefined ? {} : { columns }) })

/** Every curve of some files. @throws {FaultError} the faults of all files together */
export function curvesOfFiles(input: {
  readonly kind: FitKind
  readonly files: readonly CurveFile[]
  readonly columns?: Readonly<Record<string, string>>
}): readonly Curve[] {
  const faults: Fault[] = []
  const curves = input.files.flatMap((file) => {
    try {
      return curvesOfFile(file, input)
    } catch (error) {
      if (!(error instanceof FaultError)) throw error
      faults.push(...error.faults)
      return []
    }
  })
  if (faults.length > 0) throw new FaultError(faults)
  return curves
}

/** Fits every curve of one file; what is wrong with it is part of the answer. */
export function fitFile(file: CurveFile, wishes: FitWishes): FitOutcome {
  try {
    return { file: file.file, fits: curvesOfFile(file, wishes).map((curve) => fitCurve(curve, wishes)) }
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    return { file: file.file, faults: error.faults }
  }
}
