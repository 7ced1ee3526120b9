import { printPlain } from '#core/quantity'
import { atTerminals, coilOhmAt, type Range, rangeUnit, readoutName, scaleOf, type Tester } from '#core/tester'
import type { CalibratedRange } from './calibrate.ts'

/** What to trim so that a range reads right by itself. */
export interface TrimAdvice {
  readonly kind: 'none' | 'zero' | 'shunt' | 'multiplier' | 'tap' | 'dial' | 'movement' | 'correct'
  readonly say: string
  /** Where a resistance is to be changed: what it now acts as, what it should be, and how to get there. */
  readonly ohm?: {
    readonly now: number
    readonly wanted: number
    /** Put across it to lower it. */
    readonly across?: number
    /** Put in series to raise it. */
    readonly inSeries?: number
  }
}

type Found = Omit<CalibratedRange, 'advice'>

/** Slopes this many standard uncertainties apart are different; a smaller one is none. */
const clear = 2

const slopeOf = (f: Found): number => f.correction.line.coefficients[1]!
const uSlopeOf = (f: Found): number => Math.max(f.correction.line.sd[1]!, 1e-9)

/** Correction at zero, and its standard uncertainty. */
function zeroOf({ correction: { line }, points }: Found): { readonly value: number; readonly u: number } {
  const middle = points.reduce((sum, p) => sum + p.shown, 0) / points.length
  return {
    value: line.coefficients[0]! - line.coefficients[1]! * middle,
    u: Math.hypot(line.sd[0]!, line.sd[1]! * middle),
  }
}

/**
 * Which part of the described network to trim, and by how much. A slope that all ranges share is the movement's; one
 * that a range has alone is its shunt's, tap's or multiplier's.
 */
export function adviceFor(tester: Tester, f: Found, all: readonly Found[]): TrimAdvice {
  const { range } = f.readout
  return range === undefined ? dialAdvice(tester, f, all) : rangeAdvice(tester, range, f, all)
}

function rangeAdvice(tester: Tester, range: Range, f: Found, all: readonly Found[]): TrimAdvice {
  const zero = zeroOf(f)
  const scale = scaleOf(tester, range)
  const step = scale === undefined ? 0 : range.fullScale / scale.divisions / 4
  if (tester.kind === 'needle' && Math.abs(zero.value) > Math.max(clear * zero.u, step))
    return { kind: 'zero', say: zeroText(range, zero.value, scale?.divisions ?? 100) }
  const slope = slopeOf(f)
  if (!isClear(f)) return noneFor(range.id)
  if (isShared(tester, f, all))
    return {
      kind: 'movement',
      say: `All ranges read ${percent(slope)} ${slope > 0 ? 'low' : 'high'} alike: that is the movement, not ${range.id} alone. Have its magnet shunt set, or use the corrections; leave the shunts alone.`,
    }
  return resistorAdvice(tester, range, slope) ?? correctFor(range.id, slope)
}

const isClear = (f: Found): boolean => Math.abs(slopeOf(f)) > clear * uSlopeOf(f) && Math.abs(slopeOf(f)) >= 1e-3

const noneFor = (name: string): TrimAdvice => ({ kind: 'none', say: `${name} needs no trimming.` })

const correctFor = (name: string, slope: number): TrimAdvice => ({
  kind: 'correct',
  say: `${name} reads ${percent(slope)} ${slope > 0 ? 'low' : 'high'}; the description names nothing to trim: use the correction.`,
})

/**
 * A dial that reads wrong in proportion has one resistor to trim, the fixed one of its bridge: at null the gain goes with
 * R_B / R_C (see `dialShows`). One that serves several spans is trimmed only for what they share.
 */
function dialAdvice(tester: Tester, f: Found, all: readonly Found[]): TrimAdvice {
  const name = readoutName(f.readout)
  if (!isClear(f)) return noneFor(name)
  const slope = slopeOf(f)
  const spans = all.filter((o) => o.readout.unit === '1')
  const bridge = tester.gain.kind === 'dial' ? tester.gain.bridge : undefined
  if (bridge === undefined || !isAlike(f, spans)) return correctFor(name, slope)
  const { dial, fixedOhm } = bridge
  const now = dial === 'base' ? fixedOhm / (1 + slope) : fixedOhm * (1 + slope)
  return (
    trim('dial', `The fixed resistor of the dial's bridge, seen from ${name},`, now, fixedOhm) ??
    correctFor(name, slope)
  )
}

/** Slopes that are the same as far as can be told. */
const isAlike = (f: Found, others: readonly Found[]): boolean =>
  others.every((o) => Math.abs(slopeOf(o) - slopeOf(f)) <= Math.max(clear * Math.hypot(uSlopeOf(o), uSlopeOf(f)), 2e-3))

const percent = (part: number): string => `${Number((100 * Math.abs(part)).toPrecision(2))} %`

function zeroText(range: Range, correction: number, divisions: number): string {
  const off = (-correction / range.fullScale) * divisions
  return `The needle does not rest at zero: ${range.id} shows ${Number(Math.abs(off).toPrecision(2))} of a division ${off > 0 ? 'above' : 'below'} it. Set the zero screw and calibrate again before trimming anything.`
}

/** Three ranges or more, all with the same slope as far as can be told, on ranges through the movement. */
function isShared(tester: Tester, f: Found, all: readonly Found[]): boolean {
  const ranges = all.filter((o) => o.readout.range !== undefined)
  return tester.movement !== undefined && ranges.length >= 3 && isAlike(f, ranges)
}

function resistorAdvice(tester: Tester, range: Range, slope: number): TrimAdvice | undefined {
  const m = tester.movement
  const { circuit, fullScale } = range
  if (m === undefined) return undefined
  const coil = coilOhmAt(m, m.atC)
  const full = m.fullScaleA
  const truly = fullScale * (1 + slope)
  switch (circuit.kind) {
    case 'shunt': {
      const side = (current: number): number => (full * coil) / (current - full) - circuit.contactOhm
      return trim('shunt', `The shunt of ${range.id}`, side(truly), side(fullScale))
    }
    case 'universal': {
      const tap = (current: number): number => (full * (coil + circuit.ringOhm)) / current
      return trim('tap', `The tap of ${range.id}`, tap(truly), tap(fullScale))
    }
    case 'multiplier': {
      const series = (voltage: number): number => voltage / full - coil
      return trim('multiplier', `The multiplier of ${range.id}`, series(truly), series(fullScale))
    }
    case 'movement':
      return {
        kind: 'movement',
        say: `${range.id} is the movement itself: it reads ${percent(slope)} ${slope > 0 ? 'low' : 'high'}, full scale at ${printPlain(atTerminals(circuit, full, coil)! * (1 + slope), rangeUnit(range))}. Have its magnet shunt set, or use the correction.`,
      }
    default:
      return undefined
  }
}

function trim(
  kind: 'shunt' | 'tap' | 'multiplier' | 'dial',
  what: string,
  now: number,
  wanted: number,
): TrimAdvice | undefined {
  if (!(now > 0) || !(wanted > 0)) return undefined
  const ohm = (x: number): string => printPlain(x, 'ohm', { digits: 4 })
  const name = `${what} acts as ${ohm(now)} and should be ${ohm(wanted)}`
  if (wanted < now) {
    const across = (now * wanted) / (now - wanted)
    return {
      kind,
      say: `${name}: put ${printPlain(across, 'ohm', { digits: 2 })} across it.`,
      ohm: { now, wanted, across },
    }
  }
  const inSeries = wanted - now
  return {
    kind,
    say: `${name}: put ${printPlain(inSeries, 'ohm', { digits: 2 })} in series with it, or take ${percent(inSeries / now)} more wire.`,
    ohm: { now, wanted, inSeries },
  }
}
