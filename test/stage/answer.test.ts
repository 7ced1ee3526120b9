import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { compileCircuit, devicePointOf, readCircuit } from '#core/circuit'
import { voltsPerKelvin2014 } from '#core/physics'
import {
  exactly,
  gainFactor,
  leakageFactor,
  makeStage,
  overTemperature,
  placeCurrents,
  type Stage,
  stability,
  stageAnswer,
  stageAt,
  stageCircuit,
  stageSpread,
  stageVerdict,
  voltageFactor,
} from '#core/stage'
import { expectPrinted, expectRelative } from '#core/testing'
import { dataDocument } from '#core/text'
import { gainStability, leakageStability, voltageStability } from '../../src/core/circuit/bias.ref.ts'
import { diode, exampleOhm, partsFor, positionOf, transistor } from './positions.ts'

/** Stages as ngspice 39.3 computes them. */
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../src/core/circuit/stages.ref.json'), 'utf8'),
) as {
  stages: {
    id: string
    results: {
      temperature_degC: number
      assignment: Record<string, string>
      devices: Record<string, { ic: number; vce: number }>
    }[]
  }[]
}

describe('textbook stability factors', () => {
  test.each(leakageStability)('S(I_CO) at R_B / R_E = $ratio', (s) => {
    const t = { gain: 50, collectorA: 2e-3, rbOhm: s.ratio * 1000, reOhm: 1000 }
    expectRelative(leakageFactor(t), s.stability, 1e-12, 'S(I_CO)')
    expectPrinted(leakageFactor(t), s.printed)
  })
  test.each(voltageStability)('S(V_BE) at R_B = $RB, R_E = $RE', (s) => {
    // in full, also where the book takes -1/R_E
    const t = { gain: 100, collectorA: 2e-3, rbOhm: s.RB, reOhm: s.RE }
    expectRelative(voltageFactor(t), s.slope, 1e-12, 'S(V_BE)')
  })
  test('S(h_FE)', () => {
    const { from, to, ratio, currentA, perGainA, printed } = gainStability
    const t = { gain: from, collectorA: currentA, rbOhm: ratio * 1000, reOhm: 1000 }
    expectRelative(gainFactor(t, to), perGainA, 1e-12, 'S(h_FE)')
    expectPrinted(gainFactor(t, to), printed.perGain)
  })

  const singles = ['fixed-bias', 'emitter-resistor', 'divider', 'collector-feedback', 'follower']
  test.each(singles)('%s: the solver has them too, once r_e stands with R_E', (id) => {
    const s = withoutEarly(id)
    const outcome = stageAt(s, 25)
    if (outcome.kind !== 'point') throw new Error('no point')
    const thermalV = 0.0256926
    const [co, be, hfe] = stability(s)
    // the textbook leaves out r_e = V_T / I_E of the transistor: in S(V_BE) without R_E it is all there is
    const { ic, ib } = outcome.point
    const book = stageBook(s, id, ic, thermalV / (ic + ib))
    expectRelative(co!.solved, leakageFactor(book), 0.005, 'S(I_CO)')
    expectRelative(be!.solved, voltageFactor(book), 0.005, 'S(V_BE)')
    // I_C without the 3 uA of leakage that no gain multiplies
    expectRelative(hfe!.solved, gainFactor({ ...book, collectorA: ic - 3e-6 }), 0.01, 'S(h_FE)')
  })

  /** A stage whose transistor has no Early voltage, as the textbook's has none. */
  function withoutEarly(id: string): Stage {
    const position = positionOf(id)
    const circuit = stageCircuit(position, partsFor(position))
    const device = circuit.devices.Q1!
    if (device.kind !== 'bipolar') throw new Error('no transistor')
    const devices = { Q1: { ...device, card: { ...device.card, vaf: 0 } } }
    return { position, part: transistor(), c: compileCircuit({ ...circuit, devices }) }
  }

  /** The textbook's stage with r_e and the gain at the point, by the values of the example. */
  function stageBook({ c }: Stage, id: string, ic: number, re: number) {
    const r = exampleOhm(id)
    const both = (a: number, b: number): number => (a * b) / (a + b)
    const bias: Record<string, readonly [number, number]> = {
      'fixed-bias': [r.RB!, 0],
      'emitter-resistor': [r.RB!, r.RE!],
      divider: [both(r.R1!, r.R2!), r.RE!],
      'collector-feedback': [r.RF!, r.RC! + r.RE!],
      follower: [both(r.R1!, r.R2!), r.RE!],
    }
    const point = devicePointOf(c, 'Q1')
    if (point.kind !== 'bipolar') throw new Error('no transistor')
    const gain = point.smallSignal.gm! * point.smallSignal.rpi!
    return { gain, collectorA: ic, rbOhm: bias[id]![0], reOhm: bias[id]![1] + re }
  }
})

describe('over temperature', () => {
  const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }
  const b1 = reference.stages.find((s) => s.id === 'b1-fixed-bias')!
  const b3 = reference.stages.find((s) => s.id === 'b3-divider')!

  test.each([
    ['fixed-bias', b1],
    ['divider', b3],
  ] as const)('%s with devices of ngspice stands where ngspice has it', (id, stage) => {
    const values = (stage as unknown as { components: { ref: string; kind: string; value: number }[] }).components
    const ohm = Object.fromEntries(values.flatMap((c) => (c.kind === 'R' ? [[c.ref, c.value]] : [])))
    const position = positionOf(id, { ohm, supplyV: 9 })
    for (const r of stage.results) {
      const devices = readCircuit(dataDocument(stage), r.assignment).devices
      const circuit = { ...stageCircuit(position, partsFor(position)), devices: { Q1: devices[r.assignment.Q1!]! } }
      const made = { position, part: transistor(), c: compileCircuit(circuit, { setting }) }
      const outcome = stageAt(made, r.temperature_degC)
      if (outcome.kind !== 'point') throw new Error('no point')
      expectRelative(outcome.point.ic, r.devices.Q1!.ic, 1e-4, 'I_C')
      expectRelative(outcome.point.vce, r.devices.Q1!.vce, 1e-4, 'V_CE')
      // room above saturation by the same voltage
      expect(outcome.point.rooms[0]).toBeCloseTo(outcome.point.vce - 0.2, 9)
    }
  })

  test('a leaky part in fixed bias bottoms at the temperature that is named', () => {
    const position = positionOf('fixed-bias')
    const leaky = transistor({ leakageA: exactly(12e-6) })
    const answer = stageAnswer(position, partsFor(position, leaky), { count: 0 })
    expect(answer.verdict).toMatchObject({ word: 'will not', limit: 'room c-0' })
    expect(answer.verdict.why).toMatch(/the collector bottoms/)
    const t = answer.verdict.failsAtC!
    const room = (at: number): number => {
      const outcome = stageAt(makeStage(position, partsFor(position, leaky)), at)
      return outcome.kind === 'point' ? outcome.point.rooms[0]! : Number.NaN
    }
    expect(room(t)).toBeLessThan(position.demands.swingV)
    expect(room(t - 0.1)).toBeGreaterThan(position.demands.swingV)
  })

  test('the same part behind a divider of low resistance works', () => {
    const position = positionOf('divider', { ohm: { R1: 10e3, R2: 2200, RC: 2200, RE: 1000 } })
    const leaky = transistor({ leakageA: exactly(12e-6) })
    expect(stageVerdict(position, partsFor(position, leaky)).word).toBe('works')
  })

  test('leakage raises the current and takes it from the collector voltage', () => {
    const position = positionOf('fixed-bias')
    const { leakage } = stageAnswer(position, partsFor(position), { count: 0 })
    expect(leakage.map((l) => l.temperatureC)).toEqual([0, 25, 50])
    for (const l of leakage) expect(l.ic > l.icWithout && l.vce < l.vceWithout).toBe(true)
    // S(I_CO) = h_FE + 1 of 3 uA, by the textbook, Early voltage aside
    const warm = leakage[1]!
    expectRelative(warm.ic - warm.icWithout, 81 * 3e-6, 0.15, 'shift')
  })

  test('a power part on too small a heat sink runs away; a little cooler it does not', () => {
    const ohm = { RB: 82e3, RC: 0.5 }
    const power = transistor({
      gain: exactly(60),
      atA: 0.1,
      leakageA: exactly(2e-4),
      vbeV: exactly(0.25),
      ratings: { rthKPerW: 20, junctionMaxC: 90 },
    })
    const demands = { ...positionOf('fixed-bias').demands, drift: 5 }
    const position = positionOf('fixed-bias', { ohm, demands })
    const over = overTemperature(makeStage(position, partsFor(position, power)))
    const runaway = over.limits.find((l) => l.limit === 'runaway')!
    expect(runaway.failsAtC).toBeDefined()
    const kind = (t: number) => stageAt(makeStage(position, partsFor(position, power)), t).kind
    expect(kind(runaway.failsAtC! + 0.1)).toBe('runaway')
    const cooler = stageAt(
      makeStage(position, partsFor(position, power)),
      runaway.failsAtC! - 0.2,
      position.template.states[0],
      true,
    )
    if (cooler.kind !== 'point') throw new Error('no point')
    expect(cooler.point.loopGain).toBeGreaterThan(0.5)
    expect(cooler.point.loopGain).toBeLessThan(1)
    // the resistance that is named as the most it can stand: a little less rests, a little more runs away
    const most = cooler.point.mostKPerW!
    expect(most).toBeGreaterThan(20)
    const withRth = (rthKPerW: number) => {
      const part = { ...power, ratings: { ...power.ratings, rthKPerW } }
      return stageAt(makeStage(position, partsFor(position, part)), runaway.failsAtC! - 0.2).kind
    }
    expect([withRth(0.999 * most), withRth(1.001 * most)]).toEqual(['point', 'runaway'])
  })

  test('a part that hardly heats itself rests where the whole way of its heat has it', () => {
    for (const id of ['fixed-bias', 'divider', 'collector-feedback', 'follower']) {
      const position = positionOf(id)
      const s = makeStage(position, partsFor(position, transistor({ ratings: { rthKPerW: 400 } })))
      for (const t of [0, 25, 50]) {
        const [quick, whole] = [false, true].map((isWhole) => stageAt(s, t, position.template.states[0], isWhole))
        if (quick?.kind !== 'point' || whole?.kind !== 'point') throw new Error('no point')
        expect(quick.point.junctionC).toBeGreaterThan(t)
        expect(Math.abs(quick.point.junctionC - whole.point.junctionC)).toBeLessThan(1e-4)
        expect(Math.abs(quick.point.loopGain - whole.point.loopGain)).toBeLessThan(1e-4)
      }
    }
  })

  test('a switch that leaks does not switch off when it is hot', () => {
    const { RBE: _, ...ohm } = exampleOhm('switch')
    const position = positionOf('switch', { ohm, demands: { ...positionOf('switch').demands, toC: 60 } })
    const answer = stageAnswer(position, partsFor(position, transistor({ leakageA: exactly(2e-5) })))
    expect(answer.verdict).toMatchObject({ word: 'will not', limit: 'end off' })
    expect(stageAnswer(position, partsFor(position, transistor({ leakageA: exactly(5e-7) }))).verdict.word).toBe(
      'works',
    )
  })

  test('a detector of a leaky diode does not detect', () => {
    const position = positionOf('detector', { polarity: 'NPN' })
    const good = { ...diode, leakageA: exactly(2e-6) }
    expect(stageVerdict(position, { D1: good }).word).toBe('works')
    expect(stageVerdict(position, { D1: { ...diode, leakageA: exactly(2e-3) } })).toMatchObject({
      limit: 'end reverse',
    })
  })
})

test('the current of every place is found, for the numbers of published types', () => {
  const position = positionOf('push-pull', { polarity: 'NPN' })
  const parts = partsFor(position)
  const currents = placeCurrents(position, parts)
  expect(Object.keys(currents).sort()).toEqual(['Q1', 'Q2', 'Q3'])
  const outcome = stageAt(makeStage(position, parts), 25)
  expectRelative(currents.Q1!, outcome.kind === 'point' ? outcome.point.ic : Number.NaN, 1e-6, 'I_C')
})

describe('spread of many stages', () => {
  const position = positionOf('fixed-bias', { tolerance: { RB: 0.1 } })

  test('one tolerance alone: 95 % of the stages lie where its ends put them', () => {
    const spread = stageSpread(position, partsFor(position), [25], { count: 2000, seed: 3 })
    const at = (share: number): number => {
      const moved = positionOf('fixed-bias', { ohm: { ...position.ohm, RB: position.ohm.RB! * (1 + share) } })
      const outcome = stageAt(makeStage(moved, partsFor(moved)), 25)
      return outcome.kind === 'point' ? outcome.point.ic : Number.NaN
    }
    // uniform within +-10 %: 2.5 and 97.5 in the hundred stand at +-9.5 %
    expectRelative(spread.at[0]!.ic[0], at(0.095), 0.003, 'low')
    expectRelative(spread.at[0]!.ic[2], at(-0.095), 0.003, 'high')
    expectRelative(spread.at[0]!.ic[1], at(0), 0.006, 'middle')
  })

  test('the same seed gives the same, another seed another', () => {
    const run = (seed: number) => stageSpread(position, partsFor(position), [25], { count: 20, seed })
    expect(run(1)).toEqual(run(1))
    expect(run(1)).not.toEqual(run(2))
  })
})
