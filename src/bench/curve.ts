import {
  type Compared,
  compared,
  curveKindOf,
  firstView,
  type Grid,
  resampled,
  type Sweep,
  sweepsFor,
  unitOfSymbol,
  type View,
  viewsOf,
} from '#core/curve'
import { FaultError } from '#core/fault'
import type { Curve, FitKind } from '#core/fit'
import { writeCsv } from '#core/text'
import { comparisonPlot, curvePlot } from '#report/curve'
import { linePlot } from '#report/plot'
import { type CurveFile, curvesOfFiles } from './fit.ts'

export interface CurveInput {
  readonly files: readonly CurveFile[]
  /** What the parts are; by the names of the columns where left out. */
  readonly kind?: FitKind
  /** Other headers: header to symbol. */
  readonly columns?: Readonly<Record<string, string>>
  /** How to look at them; as people would first where left out. */
  readonly view?: View
}

/** Curves as one view shows them. */
export interface SeenCurves {
  readonly view: View
  readonly curves: readonly { readonly name: string; readonly curve: Curve; readonly sweeps: readonly Sweep[] }[]
}

/** Reads curves and finds in them what a view shows. @throws {FaultError} every fault of the files, or of the view */
export function seeCurves(input: CurveInput): SeenCurves {
  const curves = input.files.flatMap((file) =>
    curvesOfFiles({
      kind: input.kind ?? curveKindOf(file.text, file.file, input.columns),
      files: [file],
      ...(input.columns === undefined ? {} : { columns: input.columns }),
    }),
  )
  return seenCurves(curves, input.view)
}

/** Curves as a view shows them; as people would first where none was named. @throws {FaultError} they are of two kinds */
export function seenCurves(curves: readonly Curve[], wish?: View): SeenCurves {
  checkKinds(curves)
  const view = wish ?? firstView(curves[0]!)
  const names = apartNames(curves.map((c) => c.name))
  return { view, curves: curves.map((curve, i) => ({ name: names[i]!, curve, sweeps: sweepsFor(curve, view) })) }
}

/** Names that tell all curves apart: the second of a name is numbered. */
function apartNames(names: readonly string[]): readonly string[] {
  const seen = new Map<string, number>()
  return names.map((name) => {
    const count = (seen.get(name) ?? 0) + 1
    seen.set(name, count)
    return count === 1 ? name : `${name} (${count})`
  })
}

function checkKinds(curves: readonly Curve[]): void {
  const other = curves.find((c) => c.kind !== curves[0]!.kind)
  if (other !== undefined)
    throw new FaultError({
      code: 'usage',
      problem: `${curves[0]!.name} is the curve of a ${curves[0]!.kind} and ${other.name} that of a ${other.kind}`,
      mend: 'Look at curves of one kind together.',
    })
}

/** The same curves at the places of a grid. @throws {FaultError} where the grid leaves what was read */
export function resampleCurves(seen: SeenCurves, grid: Grid): SeenCurves {
  const curves = seen.curves.map((c) => ({ ...c, sweeps: c.sweeps.map((s) => resampled(s, grid)) }))
  return { ...seen, curves }
}

/** The curves held against the first of them. @throws {FaultError} where there is one alone */
export function compareCurves(seen: SeenCurves, grid: Pick<Grid, 'points' | 'spacing'>): Compared {
  if (seen.curves.length < 2)
    throw new FaultError({
      code: 'usage',
      problem: 'One curve alone cannot be compared',
      mend: 'Name two files or more, or one file with a column "part".',
    })
  return compared(seen.curves, grid)
}

/** Curves laid over each other, as SVG; with their differences below where they were compared. */
export const drawCurves = (seen: SeenCurves, found?: Compared): string =>
  linePlot(found === undefined ? curvePlot(seen.curves, seen.view) : comparisonPlot(seen.curves, found, seen.view))

/** Curves as a table that `germane curve` and `germane fit` read, in SI units. */
export function curvesCsv(seen: SeenCurves, comments: readonly string[]): string {
  const isOne = seen.curves.length === 1
  const rows = new Map<string, Record<string, string>>()
  for (const { name, sweeps } of seen.curves)
    for (const { x, y, at, points } of sweeps)
      for (const p of points) {
        const own: Record<string, string> = {
          ...(isOne ? {} : { part: name }),
          [x]: figures(p.x),
          ...(at === undefined ? {} : { [at.symbol]: figures(at.value) }),
        }
        const key = JSON.stringify(own)
        rows.set(key, { ...(rows.get(key) ?? own), [y]: figures(p.y) })
      }
  const all = [...rows.values()]
  const header = [...new Set(all.flatMap((r) => Object.keys(r)))]
  const table = writeCsv(
    header,
    all.map((r) => header.map((h) => r[h] ?? '')),
  )
  return `${comments.map((c) => `# ${c}\n`).join('')}${table}`
}

const figures = (x: number): string => String(Number(x.toPrecision(9)))

/** A sweep in a document. Documented in docs/reference/json.md; new keys may come, none changes. */
const sweepEntry = ({ x, y, at, points }: Sweep) => ({
  x,
  y,
  unitX: unitOfSymbol(x),
  unitY: unitOfSymbol(y),
  ...(at === undefined ? {} : { at }),
  points: points.map(({ row: _, ...p }) => p),
})

/** What was drawn, for a document: the file it went to, else the drawing itself. */
export interface Drawn {
  readonly file?: string
  readonly svg?: string
}

/** What `germane curve --json` prints. */
export const curvesDocument = (seen: SeenCurves, more: Drawn & { readonly grid?: Grid }) => ({
  format: 'germane/curves/1' as const,
  view: seen.view,
  curves: seen.curves.map(({ name, curve, sweeps }) => ({
    name,
    kind: curve.kind,
    polarity: curve.polarity,
    shows: viewsOf(curve),
    sweeps: sweeps.map(sweepEntry),
    notes: curve.notes,
  })),
  ...more,
})

/** What `germane curve --compare --json` prints. */
export const curveComparisonDocument = (seen: SeenCurves, found: Compared, drawn: Drawn) => ({
  format: 'germane/curve-comparison/1' as const,
  view: seen.view,
  reference: seen.curves[0]!.name,
  comparisons: found.comparisons.map(({ x, y, at, places, reference, others }) => ({
    x,
    y,
    unitX: unitOfSymbol(x),
    unitY: unitOfSymbol(y),
    ...(at === undefined ? {} : { at }),
    places,
    values: reference.values,
    others,
  })),
  notes: found.notes,
  ...drawn,
})
