import { printPlain } from '#core/quantity'
import { electrodeName, type Hypothesis, type Put } from './hypothesis.ts'
import { joinOhm } from './lead-curve.ts'
import type { LeadReading, Shown } from './meter.ts'

const volts = (v: number): string => printPlain(v, 'V', { digits: v < 0.1 ? 2 : 3 })

/** What a meter showed, as people say it: `0.652 V`, `open`, `4.7 kohm on 20k`. */
export function shownText(shows: Shown): string {
  switch (shows.kind) {
    case 'volts':
      return volts(shows.volts)
    case 'ohms':
      return `${printPlain(shows.ohm, 'ohm', { digits: 3 })} on ${shows.range}`
    case 'leak':
      return `open, ${printPlain(shows.amperes, 'A', { digits: 2 })} at ${volts(shows.volts)}`
    case 'open':
      return shows.range === undefined ? 'open' : `open on ${shows.range}`
  }
}

/** A pair of leads, plus first: `1+ 2-`, with the third lead where it is joined. */
export function pairText({ plus, minus, joined }: Pick<LeadReading, 'plus' | 'minus' | 'joined'>): string {
  const third = 6 - plus - minus
  const to = joined === 'plus' ? plus : minus
  return `${plus}+ ${minus}-${joined === undefined ? '' : ` with ${third} joined to ${to}`}`
}

/** What a person does to take a reading. */
export function orderText({ plus, minus, joined }: Put, range?: string): string {
  const third = 4 - plus - minus - 1
  const to = (joined === 'plus' ? plus : minus) + 1
  const join =
    joined === undefined ? '' : ` Join lead ${third + 1} to lead ${to} through ${printPlain(joinOhm, 'ohm')}.`
  const what = range === undefined ? 'Diode check' : `Ohms, range ${range}`
  return `${what}, red on lead ${plus + 1}, black on lead ${minus + 1}.${join}`
}

/** Electrodes between which a reading stands under a hypothesis: `base to emitter`. */
export function electrodesText(h: Hypothesis, { plus, minus }: Pick<Put, 'plus' | 'minus'>): string {
  const at = (lead: number): string => electrodeName(h, h.condition.kind.electrodes[h.order[lead]!]!)
  return `${at(plus)} to ${at(minus)}`
}
