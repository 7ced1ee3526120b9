import type { Unit } from '#core/quantity'
import { figureText, plainFigure } from '#report/typeset'

/** A mark on an axis; one without a label is a minor one. */
export interface Tick {
  readonly value: number
  readonly label: string
}

/** An axis laid out: which values it spans, where they lie on the drawing, and its marks. */
export interface Scale {
  readonly kind: 'linear' | 'log'
  /** Values at the two ends. */
  readonly low: number
  readonly high: number
  /** Where the ends lie on the drawing, px. */
  readonly from: number
  readonly to: number
  readonly ticks: readonly Tick[]
  /** Unit of the labels, with its prefix; empty where each label carries its own. */
  readonly unit: string
}

/** What an axis shows. */
export interface Axis {
  /** Letter symbol; empty where it has none. */
  readonly symbol: string
  /** In words: "leakage, base open". */
  readonly name: string
  readonly unit: Unit
  readonly kind: 'linear' | 'log'
}

/** Room on the drawing, and how many labels it should carry at most. */
export interface Room {
  readonly from: number
  readonly to: number
  readonly labels: number
}

/** Lays out an axis so that all values lie inside; a log axis leaves out what is not above zero. */
export function layScale(axis: Axis, values: readonly number[], room: Room): Scale {
  const usable = values.filter((v) => Number.isFinite(v) && (axis.kind === 'linear' || v > 0))
  return axis.kind === 'log' ? layLog(axis.unit, usable, room) : layLinear(axis.unit, usable, room)
}

/** Place of a value on the drawing, px; values beyond an end lie at that end. */
export function place(s: Scale, value: number): number {
  const inside = Math.min(s.high, Math.max(s.low, value))
  const part =
    s.kind === 'log' ? Math.log(inside / s.low) / Math.log(s.high / s.low) : (inside - s.low) / (s.high - s.low)
  return s.from + part * (s.to - s.from)
}

function spanOf(values: readonly number[], fallback: readonly [number, number]): readonly [number, number] {
  if (values.length === 0) return fallback
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const v of values) {
    low = Math.min(low, v)
    high = Math.max(high, v)
  }
  return [low, high]
}

/** Values closer together than this, relative to their size, count as one. */
const leastSpread = 1e-6

/** Share of the span left free at each end. */
const margin = 0.05

function layLinear(unit: Unit, values: readonly number[], room: Room): Scale {
  const [least, most] = spanOf(values, [0, 1])
  const size = Math.max(Math.abs(least), Math.abs(most))
  const spread = most - least > size * leastSpread ? most - least : size * 0.2 || 1
  const low = least - spread * margin
  const high = most + spread * margin
  const found = niceValues(low, high, room.labels)
  return { kind: 'linear', low, high, from: room.from, to: room.to, ...linearLabels(found, unit) }
}

/** Steps of 1, 2 or 5 times a power of ten that give at most `count` values between two ends. */
export function niceValues(low: number, high: number, count: number): readonly number[] {
  const least = (high - low) / Math.max(1, count)
  const power = 10 ** Math.floor(Math.log10(least))
  const step = [1, 2, 5, 10].map((n) => n * power).find((s) => s >= least * (1 - 1e-9)) ?? power * 10
  const first = Math.ceil(low / step - 1e-9)
  const last = Math.floor(high / step + 1e-9)
  if (!(last - first <= 2 * count + 2)) return [low]
  return Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)))
}

function linearLabels(values: readonly number[], unit: Unit): { ticks: readonly Tick[]; unit: string } {
  const most = Math.max(...values.map(Math.abs), 0)
  if (most === 0) return { ticks: values.map((value) => ({ value, label: '0' })), unit: plainFigure(1, unit).unit }
  const figure = plainFigure(most, unit, 3)
  const factor = 10 ** Math.round(Math.log10(most / Number(figure.number)))
  const step = values.length > 1 ? (values[1]! - values[0]!) / factor : 1
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  const label = (v: number): string => (v / factor).toFixed(decimals).replace('-', '\u2212')
  return { ticks: values.map((value) => ({ value, label: label(value) })), unit: figure.unit }
}

function layLog(unit: Unit, values: readonly number[], room: Room): Scale {
  const [least, most] = spanOf(values, [1, 10])
  const spread = Math.max(Math.log10(most / least), 0.2)
  const low = least / 10 ** (spread * margin)
  const high = most * 10 ** (spread * margin)
  const label = (v: number): string => figureText(plainFigure(v, unit, 3))
  const ticks = logTicks(low, high, room.labels, label)
  return { kind: 'log', low, high, from: room.from, to: room.to, ticks, unit: '' }
}

const oneToNine = [1, 2, 3, 4, 5, 6, 7, 8, 9]

function logTicks(low: number, high: number, count: number, label: (v: number) => string): readonly Tick[] {
  const first = Math.floor(Math.log10(low))
  const last = Math.ceil(Math.log10(high))
  const spread = Math.log10(high / low)
  const all: { readonly value: number; readonly lead: number; readonly power: number }[] = []
  for (let power = first; power <= last; power++)
    for (const lead of oneToNine) {
      const value = Number(`${lead}e${power}`)
      if (value >= low && value <= high) all.push({ value, lead, power })
    }
  const every = Math.max(1, Math.ceil(spread / count))
  const leads = [oneToNine, [1, 2, 5], [1]].find((l) => all.filter((t) => l.includes(t.lead)).length <= count)
  const isNamed = (t: { lead: number; power: number }): boolean =>
    leads === undefined ? t.lead === 1 && t.power % every === 0 : leads.includes(t.lead)
  if (all.filter(isNamed).length < 2)
    return niceValues(low, high, count).map((value) => ({ value, label: label(value) }))
  const isTight = spread > 4
  return all
    .filter((t) => isNamed(t) || (isTight ? t.lead === 1 : true))
    .map((t) => ({ value: t.value, label: isNamed(t) ? label(t.value) : '' }))
}
