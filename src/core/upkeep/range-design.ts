import { FaultError } from '#core/fault'
import { printPlain } from '#core/quantity'
import { type Circuit, componentFor, type Movement, type Range } from '#core/tester'

/** A range that is wanted of a movement: its full scale, A or V. */
export interface WantedRange {
  readonly measures: 'current' | 'voltage'
  readonly fullScale: number
}

export interface DesignOptions {
  /** Limit of error of the parts, as a part of their value. */
  readonly tolerance: number
  /** Resistance of switch contact and wire in series with each individual shunt, ohm. */
  readonly contactOhm: number
  /**
   * One ring with taps for all current ranges, in place of a shunt for each: its resistance in ohm, or `least`, the
   * smallest that can serve, of which the lowest range takes the whole.
   */
  readonly ringOhm?: number | 'least'
}

/**
 * Shunts, taps and multipliers that give a movement its ranges, in the order they were asked for.
 *
 * @throws {FaultError} `out-of-domain` for a range below the movement itself, or a ring too small for the lowest range
 * @see Kirchhoff's laws: R_s = I_m R_m / (I - I_m); R_tap = I_m (R_m + R_ring) / I; R_series = V / I_m - R_m
 */
export function designRanges(m: Movement, wanted: readonly WantedRange[], o: DesignOptions): readonly Range[] {
  const lowest = Math.min(...wanted.flatMap((w) => (w.measures === 'current' ? [w.fullScale] : [])))
  const ringOhm = o.ringOhm === 'least' ? leastRing(m, lowest) : o.ringOhm
  if (ringOhm !== undefined) needRing(m, lowest, ringOhm)
  return wanted.map((w) => {
    needAbove(m, w)
    const empty = { ...w, id: printPlain(w.fullScale, unitOf(w)), circuit: emptyCircuit(w, m, o, ringOhm) }
    const ohm = componentFor(empty, m)?.ohm ?? 0
    if (empty.circuit.kind === 'shunt' && !(ohm > 0)) throw contactFault(empty.id, o.contactOhm, ohm)
    return { ...empty, circuit: filled(empty.circuit, ohm) }
  })
}

export const unitOf = (w: WantedRange): 'A' | 'V' => (w.measures === 'current' ? 'A' : 'V')

const isMovementAlone = (w: WantedRange, m: Movement): boolean =>
  w.measures === 'current' && Math.abs(w.fullScale / m.fullScaleA - 1) < 1e-9

/** The circuit of a range without the part that is looked for. */
function emptyCircuit(w: WantedRange, m: Movement, o: DesignOptions, ringOhm: number | undefined): Circuit {
  const { tolerance, contactOhm } = o
  if (w.measures === 'voltage') return { kind: 'multiplier', seriesOhm: 0, tolerance }
  if (ringOhm !== undefined) return { kind: 'universal', ringOhm, tapOhm: 0, tolerance }
  return isMovementAlone(w, m) ? { kind: 'movement' } : { kind: 'shunt', shuntOhm: 0, tolerance, contactOhm }
}

function filled(c: Circuit, ohm: number): Circuit {
  switch (c.kind) {
    case 'shunt':
      return { ...c, shuntOhm: ohm }
    case 'universal':
      return { ...c, tapOhm: Math.min(ohm, c.ringOhm) }
    case 'multiplier':
      return { ...c, seriesOhm: ohm }
    default:
      return c
  }
}

/** Smallest ring that brings a movement to full scale on its lowest range. */
const leastRing = (m: Movement, lowestA: number): number => (m.fullScaleA * m.coilOhm) / (lowestA - m.fullScaleA)

function needRing(m: Movement, lowestA: number, ringOhm: number): void {
  const least = leastRing(m, lowestA)
  if (lowestA > m.fullScaleA && ringOhm >= least * (1 - 1e-12)) return
  throw new FaultError({
    code: 'out-of-domain',
    name: 'The ring',
    value: printPlain(ringOhm, 'ohm'),
    allowed:
      lowestA > m.fullScaleA
        ? `at least ${printPlain(least, 'ohm', { digits: 6 })} for the range of ${printPlain(lowestA, 'A')}`
        : `left out: a ring has no range as low as the movement, ${printPlain(m.fullScaleA, 'A')}`,
  })
}

function needAbove(m: Movement, w: WantedRange): void {
  const least = w.measures === 'current' ? m.fullScaleA : m.fullScaleA * m.coilOhm
  if (w.fullScale >= least * (1 - 1e-9)) return
  throw new FaultError({
    code: 'out-of-domain',
    name: `A range of ${printPlain(w.fullScale, unitOf(w))}`,
    value: 'below the movement',
    allowed: `at least ${printPlain(least, unitOf(w), { digits: 6 })}`,
  })
}

const contactFault = (id: string, contactOhm: number, ohm: number): FaultError =>
  new FaultError({
    code: 'out-of-domain',
    name: `The contact of ${id}`,
    value: printPlain(contactOhm, 'ohm'),
    allowed: `below the ${printPlain(ohm + contactOhm, 'ohm')} that contact and shunt may have together`,
  })

/** One piece of a ring, between two of its taps. */
export interface Segment {
  /** Range whose tap is at its upper end; `end` for the piece above the highest tap. */
  readonly from: string
  /** Range whose tap is at its lower end; `common` for the last piece. */
  readonly to: string
  readonly ohm: number
  /** Most current any of the ranges sends through it at full scale, A, and the heat of that, W. */
  readonly currentA: number
  readonly powerW: number
}

/**
 * The pieces a ring is wound of, from its end to common.
 *
 * @param ranges those with universal shunts are taken
 */
export function ringSegments(m: Movement, ranges: readonly Range[]): readonly Segment[] {
  const taps = ranges
    .flatMap((r) => (r.circuit.kind === 'universal' ? [{ ...r.circuit, id: r.id, fullScale: r.fullScale }] : []))
    .sort((a, b) => b.tapOhm - a.tapOhm)
  if (taps.length === 0) return []
  const above = { id: 'end', tapOhm: taps[0]!.ringOhm, fullScale: 2 * m.fullScaleA }
  const common = { id: 'common', tapOhm: 0 }
  return [above, ...taps].flatMap((upper, i) => {
    const lower = taps[i] ?? common
    const ohm = upper.tapOhm - lower.tapOhm
    const currentA = upper.fullScale - m.fullScaleA
    const piece = { from: upper.id, to: lower.id, ohm, currentA, powerW: currentA ** 2 * ohm }
    return ohm > 1e-9 * above.tapOhm ? [piece] : []
  })
}
