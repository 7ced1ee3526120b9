import { dayOf, monotoneCurve } from '#core/numeric'
import {
  type AnyFormula,
  type Correlation,
  derive,
  exact,
  formula,
  leaf,
  type Quantity,
  type Term,
  term,
} from '#core/quantity'
import * as cause from './cause.ts'
import { rangeUnit } from './find-range.ts'
import { atTerminals, coilOhmAt } from './network.ts'
import type { Reading } from './reading.ts'
import { type Readout, readoutName, readoutOf } from './readout.ts'
import type { Calibration, Range, RangeCalibration, Tester } from './tester.ts'

/** A calibration of one range or span with the head it stands under. */
export interface InForce {
  readonly head: Calibration
  readonly range: RangeCalibration
}

/** Whether a calibration is one of this readout: a span of the dial may have the name of a range. */
export const isOf = (c: RangeCalibration, { id, unit }: Pick<Readout, 'id' | 'unit'>): boolean =>
  c.range === id && (c.unit === '1') === (unit === '1')

/**
 * The calibration of a range or span that holds at a time: the newest that was in force by then.
 *
 * @param at ISO date and time; left out, the newest of all
 */
export function calibrationAt(tester: Tester, of: Pick<Readout, 'id' | 'unit'>, at?: string): InForce | undefined {
  const day = at === undefined ? Number.POSITIVE_INFINITY : Math.floor(dayOf(at))
  let found: InForce | undefined
  for (const head of tester.calibrations ?? []) {
    const range = head.ranges.find((r) => isOf(r, of))
    if (range === undefined || !(dayOf(startOf(head)) <= day)) continue
    if (found === undefined || dayOf(startOf(head)) >= dayOf(startOf(found.head))) found = { head, range }
  }
  return found
}

/** Date from which a calibration holds. */
export const startOf = (c: Calibration): string => c.from ?? c.date

/** Whether a calibration was due again before a time. */
export const isOverdue = (c: Calibration, at: string): boolean =>
  c.due !== undefined && dayOf(c.due) < Math.floor(dayOf(at))

/** What a calibration says against a range; nothing where it is trusted, corrected or not. @param at when it is read, ISO */
export function distrustOf({ head, range: c }: InForce, at?: string): string | undefined {
  const name = readoutName({ id: c.range, unit: c.unit ?? 'A' })
  if (c.trust === 'not trusted') return `${name} is not trusted since its calibration of ${head.date}: ${c.why}`
  return at !== undefined && isOverdue(head, at)
    ? `The calibration of ${name} was due again on ${head.due}: make it anew.`
    : undefined
}

/** What is to be added to what a range shows, and its standard uncertainty; in the unit of the range. */
export function correctionAt({ law }: RangeCalibration, shown: number): { readonly value: number; readonly u: number } {
  if (law.kind === 'line') {
    const x = shown - law.at
    return { value: law.offset + law.slope * x, u: Math.hypot(law.uOffset, law.uSlope * x) }
  }
  const inside = Math.min(law.shown.at(-1)!, Math.max(law.shown[0]!, shown))
  const reference = monotoneCurve(
    law.shown,
    law.shown.map((s, i) => s + law.correction[i]!),
  )
  return { value: reference(inside) - inside, u: between(law.shown, law.u, inside) }
}

/** Straight lines between places. */
function between(x: readonly number[], y: readonly number[], at: number): number {
  const i = Math.min(x.length - 2, Math.max(0, x.findIndex((v) => v >= at) - 1))
  const part = (at - x[i]!) / (x[i + 1]! - x[i]!)
  return y[i]! + part * (y[i + 1]! - y[i]!)
}

/** How far beyond the readings of a calibration it still corrects, as a part of full scale. */
const reach = 0.05

/** Whether a calibration says something about a value that is shown. */
export const covers = (c: RangeCalibration, { fullScale }: Pick<Readout, 'fullScale'>, shown: number): boolean =>
  shown >= c.from - reach * fullScale && shown <= c.to + reach * fullScale

const source = {
  title: 'JCGM 100:2008',
  where: 'H.3, calibration by a straight line',
} as const

interface Domain {
  readonly shown: readonly [number, number]
  /** Bounds of offset, and of what is left over. */
  readonly offset: number
  readonly rest: number
}

const lawOf = <const U extends 'A' | 'V' | '1'>(unit: U, name: string, s: string, d: Domain) =>
  formula({
    id: `tester/corrected-${name}`,
    version: 1,
    text: `${s} = ${s}_s + c_0 + c_1 (${s}_s - ${s}_0) + c_r`,
    unit,
    inputs: { shown: unit, offset: unit, slope: '1', at: unit, rest: unit },
    symbols: { shown: `${s}_s`, offset: 'c_0', slope: 'c_1', at: `${s}_0`, rest: 'c_r' },
    source,
    evaluate: ({ shown, offset, slope, at, rest }) => shown + offset + slope * (shown - at) + rest,
    partials: ({ shown, slope, at }) => ({ shown: 1 + slope, offset: 1, slope: shown - at, at: -slope, rest: 1 }),
    domain: {
      shown: d.shown,
      offset: [-d.offset, d.offset],
      slope: [-0.1, 0.1],
      at: d.shown,
      rest: [-d.rest, d.rest],
    },
  })

const amounts: Domain = { shown: [1e-6, 1], offset: 0.1, rest: 0.01 }

/** A current as a calibrated range shows it, corrected. */
export const correctedCurrent = lawOf('A', 'current', 'I', amounts)

/** The same of a voltage. */
export const correctedVoltage = lawOf('V', 'voltage', 'V', amounts)

/** A gain as a calibrated span of the dial shows it, corrected. */
export const correctedGain = lawOf('1', 'gain', 'h', { shown: [1, 1000], offset: 10, rest: 1 })

const laws: Readonly<Record<Readout['unit'], AnyFormula>> = {
  A: correctedCurrent,
  V: correctedVoltage,
  '1': correctedGain,
}

/**
 * A reading on a calibrated range or span, corrected. The calibration stands in the budget with causes of its own: offset
 * and slope of its line (or its curve at this place), the reference it was held against, and how it repeats.
 *
 * @param shown what is shown by the print, with the doubt of reading it
 */
export function corrected(
  tester: Tester,
  of: Readout,
  r: Reading,
  shown: Quantity,
  { head, range: c }: InForce,
): Quantity {
  const { unit } = of
  const id = `${tester.id}/${unit === '1' ? 'gain' : 'range'}/${of.id}/calibration/${head.date}`
  const name = readoutName(of)
  const words = `calibration of ${name}, ${head.date}`
  const known = (value: number, u: Quantity['unit'], what: string, terms: readonly Term[]): Quantity =>
    leaf(value, u, { kind: 'stated', what: `${what}, ${words}` }, terms)
  const ofScatter = c.dof === undefined ? {} : ({ dof: c.dof, distribution: 't' } as const)
  const one = (name: string, label: string, u: number): readonly Term[] =>
    u === 0
      ? []
      : [term(`${id}/${name}`, { label: `${label}, ${words}`, u, ...(name === 'reference' ? {} : ofScatter) })]
  const scatter = {
    label: `reading, repeats and ${unit === '1' ? 'play' : 'friction'} of ${name}`,
    u: c.uRepeat,
    ...ofScatter,
  }
  const rest = known(0, unit, 'reference and repeats', [
    ...one('reference', 'reference', c.uReference),
    ...(c.uRepeat === 0 ? [] : [term(`${cause.readingId(r)}/scatter`, scatter)]),
  ])
  const { law } = c
  const at = correctionAt(c, shown.value)
  const inputs =
    law.kind === 'line'
      ? {
          offset: known(law.offset, unit, 'offset', one('offset', 'offset', law.uOffset)),
          slope: known(law.slope, '1', 'slope', one('slope', 'slope', law.uSlope)),
          at: exact(law.at, unit, 'middle of the calibration'),
        }
      : {
          offset: known(at.value, unit, 'correction', one('curve', 'curve', at.u)),
          slope: exact(0, '1', 'slope: a curve was laid'),
          at: exact(0, unit, 'middle of the calibration'),
        }
  const together = oneScatter([...inputs.offset.budget, ...inputs.slope.budget, ...rest.budget])
  return derive(
    laws[unit],
    { shown, ...inputs, rest: together.length === 0 ? rest : { ...rest, correlations: together } },
    r.reads,
  )
}

/**
 * Causes that one scatter sized go together where degrees of freedom are counted, though they are not correlated
 * themselves (JCGM 100:2008, G.4.1 wants independent estimates of variance).
 */
function oneScatter(terms: readonly Term[]): readonly Correlation[] {
  const [first, ...others] = terms.filter((t) => t.dof !== undefined)
  return first === undefined ? [] : others.map((o) => ({ a: first.cause, b: o.cause, r: 0 }))
}

/** How the print of a range grows from one temperature to another, degC: its coil changes; 1 where none is known. */
function coilFactor(tester: Tester, { circuit }: Range, fromC: number, toC: number): number {
  const m = tester.movement
  if (m === undefined) return 1
  const at = (celsius: number) => atTerminals(circuit, m.fullScaleA, coilOhmAt(m, celsius))
  const [then, now] = [at(fromC), at(toC)]
  return then === undefined || now === undefined ? 1 : now / then
}

/**
 * What a calibrated range shows of a current or voltage at the part, in its unit: the way back through the correction.
 * Undefined where no calibration corrects it there.
 *
 * @param ambientC of the reading, degC; left out, that of the calibration
 */
export function shownFor(tester: Tester, range: Range, value: number, ambientC?: number): number | undefined {
  const found = calibrationAt(tester, readoutOf(range))
  if (found === undefined || found.range.trust === 'not trusted') return undefined
  let shown = value
  for (let i = 0; i < mostSteps; i++) shown = value - correctionAt(found.range, shown).value
  if (!covers(found.range, range, shown)) return undefined
  const { ambientC: thenC } = found.head
  return thenC === undefined || ambientC === undefined ? shown : shown / coilFactor(tester, range, thenC, ambientC)
}

/** A correction is a small part of what is shown, so that each step brings at least a digit. */
const mostSteps = 15

/** What the print of a range stands for at another temperature than that of its calibration: its coil changes. */
export function warmed(tester: Tester, range: Range, r: Reading, head: Calibration): Quantity {
  const unit = rangeUnit(range)
  const m = tester.movement
  const stated = exact(range.fullScale, unit, `full scale of ${range.id}`)
  if (m === undefined || m.copperPerK === 0 || head.ambientC === undefined) return stated
  if (atTerminals(range.circuit, m.fullScaleA, m.coilOhm) === undefined) return stated
  const ratio = (celsius: number): number => coilFactor(tester, range, head.ambientC!, celsius)
  const noted = r.ambientC ?? cause.assumedDoubts.ambientC
  const factor = ratio(noted)
  const { ambientU, thermometerU } = cause.assumedDoubts
  const u = r.ambientC === undefined ? ambientU : (r.ambientU ?? tester.thermometer?.uC ?? thermometerU)
  const perK = range.fullScale * (ratio(noted + 0.5) - ratio(noted - 0.5))
  const heat = cause.thermometer(tester, u)
  const what = `full scale of ${range.id}, calibrated at ${head.ambientC} degC and read at ${noted} degC`
  return leaf(range.fullScale * factor, unit, { kind: 'stated', what }, [{ ...heat, slope: heat.slope * perK }])
}
