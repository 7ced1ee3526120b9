import { describe, expect, test } from 'vitest'
import { loadCatalog, sampleTester } from '#catalog'
import { type Component, type Device, operatingPoint } from '#core/circuit'
import { needType } from '#core/device'
import { lawMaterial, reduceReadings } from '#core/reduce'
import { rehearse, specimen } from '#core/rehearsal'
import { planSheet } from '#core/sheet'
import { deviceOf, measuredNumbers, type TransistorNumbers, typeNumbers } from '#core/stage'
import { knownParts } from '../rehearsal/known-parts.ref.ts'

const types = await loadCatalog()
const known = types.filter((t) => (t.family === 'bjt' || t.family === 'diode') && lawMaterial(t) !== undefined)

describe('numbers of a published type', () => {
  test('as its record says: gain, its current, and the leakage', () => {
    const oc71 = needType(types, 'OC71').partType
    const n = typeNumbers(oc71) as TransistorNumbers
    expect(n).toMatchObject({
      polarity: 'PNP',
      material: 'Ge',
      gain: { low: 30, usual: 47, high: 75 },
      atA: 3e-3,
      atV: 2,
    })
    expect(n.leakageA.high).toBe(1.3e-5)
    expect(n.ratings).toMatchObject({ currentA: 0.01, junctionMaxC: 75 })
    // its record: R_th 0.4 degC/mW; (75 - 25) / 125 mW
    expect(n.ratings.rthKPerW).toBeCloseTo(400, 6)
    expect(n.notes.join(' ')).toMatch(/No V_BE is published/)
  })

  test('the gain published nearest to the current of the stage is taken', () => {
    const two = types.find(
      (t) => t.family === 'bjt' && lawMaterial(t) && t.limits.filter((l) => l.symbol === 'h_FE' && l.at.I_C).length > 1,
    )!
    const currents = two.limits.flatMap((l) => (l.symbol === 'h_FE' && l.at.I_C ? [l.at.I_C] : []))
    for (const a of currents) expect((typeNumbers(two, a) as TransistorNumbers).atA).toBe(a)
  })

  test('every transistor and diode of the catalog has numbers that make a device', () => {
    expect(known.length).toBeGreaterThan(150)
    for (const t of known) {
      const n = typeNumbers(t)
      const spreads = n.kind === 'diode' ? [n.forwardV, n.leakageA] : [n.gain, n.leakageA, n.vbeV]
      for (const s of spreads) expect(s.low > 0 && s.low <= s.usual && s.usual <= s.high, t.type).toBe(true)
      const values = Object.values(deviceOf(n).card)
      expect(
        values.every((v) => Number.isFinite(v) && v >= 0),
        t.type,
      ).toBe(true)
    }
  })
})

/** A stage with a divider, as the truth sees it and as the measurement does. */
function stage(device: Device, polarity: 'npn' | 'pnp'): number {
  const s = polarity === 'npn' ? 1 : -1
  const r = (ref: string, a: string, b: string, value: number): Component => ({ kind: 'R', ref, nodes: [a, b], value })
  const point = operatingPoint({
    title: 'divider',
    components: [
      { kind: 'V', ref: 'VCC', nodes: ['vcc', '0'], value: 9 * s },
      r('R1', 'vcc', 'b', 33e3),
      r('R2', 'b', '0', 6800),
      r('RC', 'vcc', 'c', 2700),
      r('RE', 'e', '0', 1000),
      { kind: 'Q', ref: 'Q1', nodes: ['c', 'b', 'e'], device: 'q' },
    ],
    devices: { q: device },
  })
  const q = point.devices.Q1!
  if (q.kind !== 'bipolar') throw new Error('no transistor')
  return q.ic
}

describe('a part measured on a tester, with a truth that is known', () => {
  test.each(['germanium', 'silicon'] as const)('%s: 20 parts, and what the stage does with them', (name) => {
    const tester = sampleTester('larkfield')!
    const { type: typeName, device } = knownParts[name]
    const type = needType(types, typeName).partType
    const sheet = planSheet(tester, type)
    const errors = Array.from({ length: 20 }, (_, k) => {
      const truth = specimen(device, { spread: 0.3, seed: 5, name: `part ${k}` })
      const { readings } = rehearse(sheet, { part: 'P', device: truth }, { seed: k })
      const [result] = reduceReadings(sheet.tester, readings, { types: () => type })
      const numbers = measuredNumbers('P', type, result!.parameters)
      const polarity = device.kind === 'bipolar' ? device.polarity : 'npn'
      return stage(deviceOf(numbers), polarity) / stage(truth, polarity) - 1
    })
    const worst = Math.max(...errors.map(Math.abs))
    expect(worst).toBeLessThan(0.15)
  })
})
