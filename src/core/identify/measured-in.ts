import type { AlsoKnown } from './candidates.ts'
import type { IdentifiedAs } from './identify.ts'
import { breakdownSupply, type LeadReading } from './meter.ts'

/** Electrodes between which a reading was taken, as the answer has the leads: `B`, `E`. */
const ends = ({ leads }: IdentifiedAs, r: LeadReading): readonly [plus: string, minus: string] => [
  leads[String(r.plus)] ?? '',
  leads[String(r.minus)] ?? '',
]

/** Share of the supply above which nothing gave way. */
const gaveWay = 0.95

/** The first reading that is wanted, as a number. */
const first = (readings: readonly LeadReading[], take: (r: LeadReading) => number | undefined): number | undefined =>
  readings.map(take).find((x) => x !== undefined)

/**
 * What the readings themselves say of a part beside what it is: its gain the right way round, I_CBO, the drop of its
 * emitter junction or of a diode, and its Zener voltage.
 */
export function measuredIn(a: IdentifiedAs, readings: readonly LeadReading[]): AlsoKnown {
  const isNpn = a.polarity === 'NPN'
  const [high, low] = isNpn ? ['C', 'E'] : ['E', 'C']
  const isAt = (r: LeadReading, plus: string, minus: string): boolean => ends(a, r).join() === `${plus},${minus}`
  const gain = first(readings, (r) =>
    r.shows.kind === 'gain' && isAt(r, high, low) && (r.joined === 'plus') === isNpn ? r.shows.gain : undefined,
  )
  const leakA = first(readings, (r) =>
    r.shows.kind === 'leak' && r.joined === undefined && (isNpn ? isAt(r, 'C', 'B') : isAt(r, 'B', 'C'))
      ? r.shows.amperes
      : undefined,
  )
  const forward = a.family === 'BJT' ? (isNpn ? 'B,E' : 'E,B') : 'A,K'
  const dropV = first(readings, (r) =>
    r.shows.kind === 'volts' && r.joined === undefined && ends(a, r).join() === forward ? r.shows.volts : undefined,
  )
  const zenerV = first(readings, (r) => {
    if (!isAt(r, 'K', 'A')) return undefined
    if (r.shows.kind === 'volts') return r.shows.volts
    return r.shows.kind === 'breakdown' && r.shows.volts < gaveWay * breakdownSupply.openV ? r.shows.volts : undefined
  })
  return {
    ...(gain === undefined || gain <= 0 ? {} : { gain }),
    ...(leakA === undefined ? {} : { leakA }),
    ...(dropV === undefined ? {} : { dropV }),
    ...(zenerV === undefined ? {} : { zenerV }),
  }
}
