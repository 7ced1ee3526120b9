import { type Fault, FaultError } from '#core/fault'
import {
  type Curve,
  type CurveFit,
  curvesOf,
  type FitCurveOptions,
  type FitKind,
  fitCurve,
  fitCurveDefaults,
  fitHandRun,
  handRunOf,
} from '#core/fit'

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
  /** The files hold the few readings of hand runs, all of whose errors are known. */
  readonly hand?: HandWishes
}

export interface HandWishes {
  /** What all currents are wrong by together, as a part of them. */
  readonly common?: number
  /** Standard uncertainty of the temperature, K. */
  readonly temperatureU?: number
  /** Standard uncertainty of values to hold, by symbol. */
  readonly fixU?: Readonly<Record<string, number>>
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
    return { file: file.file, fits: curvesOfFile(file, wishes).map((curve) => fitOne(curve, wishes)) }
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    return { file: file.file, faults: error.faults }
  }
}

function fitOne(curve: Curve, wishes: FitWishes): CurveFit {
  const { hand } = wishes
  if (hand === undefined) return fitCurve(curve, wishes)
  const { temperatureC = fitCurveDefaults.temperatureC, relative, fix = {} } = wishes
  const { fixU = {}, ...doubts } = hand
  const run = handRunOf(curve, { temperatureC, ...doubts, ...(relative === undefined ? {} : { relative }) })
  return fitHandRun(run, { fix, fixU })
}
