import { printPlain } from '#core/quantity'
import { electrodeName, type Hypothesis, type Put } from './hypothesis.ts'
import { joinOhm } from './lead-curve.ts'
import { breakdownSupply, type LeadReading, type Shown } from './meter.ts'
import type { Trial } from './trial.ts'

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
    case 'gain':
      return `h_FE ${Number(shows.gain.toPrecision(3))}`
    case 'breakdown':
      return `${volts(shows.volts)} from ${supplyText}`
  }
}

const supplyText = printPlain(breakdownSupply.openV, 'V')

/**
 * Where a reading was taken, plus first: `1+ 2-`, with the third lead where it is joined; of a gain, the leads by the
 * holes of the socket: `NPN, C 1 B 3 E 2`.
 */
export function pairText(r: LeadReading): string {
  const { plus, minus, joined } = r
  if (r.shows.kind === 'gain') return socketText(r)
  const third = 6 - plus - minus
  const to = joined === 'plus' ? plus : minus
  const warm = r.warmed === true ? ', warm' : ''
  return `${plus}+ ${minus}-${joined === undefined ? '' : ` with ${third} joined to ${to}`}${warm}`
}

/** Leads, counted from 1, in a socket: the collector of an NPN is at plus, that of a PNP at minus. */
function socketText({ plus, minus, joined }: Pick<LeadReading, 'plus' | 'minus' | 'joined'>): string {
  const isNpn = joined === 'plus'
  const [c, e] = isNpn ? [plus, minus] : [minus, plus]
  return `${isNpn ? 'NPN' : 'PNP'}, C ${c} B ${6 - plus - minus} E ${e}`
}

/** What a person does to test a part, leads by the marks of the meter and counted from 0. */
export function orderText(t: Trial): string {
  const [plus, minus] = [t.plus + 1, t.minus + 1]
  if (t.test === 'gain') return `Gain, in the socket or by your tester as ${socketText({ ...t, plus, minus })}.`
  if (t.test === 'breakdown')
    return `${supplyText} through ${printPlain(breakdownSupply.sourceOhm, 'ohm')}, plus on lead ${plus}, minus on lead ${minus}: read the voltage between the two.`
  const to = t.joined === 'plus' ? plus : minus
  const join =
    t.joined === undefined ? '' : ` Join lead ${6 - plus - minus} to lead ${to} through ${printPlain(joinOhm, 'ohm')}.`
  const warm = t.warmed === true ? ' Once more, with the part held between two fingers till it stays.' : ''
  const what = t.range === undefined ? 'Diode check' : `Ohms, range ${t.range}`
  return `${what}, red on lead ${plus}, black on lead ${minus}.${join}${warm}`
}

/** Electrodes between which a reading stands under a hypothesis: `base to emitter`. */
export function electrodesText(h: Hypothesis, { plus, minus }: Pick<Put, 'plus' | 'minus'>): string {
  const at = (lead: number): string => electrodeName(h, h.condition.kind.electrodes[h.order[lead]!]!)
  return `${at(plus)} to ${at(minus)}`
}
