import { describe, expect, test } from 'vitest'
import { exactly, makeStage, type StagePoint, stability, stageAt, type TransistorNumbers } from '#core/stage'
import { expectRelative } from '#core/testing'
import { dividerBias, emitterBias, feedbackBias, fixedBias, runawayExample } from '../../src/core/circuit/bias.ref.ts'
import { partsFor, positionOf, transistor } from './positions.ts'

/** The textbook's transistor: a gain and a V_BE, and no leakage to speak of, at the point the book works out. */
const bookTransistor = (gain: number, vbeV: number, atA: number, atV: number): TransistorNumbers =>
  transistor({
    polarity: 'NPN',
    material: 'Si',
    gain: exactly(gain),
    atA,
    atV,
    leakageA: exactly(1e-15),
    vbeV: exactly(vbeV),
  })

function pointOf(
  id: string,
  ohm: Readonly<Record<string, number>>,
  supplyV: number,
  part: TransistorNumbers,
): StagePoint {
  const position = positionOf(id, { polarity: 'NPN', ohm, supplyV })
  const outcome = stageAt(makeStage(position, partsFor(position, part)), 25)
  if (outcome.kind !== 'point') throw new Error(outcome.kind)
  return outcome.point
}

describe('operating points as Boylestad and Nashelsky work them out', () => {
  test.each([
    ['fixed-bias', fixedBias],
    ['emitter-resistor', emitterBias],
    ['divider', dividerBias],
  ] as const)('%s', (id, { given, computed }) => {
    const { VCC, beta, VBE, ...ohm } = given
    const p = pointOf(id, ohm, VCC, bookTransistor(beta, VBE, computed.IC, computed.VCE))
    // the book leaves I_B out of R_E, and so does its V_CE, at which the transistor's numbers hold
    expectRelative(p.ic, computed.IC, 1e-3, 'I_C')
    expectRelative(p.ib, computed.IB, 1e-3, 'I_B')
    expectRelative(p.vce, computed.VCE, 3e-3, 'V_CE')
  })

  test('collector feedback, but for the I_B the book neglects', () => {
    const { VCC, RF, RC, RE, beta, VBE } = feedbackBias.given
    const { IC, VCE } = feedbackBias.computed
    const p = pointOf('collector-feedback', { RF, RC, RE }, VCC, bookTransistor(beta, VBE, IC, VCE))
    expectRelative(p.ic, IC, 1 / beta, 'I_C')
  })
})

describe('thermal runaway as Millman and Halkias have it', () => {
  test('dP/dT = V_CC S (I_CO per kelvin), with what gain and V_BE add', () => {
    const { supplyV, leakageA } = runawayExample
    const gain = 60
    const part = transistor({
      polarity: 'NPN',
      gain: exactly(gain),
      atV: 12,
      leakageA: exactly(leakageA),
      leakageAtV: 12,
      ratings: { rthKPerW: 50 },
    })
    const position = positionOf('fixed-bias', { polarity: 'NPN', supplyV, ohm: { RB: 1e6, RC: 1 } })
    const s = makeStage(position, partsFor(position, part))
    // the air so much cooler that the junction comes to 25 degC, where its numbers hold
    const heat = stageAt(makeStage(position, partsFor(position, { ...part, ratings: {} })), 25)
    if (heat.kind !== 'point') throw new Error(heat.kind)
    const outcome = stageAt(s, 25 - 50 * heat.point.powerW)
    if (outcome.kind !== 'point') throw new Error(outcome.kind)
    expectRelative(outcome.point.junctionC, 25, 1e-6, 'T_J')
    const [leak, voltage] = stability(s)
    const byLeakage = leak!.solved * leakageA * (Math.LN2 / 10)
    // gain rises 0.5 % per kelvin and carries base current and leakage; V_BE falls by about 2 mV (common practice)
    const byGain = 0.005 * (outcome.point.ic - leakageA)
    const byVoltage = voltage!.solved * -0.002
    expect(byLeakage / (byLeakage + byGain + byVoltage)).toBeGreaterThan(0.85)
    expectRelative(outcome.point.loopGain, 50 * supplyV * (byLeakage + byGain + byVoltage), 0.02, 'loop gain')
  })
})
