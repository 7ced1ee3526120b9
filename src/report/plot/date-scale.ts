import { dateOf, dayOf } from '#core/numeric'
import type { Room, Scale, Tick } from './scale.ts'

/** Lays out an axis of dates, in days since 1970-01-01, with marks at days, months or years. */
export function layDates(values: readonly number[], room: Room): Scale {
  const least = Math.min(...values)
  const most = Math.max(...values)
  const spread = Math.max(most - least, 1)
  const low = least - spread * 0.04
  const high = most + spread * 0.04
  return { kind: 'linear', low, high, from: room.from, to: room.to, ticks: dateTicks(low, high, room.labels), unit: '' }
}

/** Steps of months that are tried, largest last. */
const months = [1, 2, 3, 6, 12, 24, 60, 120, 240]

function dateTicks(low: number, high: number, count: number): readonly Tick[] {
  const span = high - low
  if (span < 30 * count) {
    const step = [1, 2, 5, 7, 14, 30].find((s) => span / s <= count) ?? 30
    const first = Math.ceil(low / step) * step
    return Array.from({ length: Math.floor((high - first) / step) + 1 }, (_, i) => dayTick(first + i * step))
  }
  const step = months.find((m) => span / (30.4 * m) <= count) ?? 480
  const start = new Date(dateOf(low))
  const ticks: Tick[] = []
  for (let month = Math.ceil((start.getUTCFullYear() * 12 + start.getUTCMonth()) / step) * step; ; month += step) {
    const value = dayOf(new Date(Date.UTC(Math.floor(month / 12), month % 12)).toISOString())
    if (value > high) return ticks
    if (value >= low) ticks.push({ value, label: dateOf(value).slice(0, step >= 12 ? 4 : 7) })
  }
}

const dayTick = (value: number): Tick => ({ value, label: dateOf(value) })
