import type { Fault } from '#core/fault'
import { derive, exact, leaf, type Quantity, type Term } from '#core/quantity'
import { calibrated, type Printed, type Read } from './calibrated.ts'
import { warmed } from './calibration.ts'
import * as cause from './cause.ts'
import { rangesFor, rangeUnit } from './find-range.ts'
import {
  coilResistance,
  movementCurrent,
  multiplierVoltage,
  scaleCurrent,
  scaleVoltage,
  shuntCurrent,
  universalCurrent,
} from './formulas.ts'
import { gainSeen } from './gain-seen.ts'
import { seriesOhmOf, shuntOhmOf } from './network.ts'
import { onceFor } from './once-for.ts'
import type { Reading } from './reading.ts'
import { readoutOf } from './readout.ts'
import { deflectionOf, displayOf, rangeOf, readingFault, refused, stateFault } from './shown.ts'
import type { Calibration, Circuit, Movement, Range, Scale, Tester } from './tester.ts'

/** What a reading means at the part. */
export type Seen =
  | {
      readonly ok: true
      readonly quantity: Quantity
      /** Left out for a gain. */
      readonly range?: Range
      /** Part of full scale, where there is a range. */
      readonly fraction?: number
      /** Scale it was read on, on a needle tester. */
      readonly scale?: Scale
      /** What was taken for granted, and what the reader should know. Sentences. */
      readonly notes: readonly string[]
      /** What a calibration says against this reading. */
      readonly distrust?: string
    }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * What was seen, as current, voltage or gain at the part with its budget by cause. A needle reading is a derivation from
 * deflection, movement and network, so that its working can be checked by hand; a displayed one is a number with the
 * maker's limits.
 *
 * @param tester description of the tester
 * @param r reading; its range may be left out where only one fits
 * @returns quantity in A, V or 1, or every fault: a state where a number is needed, a needle off the scale, an unknown
 *   range or scale, a unit that does not fit
 * @see JCGM 100:2008, clause 4; IEC 60051-1 for the class of a movement
 */
export function seenAtPart(tester: Tester, r: Reading): Seen {
  if (r.reads === 'short')
    return refused(readingFault('reads', r.reads, 'is a check, not a quantity', 'Take its state as it stands.'))
  if (r.reads === 'h_FE') return gainSeen(tester, r)
  if (r.shown.kind === 'state') return refused(stateFault(r, r.shown.state))
  const found = rangeOf(tester, r)
  if (!found.ok) return found
  const { range } = found
  const described = tester.kind === 'needle' ? byNeedle(tester, range, r) : byDigits(tester, range, r)
  if (!described.ok) return described
  const seen = calibrated(tester, readoutOf(range), r, described, asPrinted(tester, range, r, described))
  return { ...seen, range, notes: [...found.notes, ...seen.notes] }
}

/** What a range shows by its print. How finely it is read is among the repeats of a calibration. */
function asPrinted(tester: Tester, range: Range, r: Reading, { fraction = 0, scale }: Read): Printed {
  const value = fraction * range.fullScale
  if (scale === undefined)
    return { value, quantity: () => leaf(value, rangeUnit(range), { kind: 'read', what: r.reads, seen: r.seen }, []) }
  const quantity = (head: Calibration): Quantity => {
    const deflection = leaf(fraction * scale.divisions, 'div', { kind: 'read', what: 'deflection', seen: r.seen }, [])
    const divisions = exact(scale.divisions, 'div', `divisions of scale ${scale.id}`)
    const fullScale = warmed(tester, range, r, head)
    return range.measures === 'current'
      ? derive(scaleCurrent, { deflection, divisions, fullScale: fullScale as Quantity<'A'> }, r.reads)
      : derive(scaleVoltage, { deflection, divisions, fullScale: fullScale as Quantity<'V'> }, r.reads)
  }
  return { value, quantity }
}

/** Below this part of full scale a finer range would serve better (common practice). */
const lowFraction = 0.2

function byNeedle(tester: Tester, range: Range, r: Reading): Seen {
  const at = deflectionOf(tester, range, r)
  if (!at.ok) return at
  const { divisions, scale } = at
  const fraction = divisions / scale.divisions
  const readable = tester.movement?.readable ?? 1
  const inDivisions = (terms: readonly Term[]): readonly Term[] =>
    terms.map((t) => ({ ...t, slope: (t.slope * scale.divisions) / range.fullScale }))
  const { circuit } = range
  const value = fraction * range.fullScale
  const errors =
    circuit.kind === 'stated'
      ? inDivisions(cause.statedError(tester, range, r, value))
      : circuit.kind === 'unknown'
        ? inDivisions(cause.assumedError(tester, range, circuit.assumed, value))
        : [cause.scaleError(tester, tester.movement!, fraction, scale.divisions)]
  const label = onceFor(tester, 'resolution', () => `reading to ${Number(readable.toPrecision(3))} of a division`)
  const deflection = leaf(divisions, 'div', { kind: 'read', what: 'deflection', seen: r.seen }, [
    cause.resolution(r, readable, label),
    ...errors,
  ])
  const through = throughNetwork(
    tester,
    range,
    r,
    deflection,
    onceFor(scale, 'divisions', () => exact(scale.divisions, 'div', `divisions of scale ${scale.id}`)),
  )
  const low = Math.abs(fraction) < lowFraction ? lowNote(tester, range, r, value) : []
  return { ok: true, quantity: through.quantity, fraction, scale, notes: [...at.notes, ...through.notes, ...low] }
}

function lowNote(tester: Tester, range: Range, r: Reading, value: number): readonly string[] {
  const isFiner = (o: Range): boolean =>
    o.measures === range.measures && o.fullScale < range.fullScale && Math.abs(value) <= o.fullScale
  const finer = rangesFor(tester, r.reads).find(isFiner)
  return finer === undefined ? [] : [`The needle stands low on the scale: ${finer.id} reads it better.`]
}

interface Through {
  readonly quantity: Quantity
  readonly notes: readonly string[]
}

/** From deflection to the part, by the network of the range. */
function throughNetwork(
  tester: Tester,
  range: Range,
  r: Reading,
  deflection: Quantity<'div'>,
  divisions: Quantity<'div'>,
): Through {
  const { circuit } = range
  if (circuit.kind === 'stated' || circuit.kind === 'unknown') {
    const what = `full scale of ${range.id}`
    const notes = circuit.kind === 'unknown' ? [unknownNote(range, circuit.assumed)] : []
    const quantity =
      range.measures === 'current'
        ? derive(scaleCurrent, { deflection, divisions, fullScale: exact(range.fullScale, 'A', what) }, r.reads)
        : derive(scaleVoltage, { deflection, divisions, fullScale: exact(range.fullScale, 'V', what) }, r.reads)
    return { quantity, notes }
  }
  const m = tester.movement!
  const current = onceFor(tester, 'movement', () =>
    leaf(m.fullScaleA, 'A', { kind: 'stated', what: 'full-scale current of the movement' }, [
      cause.sensitivity(tester, m),
    ]),
  )
  if (circuit.kind === 'movement')
    return { quantity: derive(movementCurrent, { deflection, divisions, movement: current }, r.reads), notes: [] }
  const { quantity: coil, notes } = coilAt(tester, m, r)
  const common = { deflection, divisions, movement: current, coil }
  return { quantity: withComponent(tester, range, circuit, common, r.reads), notes }
}

interface Common {
  readonly deflection: Quantity<'div'>
  readonly divisions: Quantity<'div'>
  readonly movement: Quantity<'A'>
  readonly coil: Quantity<'ohm'>
}

function withComponent(
  tester: Tester,
  range: Range,
  circuit: Extract<Circuit, { kind: 'shunt' | 'universal' | 'multiplier' }>,
  common: Common,
  what: string,
): Quantity {
  const ohm = (value: number, name: string, terms: readonly Term[]): Quantity<'ohm'> =>
    leaf(value, 'ohm', { kind: 'stated', what: name }, terms)
  const own = <T>(make: () => T): T => onceFor(tester, `network of ${range.id}`, make)
  switch (circuit.kind) {
    case 'shunt': {
      const parts = own(() => ({
        shunt: ohm(shuntOhmOf(circuit), `shunt of ${range.id}`, cause.component(tester, range, 'shunt')),
        contact: ohm(circuit.contactOhm, 'contact', cause.contact(tester, range, circuit.contactOhm)),
      }))
      return derive(shuntCurrent, { ...common, ...parts }, what)
    }
    case 'universal': {
      const { ringOhm, tapOhm, tolerance } = circuit
      const parts = own(() => ({
        ring: ohm(ringOhm, 'universal shunt', cause.ring(tester, tolerance, ringOhm)),
        tap: ohm(tapOhm, `tap of ${range.id}`, cause.tap(tester, range, tolerance, tapOhm)),
      }))
      return derive(universalCurrent, { ...common, ...parts }, what)
    }
    case 'multiplier': {
      const series = own(() =>
        ohm(seriesOhmOf(circuit), `multiplier of ${range.id}`, cause.component(tester, range, 'multiplier')),
      )
      return derive(multiplierVoltage, { ...common, series }, what)
    }
  }
}

interface Coil {
  readonly quantity: Quantity<'ohm'>
  readonly notes: readonly string[]
}

/** Resistance of the coil at the ambient temperature of the reading. */
function coilAt(tester: Tester, m: Movement, r: Reading): Coil {
  const noted = r.ambientC
  const { ambientU, thermometerU } = cause.assumedDoubts
  const u = noted === undefined ? ambientU : (r.ambientU ?? tester.thermometer?.uC ?? thermometerU)
  return onceFor(tester, `coil at ${noted} give or take ${u}`, () => coilIn(tester, m, noted, u))
}

function coilIn(tester: Tester, m: Movement, noted: number | undefined, u: number): Coil {
  const stated = leaf(m.coilOhm, 'ohm', { kind: 'stated', what: `coil at ${m.atC} degC` }, cause.coil(tester, m))
  if (m.copperPerK === 0) return { quantity: stated, notes: [] }
  const { ambientC, ambientU } = cause.assumedDoubts
  const ambient = leaf(
    noted ?? ambientC,
    'degC',
    noted === undefined
      ? { kind: 'assumed', what: 'ambient temperature', why: 'none was noted' }
      : { kind: 'read', what: 'ambient temperature', seen: `${noted} degC` },
    [cause.thermometer(tester, u)],
  )
  const quantity = derive(coilResistance, {
    stated,
    copper: exact(m.copperPerK, '1/K', 'change of the coil per kelvin'),
    ambient,
    reference: exact(m.atC, 'degC', 'temperature at which the coil is stated'),
  })
  const note = `No ambient temperature was noted: ${ambientC} degC give or take ${ambientU} was taken for the coil.`
  return { quantity, notes: noted === undefined ? [note] : [] }
}

const unknownNote = (range: Range, assumed: number): string =>
  `Nobody states how accurate ${range.id} is: ${cause.percent(assumed)} of the reading was taken for granted.`

/** A number off a display. */
function byDigits(tester: Tester, range: Range, r: Reading): Seen {
  const shown = displayOf(tester, range, r)
  if (!shown.ok) return shown
  const { circuit } = range
  const isKnown = circuit.kind === 'stated'
  const assumed = circuit.kind === 'unknown' ? circuit.assumed : 0
  const step = circuit.kind === 'stated' || circuit.kind === 'unknown' ? circuit.step : 0
  const budget = [
    cause.resolution(r, step, 'last digit'),
    ...(isKnown
      ? cause.statedError(tester, range, r, shown.value)
      : cause.assumedError(tester, range, assumed, shown.value)),
  ]
  const quantity = leaf(shown.value, shown.unit, { kind: 'read', what: r.reads, seen: r.seen }, budget)
  const notes = isKnown ? [] : [unknownNote(range, assumed)]
  return { ok: true, quantity, fraction: shown.value / range.fullScale, notes }
}
