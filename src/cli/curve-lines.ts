import type { SeenCurves } from '#bench'
import { type Compared, type Comparison, rangeOf, type Sweep, unitOfSymbol, viewsOf, viewWords } from '#core/curve'
import type { Curve, FitKind } from '#core/fit'
import { printPlain, type Unit } from '#core/quantity'
import { block } from './say.ts'
import { tableLines, wrapped } from './table.ts'

const value = (x: number, unit: Unit, digits = 4): string => printPlain(x, unit, { digits })

const heldText = ({ at }: Pick<Sweep, 'at'>): string =>
  at === undefined ? '' : `${at.symbol} ${value(at.value, unitOfSymbol(at.symbol), 3)}`

const polarities: Readonly<Record<FitKind, readonly [n: string, p: string]>> = {
  diode: ['', ''],
  bjt: [', NPN', ', PNP'],
  jfet: [', n-channel', ', p-channel'],
  mosfet: [', n-channel', ', p-channel'],
}

/** Polarity of a part as it stands after its kind. */
export const polarityText = ({ kind, polarity }: Pick<Curve, 'kind' | 'polarity'>): string =>
  polarities[kind][polarity === 'n' ? 0 : 1]

/** What each curve holds, a sweep to a line. */
export const curveLines = (seen: SeenCurves): readonly string[] =>
  seen.curves.flatMap(({ name, curve, sweeps }, i) => [
    ...(i === 0 ? [] : ['']),
    `${name}: ${curve.kind}${polarityText(curve)}, ${curve.points.length} rows; ${viewWords[seen.view]}`,
    '',
    ...tableLines(
      ['quantity', 'against', 'held', '>points', '>from', '>to', '>lowest', '>highest'],
      sweeps.map(sweepCells),
    ),
    ...block('To know:', [
      ...curve.notes.flatMap((n) => wrapped(n, '  ')),
      `  It can be seen as ${viewsOf(curve).join(', ')}: --plot.`,
    ]),
  ])

function sweepCells(s: Sweep): readonly string[] {
  const [from, to] = rangeOf(s)
  const least = s.points.reduce((m, p) => Math.min(m, p.y), Number.POSITIVE_INFINITY)
  const most = s.points.reduce((m, p) => Math.max(m, p.y), Number.NEGATIVE_INFINITY)
  const [x, y] = [unitOfSymbol(s.x), unitOfSymbol(s.y)]
  return [s.y, s.x, heldText(s), String(s.points.length), value(from, x), value(to, x), value(least, y), value(most, y)]
}

/** How many places of a comparison are printed. */
const printedPlaces = 11

/** Curves held against the first: how far each is from it, in all and place by place. */
export function comparisonLines(seen: SeenCurves, found: Compared): readonly string[] {
  const first = seen.curves[0]!.name
  return [
    `Held against ${first}; ${viewWords[seen.view]}`,
    ...found.comparisons.flatMap((c) => ['', ...wholeLines(c), '', ...placeLines(c)]),
    ...block('To know:', [
      ...found.notes.flatMap((n) => wrapped(n, '  ')),
      '  Between readings a monotone curve runs through them; nothing is drawn on beyond them.',
    ]),
  ]
}

const percent = (part: number): string => `${Number((100 * part).toPrecision(3))} %`

const apart = (c: Comparison, o: Comparison['others'][number], i: number): string =>
  o.relative === undefined ? value(o.differences[i]!, unitOfSymbol(c.y), 3) : percent(o.relative[i]!)

function wholeLines(c: Comparison): readonly string[] {
  const unit = unitOfSymbol(c.x)
  const at = heldText(c)
  const rows = c.others.map((o) => {
    const i = c.places.indexOf(o.greatestAt)
    const rms = o.relative === undefined ? value(o.rms, unitOfSymbol(c.y), 3) : percent(o.rms)
    return [o.name, rms, apart(c, o, i), value(o.greatestAt, unit)]
  })
  const from = `${value(c.places[0]!, unit)} to ${value(c.places.at(-1)!, unit)}`
  return [
    `${c.y}${at === '' ? '' : ` at ${at}`}, over ${c.x} from ${from}:`,
    ...tableLines(['curve', '>rms difference', '>greatest', `>at ${c.x}`], rows),
  ]
}

function placeLines(c: Comparison): readonly string[] {
  const last = c.places.length - 1
  const count = Math.min(printedPlaces, c.places.length)
  const chosen = Array.from({ length: count }, (_, i) => Math.round((i * last) / (count - 1)))
  const rows = chosen.map((i) => [
    value(c.places[i]!, unitOfSymbol(c.x)),
    value(c.reference.values[i]!, unitOfSymbol(c.y)),
    ...c.others.map((o) => apart(c, o, i)),
  ])
  return tableLines([`>${c.x}`, `>${c.reference.name}`, ...c.others.map((o) => `>${o.name}`)], rows)
}
