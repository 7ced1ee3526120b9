import { leaf, limitTerm, type Quantity } from '#core/quantity'
import { resistorVoltageV } from '#core/resistor'
import {
  atTerminals,
  type Circuit,
  coilOhmAt,
  componentFor,
  type Movement,
  type Range,
  terminalOhm,
} from '#core/tester'
import { unitOf } from './range-design.ts'

export interface RangeBudgetOptions {
  /** Lowest and highest temperature the ranges are used at, degC. */
  readonly temperaturesC: readonly [low: number, high: number]
  /** Change of the shunts and multipliers per kelvin, as a part of their value; its sign is kept. */
  readonly partPerK: number
}

/** The part that makes a range. */
export interface RangePart {
  readonly name: 'shunt' | 'tap' | 'series'
  readonly ohm: number
  /** Heat in it at full scale, W. */
  readonly powerW: number
  /** How many resistors in series it takes at least, so that each bears its share of the voltage. */
  readonly pieces: number
}

/** What a range made of a movement and its parts is worth. */
export interface RangeBudget {
  readonly range: Range
  /** Left out for the movement alone. */
  readonly part?: RangePart
  /** Resistance between the terminals, ohm, and the voltage lost at full scale, V. */
  readonly terminalOhm: number
  readonly burdenV: number
  /** How far the needle is off at full scale, as a part of the true value. */
  readonly drift: readonly { readonly temperatureC: number; readonly error: number }[]
  /** Limits of error by cause at full scale, as parts of it. */
  readonly limits: readonly { readonly cause: string; readonly limit: number }[]
  /** All limits at their worst together, as a part of full scale. */
  readonly worst: number
  /** The full scale with these limits as its budget, each taken as evenly spread (JCGM 100:2008, 4.3.7). */
  readonly fullScale: Quantity
}

/** Changes of the parts of a circuit, as factors; of a ring, those of the piece below the tap and of the rest. */
interface Change {
  readonly parts?: number
  readonly rest?: number
  readonly contact?: number
}

function changed(c: Circuit, { parts = 1, rest = parts, contact = 1 }: Change): Circuit {
  switch (c.kind) {
    case 'shunt':
      return { ...c, shuntOhm: c.shuntOhm * parts, contactOhm: c.contactOhm * contact }
    case 'universal':
      return { ...c, ringOhm: c.tapOhm * parts + (c.ringOhm - c.tapOhm) * rest, tapOhm: c.tapOhm * parts }
    case 'multiplier':
      return { ...c, seriesOhm: c.seriesOhm * parts }
    default:
      return c
  }
}

/**
 * How far the needle is off when the true value is the full scale: as a part of it, more than 0 where it shows too much.
 * Through the network of the range, with its parts changed and the coil at a temperature.
 */
export function errorAtFullScale(m: Movement, r: Range, ambientC: number, change: Change = {}): number {
  const needed = atTerminals(changed(r.circuit, change), m.fullScaleA, coilOhmAt(m, ambientC))
  return needed === undefined ? 0 : r.fullScale / needed - 1
}

/**
 * Drift over temperature and budget of a range at its full scale.
 *
 * @see docs/how-to/shunts.md for what each limit is
 */
export function rangeBudget(m: Movement, range: Range, o: RangeBudgetOptions): RangeBudget {
  const drift = [...new Set([o.temperaturesC[0], m.atC, o.temperaturesC[1]])]
    .sort((a, b) => a - b)
    .map((temperatureC) => {
      const parts = 1 + o.partPerK * (temperatureC - m.atC)
      return { temperatureC, error: errorAtFullScale(m, range, temperatureC, { parts }) }
    })
  const limits = limitsOf(m, range, Math.max(...drift.map((d) => Math.abs(d.error))))
  const unit = unitOf(range)
  const terms = limits.map((l) => limitTerm(`design/${range.id}/${l.cause}`, l.cause, l.limit * range.fullScale))
  const ohm = terminalOhm(range.circuit, m.coilOhm) ?? 0
  const part = componentFor(range, m)
  return {
    range,
    ...(part && { part: { ...part, ...loadOf(m, range, part.ohm) } }),
    terminalOhm: ohm,
    burdenV: range.measures === 'current' ? range.fullScale * ohm : 0,
    drift,
    limits,
    worst: limits.reduce((sum, l) => sum + l.limit, 0),
    fullScale: leaf(range.fullScale, unit, { kind: 'stated', what: `full scale of ${range.id}` }, terms),
  }
}

/** What the part of a range has to bear at full scale. */
function loadOf(m: Movement, r: Range, ohm: number): Pick<RangePart, 'powerW' | 'pieces'> {
  const currentA = r.measures === 'voltage' ? m.fullScaleA : r.fullScale - m.fullScaleA
  return { powerW: currentA ** 2 * ohm, pieces: Math.max(1, Math.ceil((currentA * ohm) / resistorVoltageV - 1e-9)) }
}

function limitsOf(m: Movement, r: Range, byTemperature: number): RangeBudget['limits'] {
  const { circuit } = r
  const both = (change: (sign: number) => Change): number => {
    const at = errorAtFullScale(m, r, m.atC)
    return Math.max(...[-1, 1].map((s) => Math.abs(errorAtFullScale(m, r, m.atC, change(s)) - at)))
  }
  const tolerance = 'tolerance' in circuit ? circuit.tolerance : 0
  const name = circuit.kind === 'universal' ? 'pieces of the ring' : circuit.kind
  // a ring is worst where the piece below the tap and the rest err in opposite ways
  const parts = both((s) => ({
    parts: 1 + s * tolerance,
    rest: 1 + (circuit.kind === 'universal' ? -s : s) * tolerance,
  }))
  return [
    { cause: 'class of the movement', limit: m.classPercent / 100 },
    { cause: name, limit: parts },
    // a contact may be anything from nothing to twice what was allowed for it
    { cause: 'contact', limit: circuit.kind === 'shunt' ? both((s) => ({ contact: 1 + s })) : 0 },
    { cause: 'temperature', limit: byTemperature },
  ].filter((l) => l.limit > 0)
}
