import { addCurves, type BookCurve, contentHash, curves } from '#book'
import { curveKindOf } from '#core/curve'
import { FaultError } from '#core/fault'
import { type Curve, type FitKind, symbolsOf } from '#core/fit'
import { writeCsv } from '#core/text'
import { type Bench, bookOf } from './bench.ts'
import { type CurveFile, curvesOfFile } from './fit.ts'
import { patiently } from './patience.ts'

export type { BookCurve } from '#book'

/** A file with the curve of one part. */
export interface PartCurveInput extends CurveFile {
  /** Tag of the part; one that is not in the book yet is added. */
  readonly part: string
  /** What the part is; by the names of the columns where left out. */
  readonly kind?: FitKind
  /** Other headers: header to symbol. */
  readonly columns?: Readonly<Record<string, string>>
  readonly temperatureC?: number
  /** When it was taken, ISO. */
  readonly takenAt?: string
  readonly note?: string
  /** Takes a file again that was kept before. */
  readonly again?: boolean
}

/** Keeps the curve of a part in the book. @throws {FaultError} every fault of the file; it is of another part */
export async function keepCurve(bench: Bench, input: PartCurveInput): Promise<BookCurve> {
  const { part, text, file, columns, temperatureC, takenAt, note } = input
  const kind = input.kind ?? curveKindOf(text, file, columns)
  const curve = ownCurve(curvesOfFile({ text, file }, { kind, ...(columns === undefined ? {} : { columns }) }), input)
  const given = {
    curve: { ...curve, name: part },
    file,
    hash: contentHash(text),
    ...(temperatureC === undefined ? {} : { temperatureC }),
    ...(takenAt === undefined ? {} : { takenAt }),
    ...(note === undefined ? {} : { note }),
  }
  const [kept] = await patiently(() => addCurves(bookOf(bench), [given], input.again === true, bench.now()))
  return kept!
}

/** The curve of the part in a file: its only one, or the one that bears its tag. */
function ownCurve(found: readonly Curve[], { part, file }: PartCurveInput): Curve {
  const own =
    found.find((c) => c.name === part) ?? (found.length === 1 && found[0]!.name === file ? found[0] : undefined)
  if (own !== undefined) return own
  const names = found.map((c) => c.name).join(', ')
  throw new FaultError({
    code: 'bad-input',
    place: { file },
    value: names,
    problem: `is what its column "part" names, and not ${part}`,
    mend: 'Name one of these, or take the column out.',
  })
}

/** Curves of a part, oldest first. @throws {FaultError} `not-found` */
export const curvesOfPart = (bench: Bench, tag: string): Promise<BookCurve[]> => curves(bookOf(bench), tag)

/** The newest curve of each part, or of one the curve of a number. @throws {FaultError} `not-found` where there is none */
export async function chosenCurves(bench: Bench, tags: readonly string[], number?: number): Promise<BookCurve[]> {
  const found: BookCurve[] = []
  for (const tag of tags) {
    const all = await curvesOfPart(bench, tag)
    const one = number === undefined ? all.at(-1) : all.find((c) => c.id === number)
    if (one === undefined)
      throw new FaultError({
        code: 'not-found',
        what: `curve of ${tag} in the book`,
        name: number === undefined ? 'newest' : String(number),
        near: all.map((c) => String(c.id)),
        mend: 'Keep one with "germane part curve".',
      })
    found.push(one)
  }
  return found
}

/** A kept curve as the table it was read from, in SI units, with the signs of its file. */
export function keptCurveCsv({ curve }: BookCurve): string {
  const sign = curve.polarity === 'p' ? -1 : 1
  const symbols = symbolsOf[curve.kind].filter((s) => curve.points.some((p) => p.values[s] !== undefined))
  const spreads = symbols.filter((s) => curve.points.some((p) => p.u[s] !== undefined))
  const cell = (x: number | undefined): string => (x === undefined ? '' : String(x))
  const signed = (x: number | undefined): number | undefined => (x === undefined ? undefined : sign * x)
  return writeCsv(
    [...symbols, ...spreads.map((s) => `u(${s})`)],
    curve.points.map((p) => [...symbols.map((s) => cell(signed(p.values[s]))), ...spreads.map((s) => cell(p.u[s]))]),
  )
}

/** A curve of the book in a document. Documented in docs/reference/json.md; new keys may come, none changes. */
const entryOf = ({ curve, ...about }: BookCurve) => {
  const { name: part, kind, polarity, notes, points } = curve
  return { part, ...about, kind, polarity, notes, points }
}

/** What `germane part curve` and `germane part curves` print with `--json`. */
export const partCurvesDocument = (kept: readonly BookCurve[], drawn: { file?: string; svg?: string } = {}) => ({
  format: 'germane/part-curves/1' as const,
  curves: kept.map(entryOf),
  ...drawn,
})
