import { type Term, term } from '#core/quantity'
import type { Reading } from './reading.ts'
import type { Movement, Range, Tester } from './tester.ts'

/**
 * The causes of doubt in a reading, each with its id. Readings that share an id share the error: one movement, one
 * shunt, one thermometer. A shared cause whose size differs from reading to reading has standard uncertainty 1 and
 * carries the size in its slope.
 */

/** What is taken where nobody states it; said in the notes of a reading, and in the documentation. */
export const assumedDoubts = {
  /** Ambient temperature where none was noted: value and standard uncertainty, degC. */
  ambientC: 20,
  ambientU: 3,
  /** Standard uncertainty of a noted ambient temperature where the tester's description states none, K. */
  thermometerU: 1,
  /** Limit of the change of a contact's resistance, as a part of it. */
  contact: 0.5,
  /** Limit of error of a source resistance, as a part of it: cells age. */
  source: 0.5,
  /** Limit of error of a displayed gain where the maker states none, as a part of the reading. */
  gain: 0.1,
} as const

const root3 = Math.sqrt(3)

/** A cause of unit size whose effect stands in the slope. */
const shared = (cause: string, label: string, u: number): Term =>
  term(cause, { label, u: 1, slope: u, distribution: 'rectangular' })

/** A limit of error with a size of its own, every value inside it equally likely (JCGM 100:2008, 4.3.7). */
const limit = (cause: string, label: string, halfWidth: number): readonly Term[] =>
  halfWidth === 0 ? [] : [term(cause, { label, u: halfWidth / root3, distribution: 'rectangular' })]

/** A part of a whole as people write it. */
export const percent = (part: number): string => `${Number((part * 100).toPrecision(3))} %`

/** Id of the causes that belong to one reading alone. */
export const readingId = (r: Reading): string =>
  `reading/${r.part}/${r.reads}/${r.point}${r.range === undefined ? '' : `/${r.range}`}`

/** Reading to a part `f` of a division leaves f/sqrt(12) of one (JCGM 100:2008, F.2.2.1). */
export const resolution = (r: Reading, step: number, label: string): Term =>
  term(`${readingId(r)}/resolution`, { label, u: step / Math.sqrt(12), distribution: 'rectangular' })

/** Doubt of a dial or count that belongs to one reading alone. */
export const ownLimit = (r: Reading, name: string, label: string, halfWidth: number): readonly Term[] =>
  limit(`${readingId(r)}/${name}`, label, halfWidth)

/**
 * Half of a movement's class, as variance at full scale: an error of its sensitivity, in proportion to the deflection
 * and shared by all readings through the movement. In amperes of full-scale current.
 */
export const sensitivity = (tester: Tester, m: Movement): Term =>
  term(`${tester.id}/movement/sensitivity`, {
    label: `class ${m.classPercent} movement: sensitivity`,
    u: ((m.classPercent / 100) * m.fullScaleA) / Math.sqrt(6),
    distribution: 'rectangular',
  })

/**
 * The rest of a movement's class: an error of the scale near this place, shared by readings in the same tenth of the
 * scale. Its size makes the whole standard uncertainty c/sqrt(3) of full scale at every deflection. In divisions.
 */
export function scaleError(tester: Tester, m: Movement, fraction: number, divisions: number): Term {
  const x = Math.min(1, Math.abs(fraction))
  const tenth = Math.min(9, Math.floor(x * 10 + 1e-9))
  const side = fraction < 0 ? '-' : ''
  const u = (m.classPercent / 100) * Math.sqrt(1 / 3 - x ** 2 / 6) * divisions
  const near = `between ${side}${tenth / 10} and ${side}${(tenth + 1) / 10} of full scale`
  return shared(`${tester.id}/movement/scale/${side}${tenth}`, `class ${m.classPercent} movement: scale ${near}`, u)
}

/** Tolerance of a shunt or multiplier, or the doubt of its measured value. */
export function component(tester: Tester, range: Range, name: 'shunt' | 'multiplier'): readonly Term[] {
  const c = range.circuit
  if (c.kind !== 'shunt' && c.kind !== 'multiplier') return []
  const cause = `${tester.id}/range/${range.id}/${name}`
  if (c.asFound !== undefined) return [term(cause, { label: `${name} of ${range.id}, as found`, u: c.asFound.uOhm })]
  const ohm = c.kind === 'shunt' ? c.shuntOhm : c.seriesOhm
  return limit(cause, `${name} of ${range.id}, within ${percent(c.tolerance)}`, c.tolerance * ohm)
}

/** A contact changes each time it is made; its limit is taken as a part of its resistance. */
export const contact = (tester: Tester, range: Range, ohm: number): readonly Term[] =>
  limit(`${tester.id}/range/${range.id}/contact`, `contact of ${range.id}`, assumedDoubts.contact * ohm)

/** Error that all of a universal shunt shares; in ohm of the part of it that is named. */
export const ring = (tester: Tester, tolerance: number, ohm: number, share = 1): readonly Term[] =>
  tolerance === 0 ? [] : [shared(`${tester.id}/ring`, 'universal shunt as a whole', (share * tolerance * ohm) / root3)]

/** Half of a tap's tolerance, as variance, is its own; the other half it shares with the ring. */
export const tap = (tester: Tester, range: Range, tolerance: number, ohm: number): readonly Term[] => {
  const half = Math.SQRT1_2
  const own = limit(`${tester.id}/range/${range.id}/tap`, `tap of ${range.id}`, half * tolerance * ohm)
  return [...ring(tester, tolerance, ohm, half), ...own]
}

/** Limit of error of the coil resistance, where it is stated. */
export const coil = (tester: Tester, m: Movement): readonly Term[] =>
  limit(`${tester.id}/coil`, `coil, within ${percent(m.coilTolerance ?? 0)}`, (m.coilTolerance ?? 0) * m.coilOhm)

/** The ambient temperature, shared by all that was read beside one thermometer. In kelvin. */
export const thermometer = (tester: Tester, uC: number): Term =>
  term(`${tester.id}/thermometer`, { label: 'ambient temperature', u: 1, slope: uC })

/**
 * A maker's limit of error, +-(part of reading + part of range + counts), as a standard uncertainty of the whole limit
 * over sqrt(3). Its variance is shared out in proportion to the three parts: gain and offset of the range are shared by
 * all readings on it, counts belong to the reading. In the unit of the range.
 */
export function statedError(tester: Tester, range: Range, r: Reading, value: number): readonly Term[] {
  const c = range.circuit
  if (c.kind !== 'stated') return []
  const parts = {
    gain: c.ofReading * Math.abs(value),
    offset: c.ofRange * range.fullScale,
    counts: c.counts * c.step,
  }
  const whole = parts.gain + parts.offset + parts.counts
  const u = (part: number): number => Math.sqrt((part * whole) / 3)
  const id = `${tester.id}/range/${range.id}`
  return [
    ...(parts.gain === 0
      ? []
      : [shared(`${id}/gain`, `${range.id}: ${percent(c.ofReading)} of reading`, u(parts.gain))]),
    ...(parts.offset === 0
      ? []
      : [shared(`${id}/offset`, `${range.id}: ${percent(c.ofRange)} of range`, u(parts.offset))]),
    ...ownLimit(r, 'counts', `${c.counts} counts`, u(parts.counts) * root3),
  ]
}

/** A limit taken for granted, shared by all readings on the range. In the unit of the range. */
export const assumedError = (tester: Tester, range: Range, assumed: number, value: number): readonly Term[] =>
  value === 0
    ? []
    : [
        shared(
          `${tester.id}/range/${range.id}/assumed`,
          `${range.id}: ${percent(assumed)} of reading, assumed`,
          (assumed * Math.abs(value)) / root3,
        ),
      ]

/** A shared limit of a gain readout, as a part of the reading. */
export const gainLimit = (cause: string, label: string, part: number, value: number): readonly Term[] =>
  part * value === 0 ? [] : [shared(cause, label, (part * Math.abs(value)) / root3)]
