import { FaultError } from '#core/fault'
import { type Combination, combine } from '#core/resistor'
import { baseCurrentAt, dialAtGain, type GainBridge, gainAtDial, leakageBias, resistorsOf } from './gain-bridge.ts'
import { needlePerTurn, nullCircuit, type Transistor } from './null-circuit.ts'

/** What is taken where nobody says otherwise (common practice): a small set of cells, a needle of 100 µA with 50 divisions. */
export const dialDefaults = {
  cellV: 4.5,
  tolerance: 0.01,
  linearity: 0.01,
  detectorOhm: 1100,
  divisionA: 2e-6,
  readable: 0.5,
  tapFraction: 2 / 3,
  dividerOhm: 2000,
  ambientC: 25,
  marks: [10, 20, 50, 100],
  baseEmitterV: { Ge: 0.2, Si: 0.65 },
} as const

/** How the dial's resistance goes with its scale. */
export type PotLaw =
  | {
      readonly kind: 'linear'
      /** What its scale was drawn for, and what it is, end to end, ohm. */
      readonly nominalOhm: number
      readonly ohm: number
      /** Resistance that is left at its stop, ohm. */
      readonly endOhm: number
      /** Limit of its departure from the straight line, as a part of the whole. */
      readonly linearity: number
    }
  /** Resistance measured at marks of the scale. */
  | { readonly kind: 'points'; readonly points: readonly { readonly mark: number; readonly ohm: number }[] }

export interface GainDialWish {
  readonly bridge: GainBridge
  /** The fixed resistor the scale was drawn for, where it is another than the one that is there, ohm. */
  readonly drawnForOhm?: number
  /** Limit of error of the fixed resistor, as a part of it. */
  readonly tolerance: number
  readonly law: PotLaw
  /** Marks of the scale to look at; of measured points those that were measured. */
  readonly marks: readonly number[]
  /** The needle: what it and its series resistor have, ohm, and the current of one division, A. */
  readonly detectorOhm: number
  readonly divisionA: number
  /** How finely the null can be seen, as a part of a division. */
  readonly readable: number
  readonly leakageA: number
  readonly transistor: Transistor
  readonly ambientC: number
}

/** What the dial is worth at one mark. */
export interface DialMark {
  readonly mark: number
  /** Resistance of the dial there, ohm, and the gain at which it nulls. */
  readonly ohm: number
  readonly gain: number
  /** What the mark shows too much, as a part of that gain. */
  readonly error: number
  /** Limit of error by the fixed resistor and the pot's law, as a part of the gain. */
  readonly limit: number
  /** How far the dial may be turned for one division of the needle, as a part of the gain. */
  readonly perDivision: number
  /** How sharply the null can be set, as a part of the gain. */
  readonly nullWithin: number
  /** What the leakage adds to the gain shown. */
  readonly leakageBias: number
  readonly baseA: number
  /** Resistors in place of a part that null at the mark; left out where the bridge does not null on resistors. */
  readonly check?: CheckResistors
}

/** Known resistors in place of a transistor: one from base to emitter, one from collector to emitter. */
export interface CheckResistors {
  readonly collectorOhm: number
  readonly base: Combination
  /** Gain at which the dial should null with them. */
  readonly gain: number
}

export interface GainDialCheck {
  readonly marks: readonly DialMark[]
  /** Gain at the stop of a dial in the base, where its resistance is what is left at its end; left out for measured points. */
  readonly atStop?: number
}

/**
 * What a gain dial is worth along its scale: error of its marks from the resistors and the pot, how sharply the null can
 * be set, what leakage does to it, and which resistors check it without a transistor.
 *
 * @throws {FaultError} `out-of-domain` for a mark outside the measured points
 * @see docs/how-to/gain-dial.md
 */
export function checkGainDial(w: GainDialWish): GainDialCheck {
  const { bridge: b, law } = w
  const bench = nullCircuit(w)
  const marks = law.kind === 'points' ? law.points.map((p) => p.mark) : w.marks
  return {
    marks: marks.map((mark) => {
      const ohm = ohmAtMark(w, mark)
      const gain = gainAtDial(b, ohm)
      const perDivision = w.divisionA / needlePerTurn(bench, ohm)
      const check = b.kind === 'ratio' ? checkResistors(b, ohm) : undefined
      return {
        mark,
        ohm,
        gain,
        error: mark / gain - 1,
        limit: w.tolerance + (law.kind === 'linear' ? (law.linearity * law.ohm) / ohm : 0),
        perDivision,
        nullWithin: perDivision * w.readable,
        leakageBias: leakageBias(b, ohm, w.leakageA),
        baseA: baseCurrentAt(b, ohm),
        ...(check && { check }),
      }
    }),
    ...(law.kind === 'linear' && b.dial === 'base' ? { atStop: gainAtDial(b, law.endOhm) } : {}),
  }
}

/** Resistance the dial has at a mark: the scale was drawn for the nominal pot and the drawn resistor. */
function ohmAtMark(w: GainDialWish, mark: number): number {
  const { bridge: b, law } = w
  if (law.kind === 'points') return law.points.find((p) => p.mark === mark)!.ohm
  const drawn: GainBridge = { ...b, fixedOhm: w.drawnForOhm ?? b.fixedOhm }
  const turned = dialAtGain(drawn, mark) / law.nominalOhm
  if (turned > 0 && turned <= 1 + 1e-9) return law.endOhm + turned * law.ohm
  throw new FaultError({
    code: 'out-of-domain',
    name: `The mark ${mark}`,
    value: `${Number((turned * 100).toPrecision(3))} % of the pot`,
    allowed: 'within the pot: check pot, fixed resistor and marks',
  })
}

/** Tolerance to which a pair for the base is looked for, as a part (common practice). */
const checkWithin = 0.001

/**
 * Resistors that null a ratio bridge as a part of that gain would: R_be / R_ce = gain. The one in the collector is taken
 * near the collector's own resistor, where the needle moves most.
 */
function checkResistors(b: GainBridge, dialOhm: number): CheckResistors {
  const o = { series: 'E24', within: checkWithin, tolerance: checkWithin } as const
  const collectorOhm = combine(resistorsOf(b, dialOhm).collectorOhm, o).one.ohm
  const wanted = combine(collectorOhm * gainAtDial(b, dialOhm), o)
  const base = wanted.taken ?? wanted.inSeries ?? wanted.one
  return { collectorOhm, base, gain: base.ohm / collectorOhm }
}
