import { normalQuantile, Random } from '#core/numeric'
import { type Hypothesis, hypotheses, simulatedPair } from './hypothesis.ts'
import type { LeadCurve } from './lead-curve.ts'
import { imaginedPart } from './likelihood-table.ts'
import {
  breakdownVolts,
  curveVolts,
  type LeadReading,
  type Meter,
  mostGain,
  type OhmsRange,
  warmedOhm,
} from './meter.ts'
import { fingersK, type Trial } from './trial.ts'

/** A part whose truth is known, and an imagined meter that reads it with its errors. */
export interface SimulatedPart {
  readonly truth: Hypothesis
  /** Tests it in one way. */
  readonly read: (trial: Trial) => LeadReading
}

/** How far a room is from the temperature of the table, K: standard deviation. */
const roomSpreadK = 3

/** A hypothesis drawn by its odds. */
function drawn(random: Random, leads: 2 | 3): Hypothesis {
  let left = random.uniform()
  for (const h of hypotheses[leads]) {
    left -= h.prior
    if (left < 0) return h
  }
  return hypotheses[leads][0]!
}

/**
 * A part drawn by the odds, none of those in the table, and a meter with its own gain error, read to its last digit in
 * a room that is not quite at 25 degC.
 *
 * @param seed must not be that of the table
 */
export function simulatedPart(seed: number, n: number, leads: 2 | 3, meter: Meter): SimulatedPart {
  const random = new Random(seed, `part ${n}`)
  const normal = (): number => normalQuantile(random.uniform())
  const truth = drawn(random, leads)
  const curves = imaginedPart(truth.condition, seed, n)
  const gain = 1 + meter.gainU * normal()
  const warmerK = roomSpreadK * normal()
  return {
    truth,
    read: (trial) => {
      const curve = curves[simulatedPair(truth, trial)]!
      const range = meter.ohms.find((r) => r.name === trial.range)
      if (trial.test === 'gain') return { ...leadsRead(trial), shows: gainShown(curve, meter, normal()) }
      if (trial.test === 'breakdown') return { ...leadsRead(trial), shows: breakdownShown(curve, gain) }
      if (range === undefined) return { ...leadsRead(trial), shows: shown(curve, { meter, gain, warmerK }) }
      const warmedK = trial.warmed === true ? fingersK.mean + fingersK.spread * normal() : 0
      return { ...leadsRead(trial), shows: resistance(curve, range, { meter, warmedK, error: normal() }) }
    },
  }
}

/** What a socket shows, in whole steps of gain, and a voltmeter beside the supply, to two figures behind the point. */
const gainShown = (curve: LeadCurve, meter: Meter, error: number): LeadReading['shows'] => ({
  kind: 'gain',
  gain: Math.min(mostGain, Math.round((curve.gain ?? 0) * 10 ** (meter.decadesU * error))),
})
const breakdownShown = (curve: LeadCurve, gain: number): LeadReading['shows'] => ({
  kind: 'breakdown',
  volts: Math.round(100 * breakdownVolts(curve) * gain) / 100,
})

interface Warmed {
  readonly meter: Meter
  readonly warmedK: number
  readonly error: number
}

/** What a range of ohms shows, to three figures or to its last digit where that is more. */
function resistance(curve: LeadCurve, range: OhmsRange, { meter, warmedK, error }: Warmed): LeadReading['shows'] {
  const ohm = warmedOhm(curve, range, warmedK) * 10 ** (meter.decadesU * error)
  if (!Number.isFinite(ohm)) return { kind: 'open', range: range.name }
  const digits = Math.round(ohm / range.leastOhm) * range.leastOhm
  return { kind: 'ohms', ohm: Number(digits.toPrecision(3)), range: range.name }
}

const leadsRead = ({ plus, minus, joined, warmed }: Trial) => ({
  plus: plus + 1,
  minus: minus + 1,
  ...(joined === undefined ? {} : { joined }),
  ...(warmed === undefined ? {} : { warmed }),
})

interface Circumstances {
  readonly meter: Meter
  readonly gain: number
  readonly warmerK: number
}

/** What the diode check shows, to a millivolt. */
function shown(curve: LeadCurve, { meter, gain, warmerK }: Circumstances): LeadReading['shows'] {
  const volts = (curveVolts(curve, meter.diode.currentA) + curve.voltsPerK * warmerK) * gain
  if (!(volts < meter.diode.openAboveV)) return { kind: 'open' }
  return { kind: 'volts', volts: Math.max(0, Math.round(1000 * volts) / 1000) }
}
