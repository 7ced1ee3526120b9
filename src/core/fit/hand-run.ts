import { leaf, type Quantity, standardUncertainty, type Term, term } from '#core/quantity'
import type { SeenReading } from '#core/reduce'
import type { Curve, CurvePoint, CurveSymbol, FitKind } from './curve.ts'
import { symbolsOf } from './read-curve.ts'

/** What was set and read at one point, each with its budget; signs as if NPN or n-channel. */
export interface HandRow {
  readonly row: number
  readonly values: Readonly<Partial<Record<CurveSymbol, Quantity>>>
}

/** A few readings of one part, whose causes may be shared: one movement, one range, one thermometer. */
export interface HandRun {
  readonly name: string
  readonly kind: FitKind
  readonly polarity: 'n' | 'p'
  readonly rows: readonly HandRow[]
  /** Junction temperature of all rows. */
  readonly temperature: Quantity<'degC'>
  readonly notes: readonly string[]
}

export interface HandRunDoubts {
  readonly temperatureC: number
  /** Standard uncertainty of the temperature, K. */
  readonly temperatureU?: number
  /** Standard uncertainty of a current as a part of it, where the file states none. */
  readonly relative?: number
  /** What all currents are wrong by together, as a part of them: the class of one instrument. Standard uncertainty. */
  readonly common?: number
}

/** A curve whose uncertainties are stated, as a hand run: each reading errs by itself, and all currents together. */
export function handRunOf(curve: Curve, doubts: HandRunDoubts): HandRun {
  const { name, kind, polarity, notes } = curve
  const rows = curve.points.map(
    (p): HandRow => ({
      row: p.row,
      values: Object.fromEntries(
        Object.entries(p.values).map(([s, value]) => [s, quantityOf(curve, p, s as CurveSymbol, value, doubts)]),
      ),
    }),
  )
  const { temperatureC, temperatureU } = doubts
  const warm = temperatureU === undefined ? [] : [term('fit/temperature', { label: 'temperature', u: temperatureU })]
  const seen = { kind: 'read', what: 'temperature', seen: `${temperatureC} degC` } as const
  return { name, kind, polarity, notes, rows, temperature: leaf(temperatureC, 'degC', seen, warm) }
}

function quantityOf(
  curve: Curve,
  p: CurvePoint,
  s: CurveSymbol,
  value: number,
  { common, relative }: HandRunDoubts,
): Quantity {
  const isCurrent = s.startsWith('I')
  const u = p.u[s] ?? (isCurrent && relative !== undefined ? relative * Math.abs(value) : undefined)
  const budget: Term[] = []
  if (u !== undefined) budget.push(term(`${curve.name}/${p.row}/${s}`, { label: `${s} of row ${p.row}`, u }))
  if (common !== undefined && isCurrent)
    budget.push(term('fit/currents', { label: 'all currents together', u: common, slope: value }))
  return leaf(value, s === 'T' ? 'degC' : isCurrent ? 'A' : 'V', { kind: 'read', what: s, seen: '' }, budget)
}

/** Voltage that the supply of a reading sets, by what was read. */
const suppliedVoltage: Readonly<Record<string, CurveSymbol>> = { I_C: 'V_CE', I_R: 'V_R' }

/**
 * Readings of one part as its tester gives them, with the budgets of the tester; readings of one point stand in one
 * row. What the kind of part has no symbol for is left out.
 *
 * @param seen as `understand` of core/reduce gives them
 */
export function handRunOfReadings(seen: readonly SeenReading[], kind: FitKind, temperature: Quantity<'degC'>): HandRun {
  const known: readonly string[] = symbolsOf[kind]
  const rows = new Map<number, Partial<Record<CurveSymbol, Quantity>>>()
  for (const { reading, quantity, supply } of seen) {
    if (!known.includes(reading.reads)) continue
    const row = rows.get(reading.point) ?? {}
    rows.set(reading.point, row)
    row[reading.reads as CurveSymbol] = quantity
    const set = suppliedVoltage[reading.reads]
    if (set !== undefined && supply !== undefined && known.includes(set)) row[set] ??= supply
  }
  return {
    name: seen[0]?.reading.part ?? 'part',
    kind,
    polarity: 'n',
    temperature,
    notes: [],
    rows: [...rows].map(([row, values]) => ({ row, values })),
  }
}

/** The numbers of a run as a curve; `u` of currents as they stand alone. */
export const curveOfRun = (run: HandRun): Curve => ({
  name: run.name,
  kind: run.kind,
  polarity: run.polarity,
  notes: run.notes,
  points: run.rows.map(({ row, values }) => ({
    row,
    values: Object.fromEntries(Object.entries(values).map(([s, q]) => [s, q.value])),
    u: Object.fromEntries(
      Object.entries(values).map(([s, q]) => [s, standardUncertainty(q) || 0.01 * Math.abs(q.value)]),
    ),
  })),
})
