import type { Limit } from '#core/device'
import type { Verdict } from '#core/judge'
import type { Quantity, Unit } from '#core/quantity'
import type { Parameter } from '#core/reduce'
import {
  type Axis,
  type IntervalGroup,
  type IntervalRow,
  intervalPlotDefaults,
  type LimitLine,
  type ScatterPoint,
  type Span,
} from '#report/plot'
import { figureText, type Outcome, outcomes, symbolText } from '#report/typeset'
import { intervalOf } from './interval.ts'
import type { JudgedPart } from './judged.ts'
import type { PlotModel } from './model.ts'
import { axisKind, bySymbol, parameterName } from './trade.ts'
import { boundsOf, conditionList, conditionsText, counted, sentenceList } from './wording.ts'

/** A value held against one limit. */
interface Held {
  readonly verdict: Verdict
  readonly parameter: Parameter
}

/** A plot for each judged parameter, and gain against leakage where both are there. */
export function plotModels(parts: readonly JudgedPart[]): readonly PlotModel[] {
  const held = parts.flatMap((p) =>
    p.parameters.flatMap(({ parameter, verdicts }) => verdicts.map((verdict) => ({ verdict, parameter }))),
  )
  const bySymbolName = grouped(held, (h) => h.verdict.symbol)
  const symbols = [...bySymbolName.keys()].sort(bySymbol)
  return [...symbols.flatMap((s) => intervalModel(s, bySymbolName.get(s)!)), ...scatterModel(parts)]
}

function grouped<T>(list: readonly T[], key: (item: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>()
  for (const item of list) {
    const group = groups.get(key(item))
    if (group === undefined) groups.set(key(item), [item])
    else group.push(item)
  }
  return groups
}

const axisOf = (symbol: string, unit: Unit): Axis => ({
  symbol,
  name: parameterName(symbol),
  unit,
  kind: axisKind(symbol),
})

/** Limits that not one value can be compared with are left out. */
function intervalModel(symbol: string, all: readonly Held[]): readonly PlotModel[] {
  const limitKey = ({ verdict, parameter }: Held): string =>
    JSON.stringify([parameter.type, verdict.limit.min, verdict.limit.max, verdict.limit.at])
  const isOfUse = (group: readonly Held[]): boolean => group.some((h) => h.verdict.verdict !== 'not comparable')
  const groups = [...grouped(all, limitKey).values()].filter(isOfUse)
  const held = groups.flat()
  if (held.length === 0) return []
  const found = held.map((h) => h.verdict.verdict)
  const name = parameterName(symbol)
  const plot = {
    title: `${capital(name)}, ${symbolText(symbol)}, against its limits`,
    desc: `${counted(held.length, 'value')}: ${tally(found)}.`,
    axis: axisOf(symbol, held[0]!.parameter.quantity.unit),
    groups: groups.map(intervalGroup),
  }
  const caption = `${capital(name)} ${symbol}: value and 95 % interval against the published limits.${inOrder(held.length)}`
  return [{ kind: 'interval', caption, outcomes: present(found), plot }]
}

const inOrder = (rows: number): string =>
  rows > intervalPlotDefaults.tagged ? ' One line for each part, in order of value.' : ''

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

const present = (found: readonly Outcome[]): readonly Outcome[] => outcomes.filter((o) => found.includes(o))

const tally = (found: readonly Outcome[]): string =>
  sentenceList(present(found).map((o) => `${found.filter((f) => f === o).length} ${o}`))

function intervalGroup(held: readonly Held[]): IntervalGroup {
  const { verdict, parameter } = held[0]!
  return {
    label: parameter.type ?? 'unknown type',
    at: conditionsText(conditionList(verdict.limit.at)),
    limits: limitLines(verdict.limit),
    rows: held.map(intervalRow),
  }
}

function limitLines(limit: Limit): readonly LimitLine[] {
  const bounds = boundsOf(limit)
  const line = (kind: 'min' | 'max'): readonly LimitLine[] => {
    const value = limit[kind]
    const figure = bounds[kind]
    return value === undefined || figure === undefined ? [] : [{ kind, value, label: `${kind} ${figureText(figure)}` }]
  }
  return [...line('min'), ...line('max')]
}

function intervalRow({ verdict, parameter }: Held): IntervalRow {
  return { label: parameter.part, ...spanOf(verdict.compared ?? parameter.quantity), outcome: verdict.verdict }
}

function spanOf(q: Quantity): Span {
  const { low, high } = intervalOf(q)
  return { value: q.value, low, high }
}

const gains = ['h_FE', 'h_fe']
const leakages = ['I_CEO', 'I_CBO', 'I_CES', 'I_CER']

/** The value of a symbol to plot: as measured where that is there. */
function measuredValue(part: JudgedPart, symbol: string): Quantity | undefined {
  const named = part.parameters.filter((p) => p.parameter.symbol === symbol).map((p) => p.parameter)
  return (named.find((p) => p.standing === 'measured') ?? named[0])?.quantity
}

/** The symbol of a kind that most parts have. */
function commonest(parts: readonly JudgedPart[], symbols: readonly string[]): string {
  const count = (s: string): number => parts.filter((p) => measuredValue(p, s) !== undefined).length
  return symbols.reduce((best, s) => (count(s) > count(best) ? s : best))
}

/** Gain against leakage, where at least two parts have both. */
function scatterModel(parts: readonly JudgedPart[]): readonly PlotModel[] {
  const gain = commonest(parts, gains)
  const leakage = commonest(parts, leakages)
  const both = parts.filter((p) => measuredValue(p, gain) !== undefined && measuredValue(p, leakage) !== undefined)
  const points = both.map((p) => scatterPoint(p, leakage, gain)).filter((p) => p.x.value > 0 && p.y.value > 0)
  if (points.length < 2) return []
  const missing = both.length - points.length
  const found = points.map((p) => p.outcome)
  const leftOut = missing === 0 ? '' : ` ${counted(missing, 'part')} with no leakage above zero cannot be drawn here.`
  return [
    {
      kind: 'scatter',
      caption: `Gain against leakage: lines are 95 % intervals; the shape says how the whole part came out.${leftOut}`,
      outcomes: present(found),
      plot: {
        title: 'Gain against leakage',
        desc: `${counted(points.length, 'part')}, ${symbolText(gain)} upwards against ${symbolText(leakage)} to the right: ${tally(found)}.`,
        x: axisOf(leakage, 'A'),
        y: axisOf(gain, '1'),
        points,
      },
    },
  ]
}

function scatterPoint(part: JudgedPart, leakage: string, gain: string): ScatterPoint {
  return {
    label: part.result.part,
    x: spanOf(measuredValue(part, leakage)!),
    y: spanOf(measuredValue(part, gain)!),
    outcome: part.outcome,
  }
}
