import { parseValue, type Unit } from '#core/quantity'
import { leakAtV } from './lead-curve.ts'
import { breakdownSupply, type Meter, mostGain, type OhmsRange, type Shown } from './meter.ts'

/** What was read from a text, or what is wrong with it. */
export type ShownRead =
  | { readonly ok: true; readonly shows: Shown }
  | {
      readonly ok: false
      readonly problem: string
      readonly mend: string
      /** It is resistance, and the range is not said. */
      readonly lacksRange?: true
    }

const mend =
  'Write volts (0.652 V), open, ohms with the range (4.7 kohm on 20k), open on 20k, h_FE 120, or 7.2 V from 12 V.'

/** Words that say that nothing conducts. */
const isOpen = (text: string): boolean => /^(open|ol|o\.l\.?|0l|over|inf(inity)?|1 ?\.?)$/i.test(text)

/** Largest voltage that a diode check can show, V, and least and largest resistance, ohm. */
const mostShownV = 20
const mostShownOhm = 1e9

/**
 * Reads what a meter showed as people write it: `0.652 V`, `652 mV`, `0.652`, `open`, `OL`, `4.7 kohm on 20k`,
 * `open on 2M`, `2.5 uA at 3 V`, `h_FE 120`, `7.2 V from 12 V`.
 *
 * @example parseShows('652 mV', digitalMeter) // { ok: true, shows: { kind: 'volts', volts: 0.652 } }
 */
export function parseShows(text: string, meter: Meter): ShownRead {
  const plain = text.trim()
  const gain = /^(?:h_?fe|gain|beta|β)\s*[:=]?\s*(.*)$/i.exec(plain)?.[1]
  if (gain !== undefined) return gainIn(gain)
  const [stood, supply] = plain.split(/\s+from\s+/i) as [string, string?]
  if (supply !== undefined) return breakdown(stood, supply)
  const [what = '', at] = plain.split(/\s+(?:on|at)\s+/i) as [string, string?]
  if (isOpen(what)) return at === undefined ? { ok: true, shows: { kind: 'open' } } : onRange(at, meter, 'open')
  if (/(ohm|Ω|\d\s?[kMR]\d*)\s*$/i.test(what))
    return at === undefined
      ? { ...refuse('is resistance without its range', withRange(what)), lacksRange: true }
      : onRange(at, meter, what)
  if (/A\s*$/.test(what)) return leak(what, at, meter)
  if (at !== undefined && /\d$/.test(what) && rangeNamed(at, meter) !== undefined) return onRange(at, meter, what)
  return valueIn(what, 'V', mostShownV, (volts) => ({ kind: 'volts', volts }))
}

const withRange = (what: string): string => `Add the range, as in ${what} on 20k: what it shows depends on it.`

const refuse = (problem: string, how = mend) => ({ ok: false, problem, mend: how }) as const

function valueIn(
  text: string,
  unit: Unit,
  most: number,
  as: (value: number) => Shown,
  beyond = 'is more than a meter shows between two leads',
): ShownRead {
  const parsed = parseValue(text, { unit })
  if (!parsed.ok) return refuse(parsed.problem)
  if (parsed.value < 0) return refuse('is negative', 'Swap plus and minus, and write it without the sign.')
  return parsed.value > most ? refuse(beyond) : { ok: true, shows: as(parsed.value) }
}

/** A gain; `over` where a socket shows more than it can. */
const gainIn = (text: string): ShownRead =>
  isOpen(text) && !/^1/.test(text)
    ? { ok: true, shows: { kind: 'gain', gain: mostGain } }
    : valueIn(text, '1', mostShownGain, (gain) => ({ kind: 'gain', gain }))

/** Largest gain that anybody measures. */
const mostShownGain = 1e5

const { openV } = breakdownSupply

function breakdown(text: string, from: string): ShownRead {
  const supply = parseValue(from, { unit: 'V' })
  if (!supply.ok || Math.abs(supply.value / openV - 1) > 0.1)
    return refuse(
      `is not from ${openV} V`,
      `Look for breakdown with ${openV} V through 100 kohm: 7.2 V from ${openV} V.`,
    )
  return valueIn(text, 'V', 1.1 * openV, (volts) => ({ kind: 'breakdown', volts }))
}

/** A current at a voltage: what a junction that holds its voltage lets through, less than the diode check drives. */
function leak(text: string, at: string | undefined, { diode }: Meter): ShownRead {
  const volts = at === undefined ? { ok: true as const, value: leakAtV } : parseValue(at, { unit: 'V' })
  if (!volts.ok || !(volts.value > 0)) return refuse('has no voltage after "at"', 'Write it as 2.5 uA at 3 V.')
  const conducts = 'is more current than a diode check drives, which would show a voltage'
  return valueIn(text, 'A', diode.currentA, (amperes) => ({ kind: 'leak', amperes, volts: volts.value }), conducts)
}

function onRange(name: string, meter: Meter, what: string): ShownRead {
  const range = rangeNamed(name, meter)
  if (range === undefined)
    return refuse(
      `names a range that the ${meter.name} meter does not have`,
      `Its ranges are ${meter.ohms.map((r) => r.name).join(', ')}.`,
    )
  if (what === 'open') return { ok: true, shows: { kind: 'open', range: range.name } }
  return valueIn(what, 'ohm', mostShownOhm, (ohm) => ({ kind: 'ohms', ohm, range: range.name }))
}

/** A range by its name, or by its top: `20k`, `20 kohm`, `x100`. */
function rangeNamed(name: string, meter: Meter): OhmsRange | undefined {
  const plain = name.replaceAll(/\s|ohm|Ω/gi, '').toLowerCase()
  return meter.ohms.find((r) => r.name.toLowerCase() === plain)
}
