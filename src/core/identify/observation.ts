import { gainDecades, type LeadReading, leakDecades, type Meter, ohmDecades, rangeNamed, type Shown } from './meter.ts'
import { type Trial, trialKey, turnedRound } from './trial.ts'

/** Temperature at which the imagined parts were simulated, degC: that of a reading that says none. */
export const roomC = 25

/** How a reading is compared: where it shows a number, on which scale. */
export type Scale = 'volts' | 'leak' | 'ohms' | 'open' | 'gain' | 'breakdown'

/**
 * What was seen between two leads in one way. Readings of the same leads in the same way, at several temperatures, are
 * one observation: they say little more than one about what the part is.
 */
export interface Observation extends Trial {
  readonly scale: Scale
  /** The mean number: V, or decades; 0 where open. */
  readonly y: number
  /** Mean temperature above that of the imagined parts, K. */
  readonly warmerK: number
  /** Readings it is made of, by place. */
  readonly from: readonly number[]
}

/** A leak is brought to the voltage of the table as a resistance would. */
const numberOf = (shows: Shown, leakAtV: number, meter: Meter): number => {
  switch (shows.kind) {
    case 'volts':
      return shows.volts
    case 'leak':
      return leakDecades((shows.amperes * leakAtV) / shows.volts)
    case 'ohms':
      return ohmDecades(shows.ohm, rangeNamed(meter, shows.range))
    case 'gain':
      return gainDecades(shows.gain)
    case 'breakdown':
      return shows.volts
    case 'open':
      return 0
  }
}

/** The way in which a reading was taken, leads by the marks on the meter. */
function trialOf({ plus, minus, joined, warmed, shows }: LeadReading): Trial {
  return {
    plus: plus - 1,
    minus: minus - 1,
    ...(joined === undefined ? {} : { joined }),
    ...(warmed === undefined ? {} : { warmed }),
    ...('range' in shows && shows.range !== undefined ? { range: shows.range } : {}),
    ...(shows.kind === 'gain' || shows.kind === 'breakdown' ? { test: shows.kind } : {}),
  }
}

/** On ohms a needle meter has its positive terminal at the lead marked minus. */
const isReversed = (shows: Shown, meter: Meter): boolean =>
  meter.ohmsReversed === true && (shows.kind === 'ohms' || (shows.kind === 'open' && shows.range !== undefined))

/** Gathers readings into observations. */
export function observe(readings: readonly LeadReading[], meter: Meter, leakAtV: number): readonly Observation[] {
  const groups = new Map<string, number[]>()
  readings.forEach((r, k) => {
    const key = `${trialKey(trialOf(r))} ${r.shows.kind}`
    groups.set(key, [...(groups.get(key) ?? []), k])
  })
  return [...groups.values()].map((from): Observation => {
    const first = readings[from[0]!]!
    const { shows } = first
    const mean = (of: (r: LeadReading) => number): number =>
      from.reduce((sum, k) => sum + of(readings[k]!), 0) / from.length
    const trial = isReversed(shows, meter) ? turnedRound(trialOf(first)) : trialOf(first)
    return {
      ...trial,
      scale: shows.kind,
      y: mean((r) => numberOf(r.shows, leakAtV, meter)),
      warmerK: mean((r) => (r.temperatureC ?? roomC) - roomC),
      from,
    }
  })
}
