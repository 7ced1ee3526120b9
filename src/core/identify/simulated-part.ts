import { normalQuantile, Random } from '#core/numeric'
import { type Hypothesis, hypotheses, type Put, simulatedPair } from './hypothesis.ts'
import type { LeadCurve } from './lead-curve.ts'
import { imaginedPart } from './likelihood-table.ts'
import { curveVolts, type LeadReading, type Meter, type OhmsRange, rangeOhm } from './meter.ts'

/** A part whose truth is known, and an imagined meter that reads it with its errors. */
export interface SimulatedPart {
  readonly truth: Hypothesis
  /** Reads it in one way: a diode check, or a range of ohms. */
  readonly read: (put: Put & { readonly range?: string }) => LeadReading
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
    read: (put) => {
      const curve = curves[simulatedPair(truth, put)]!
      const range = meter.ohms.find((r) => r.name === put.range)
      const shows =
        range === undefined ? shown(curve, { meter, gain, warmerK }) : resistance(curve, range, meter, normal())
      return { ...leadsRead(put), shows }
    },
  }
}

/** What a range of ohms shows, to three figures. */
function resistance(curve: LeadCurve, range: OhmsRange, meter: Meter, error: number): LeadReading['shows'] {
  const ohm = rangeOhm(curve, range) * 10 ** (meter.decadesU * error)
  if (!Number.isFinite(ohm)) return { kind: 'open', range: range.name }
  return { kind: 'ohms', ohm: Number(ohm.toPrecision(3)), range: range.name }
}

const leadsRead = ({ plus, minus, joined }: Put) => ({
  plus: plus + 1,
  minus: minus + 1,
  ...(joined === undefined ? {} : { joined }),
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
