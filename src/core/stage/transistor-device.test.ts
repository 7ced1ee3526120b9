import { describe, expect, test } from 'vitest'
import { type Circuit, type Component, operatingPoint } from '#core/circuit'
import { Random } from '#core/numeric'
import { expectRelative } from '#core/testing'
import { type DiodeNumbers, exactly, type TransistorNumbers } from './part-numbers.ts'
import { deviceOf, fitPoint, transistorDevice, usualValues } from './transistor-device.ts'

/** A drawer of invented parts, germanium and silicon, from tight to leaky. */
function drawn(k: number): TransistorNumbers {
  const random = new Random(11, `part ${k}`)
  const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
  const isGe = k % 2 === 0
  const atA = between(2e-4, 2e-2)
  return {
    kind: 'bipolar',
    name: `part ${k}`,
    polarity: k % 3 === 0 ? 'NPN' : 'PNP',
    material: isGe ? 'Ge' : 'Si',
    gain: exactly(between(15, 400)),
    atA,
    atV: between(2, 9),
    leakageA: exactly(isGe ? between(5e-7, 2e-5) : between(1e-10, 1e-7)),
    leakageAtV: between(2, 12),
    surface: k % 5 === 0 ? random.uniform() : isGe ? 0 : 1,
    vbeV: exactly((isGe ? 0.14 : 0.62) + 0.0257 * Math.log(atA / 1e-3) + 0.02 * random.uniform()),
    ratings: {},
    notes: [],
  }
}

const drawer = Array.from({ length: 40 }, (_, k) => drawn(k))

/** A part between sources, as a bench would measure it. */
function measured(n: TransistorNumbers, components: readonly Component[]) {
  const q: Component = { kind: 'Q', ref: 'Q1', nodes: ['c', 'b', '0'], device: 'part' }
  const circuit: Circuit = { title: n.name, components: [...components, q], devices: { part: deviceOf(n) } }
  const point = operatingPoint(circuit, { temperatureC: 25 })
  expect(point.converged).toBe(true)
  return point
}

const signed = (n: TransistorNumbers): number => (n.polarity === 'NPN' ? 1 : -1)

describe('a transistor from its numbers gives them back to the solver', () => {
  test.each(drawer)('$name: gain with leakage taken out, and V_BE', (n) => {
    const { collectorA, v } = fitPoint(n, usualValues(n))
    const leakA = n.leakageA.usual * (1 - n.surface + (n.surface * (n.atV - v)) / n.leakageAtV)
    const openA = (n.gain.usual + 1) * leakA
    const baseA = (collectorA - openA) / n.gain.usual
    const s = signed(n)
    const point = measured(n, [
      { kind: 'V', ref: 'VC', nodes: ['c', '0'], value: s * n.atV },
      { kind: 'I', ref: 'IB', nodes: ['0', 'b'], value: s * baseA },
    ])
    const q = point.devices.Q1!
    if (q.kind !== 'bipolar') throw new Error('no transistor')
    // no tester shows more than three digits of it
    expectRelative(q.ic, collectorA, 1e-5, 'I_C')
    expectRelative(q.vbe, n.vbeV.usual + 0.025693 * Math.log(collectorA / n.atA), 1e-3, 'V_BE')
    if (collectorA === n.atA) expectRelative(q.vbe, n.vbeV.usual, 1e-5, 'V_BE')
  })

  test.each(drawer)('$name: I_CBO with the emitter open', (n) => {
    const c: Circuit = {
      title: n.name,
      components: [
        { kind: 'V', ref: 'VC', nodes: ['c', '0'], value: signed(n) * n.leakageAtV },
        { kind: 'Q', ref: 'Q1', nodes: ['c', '0', 'e'], device: 'part' },
        { kind: 'R', ref: 'OPEN', nodes: ['e', '0'], value: 1e12 },
      ],
      devices: { part: deviceOf(n) },
    }
    const q = operatingPoint(c, { temperatureC: 25 }).devices.Q1!
    if (q.kind !== 'bipolar') throw new Error('no transistor')
    const { is, bf } = transistorDevice(n).card
    // V_BE and I_CBO may contradict each other: then the least the junction can leak is I_S / (B_F + 1)
    if (is / (bf + 1) < 0.999 * (1 - n.surface) * n.leakageA.usual)
      expectRelative(q.ic, n.leakageA.usual, 2e-4, 'I_CBO')
    else expect(q.ic).toBeGreaterThan(n.leakageA.usual)
  })

  test.each(['Ge', 'Si'] as const)('%s: leakage doubles every 10 K and gain rises 0.5 %/K near 25 degC', (material) => {
    const card = transistorDevice({
      ...drawn(material === 'Ge' ? 0 : 1),
      material,
      surface: 0,
      leakageA: exactly(1e-5),
    }).card
    const t = 298.15
    const slope = card.xti / t + card.eg / (8.617333e-5 * t * t)
    // common practice, as core/physics has it
    expectRelative(slope / card.nc - card.xtb / t, Math.LN2 / 10, 1e-5, 'leakage')
    expectRelative(card.xtb / t, 0.005, 1e-9, 'gain')
  })

  test('gains of the drawer differ by more than ten, its leakages by more than a hundred', () => {
    const span = (of: readonly number[]): number => Math.max(...of) / Math.min(...of)
    expect(span(drawer.map((n) => n.gain.usual))).toBeGreaterThan(10)
    expect(span(drawer.map((n) => n.leakageA.usual))).toBeGreaterThan(100)
  })
})

test('a diode from its numbers has its V_F and its leakage', () => {
  const d: DiodeNumbers = {
    kind: 'diode',
    name: 'invented point contact',
    material: 'Ge',
    forwardV: exactly(0.3),
    atA: 1e-3,
    leakageA: exactly(2e-5),
    leakageAtV: 10,
    ratings: {},
    notes: [],
  }
  const at = (nodes: readonly string[], source: Component) =>
    operatingPoint(
      {
        title: d.name,
        components: [source, { kind: 'D', ref: 'D1', nodes, device: 'd' }],
        devices: { d: deviceOf(d) },
      },
      { temperatureC: 25 },
    )
  const forward = at(['a', '0'], { kind: 'I', ref: 'I1', nodes: ['0', 'a'], value: 1e-3 }).nodeVoltages.a!
  // its leakage beside it takes 0.06 % of the 1 mA, which counts for n V_T / V_F of that
  expectRelative(forward, 0.3, 3e-4, 'V_F')
  const back = at(['0', 'k'], { kind: 'V', ref: 'V1', nodes: ['k', '0'], value: 10 }).sourceCurrents.V1!
  expectRelative(back, 2e-5, 1e-6, 'I_R')
})
