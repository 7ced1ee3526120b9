import { describe, expect, test } from 'vitest'
import { sweepTemperature, writeNetlist } from '#core/circuit'
import { Random } from '#core/numeric'
import { type ESeries, nearestPreferred, preferredBetween } from '#core/resistor'
import {
  exactly,
  type PartNumbers,
  type Position,
  polarityAdvice,
  reBias,
  stageCircuit,
  type TransistorNumbers,
  turned,
} from '#core/stage'
import { expectRelative, hasSimulator, simulated } from '#core/testing'
import { exampleOhm, partsFor, positionOf, transistor } from './positions.ts'

/** A stage looked at by whole operating points, apart from the search: current at 25 degC, drift, V_CE. */
function looked(position: Position, part: PartNumbers) {
  const circuit = stageCircuit(position, partsFor(position, part))
  const { fromC, toC } = position.demands
  const points = sweepTemperature(circuit, [25, fromC, toC]).map((p) => {
    const q = p.devices[position.place]
    if (q?.kind !== 'bipolar') throw new Error('no point')
    return q
  })
  const ic = points[0]!.ic
  return { ic, drift: Math.max(...points.slice(1).map((q) => Math.abs(q.ic / ic - 1))), vce: points[0]!.vce }
}

const withOhm = (p: Position, ohm: Readonly<Record<string, number>>): Position => ({ ...p, ohm: { ...p.ohm, ...ohm } })

const changed = (changes: readonly { ref: string; toOhm: number }[]): Record<string, number> =>
  Object.fromEntries(changes.map((c) => [c.ref, c.toOhm]))

const silicon = (gain: number, more: Partial<TransistorNumbers> = {}): TransistorNumbers =>
  transistor({
    name: 'silicon',
    material: 'Si',
    gain: exactly(gain),
    leakageA: exactly(1e-9),
    surface: 1,
    vbeV: exactly(0.62),
    ...more,
  })

/** Every choice of values for the resistors that settle a stage, none changed among them, each with what it costs. */
function exhaustive(position: Position, part: PartNumbers, other: PartNumbers, series: ESeries, span: number) {
  const before = looked(position, part)
  const ladders = position.template.settles.map((ref) => {
    const ohm = position.ohm[ref]!
    return [ohm, ...preferredBetween(ohm / span, ohm * span, series).filter((r) => Math.abs(r / ohm - 1) > 1e-9)]
  })
  const all: { ohm: number[]; count: number; cost: number }[] = [{ ohm: [], count: 0, cost: 0 }]
  for (const values of ladders) {
    const grown = all.splice(0).flatMap((one) =>
      values.map((r, k) => ({
        ohm: [...one.ohm, r],
        count: one.count + (k === 0 ? 0 : 1),
        cost: one.cost + Math.abs(Math.log(r / values[0]!)),
      })),
    )
    all.push(...grown)
  }
  all.sort((a, b) => a.count - b.count || a.cost - b.cost)
  return all.find(({ ohm }) => {
    const values = Object.fromEntries(position.template.settles.map((ref, k) => [ref, ohm[k]!]))
    const circuit = withOhm(position, values)
    const got = looked(circuit, other)
    if (Math.abs(got.ic / before.ic - 1) > 0.05 || got.drift > before.drift * (1 + 1e-9) || got.vce < 0.2) return false
    // room of the signal, as the template has it: to saturation and to cut-off
    const load = position.template.id === 'follower' ? 'RE' : 'RC'
    const up = got.vce - (other.material === 'Ge' ? 0.2 : 0.3)
    const upBefore = before.vce - (part.material === 'Ge' ? 0.2 : 0.3)
    const swing = position.demands.swingV
    return (
      up >= Math.min(swing, upBefore) - 1e-9 &&
      got.ic * circuit.ohm[load]! >= 0.9 * Math.min(swing, before.ic * position.ohm[load]!)
    )
  })
}

describe('germanium to silicon', () => {
  test('fixed bias: one resistor, and the drift is far less', () => {
    const position = positionOf('fixed-bias')
    const got = reBias(position, partsFor(position), silicon(250))!
    expect(got.changes).toHaveLength(1)
    const { ref, toOhm } = got.changes![0]!
    expect(ref).toBe('RB')
    // by hand: I_C = h_FE (9 V - 0.62 V) / R_B, leakage of the germanium part counted in
    const byHand = (250 * (9 - 0.62)) / got.before.ic
    expect(Math.abs(Math.log(toOhm / byHand))).toBeLessThan(Math.log(1.15))
    expect(got.after!.drift).toBeLessThan(got.before.drift)
  })

  test('divider: the base stands half a volt higher afterwards', () => {
    const position = positionOf('divider')
    const got = reBias(position, partsFor(position), silicon(200))!
    const after = looked(withOhm(position, changed(got.changes!)), silicon(200))
    expectRelative(after.ic, got.before.ic, 0.05, 'I_C')
    expectRelative(after.ic, got.after!.ic, 1e-6, 'I_C said')
    expect(after.drift).toBeLessThanOrEqual(got.before.drift)
  })

  test('nothing is changed where nothing need be', () => {
    const position = positionOf('divider')
    expect(reBias(position, partsFor(position), transistor({ name: 'twin', gain: exactly(81) }))!.changes).toEqual([])
  })

  test('what no values can restore is said, with the nearest', () => {
    const position = positionOf('fixed-bias')
    const got = reBias(position, partsFor(position), transistor({ name: 'leaky', leakageA: exactly(9e-6) }))!
    expect(got.changes).toBeUndefined()
    expect(got.nearest!.after.drift).toBeGreaterThan(got.before.drift)
  })
})

/** A stage of its own for each number: template, values, the part it was made for, and another. */
function drawn(k: number) {
  const random = new Random(77, `position ${k}`)
  const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
  const id = ['fixed-bias', 'emitter-resistor', 'divider', 'collector-feedback', 'follower'][k % 5]!
  const ohm = Object.fromEntries(
    Object.entries(exampleOhm(id)).map(([ref, r]) => [ref, nearestPreferred(r * between(0.8, 1.25), 'E24')]),
  )
  const position = positionOf(id, { ohm })
  const gain = between(50, 110)
  const part = transistor({ gain: exactly(gain), leakageA: exactly(between(1e-6, 5e-6)) })
  const other =
    random.uniform() < 0.6
      ? silicon(between(80, 400))
      : transistor({ name: 'other', gain: exactly(gain * between(0.5, 2)), leakageA: exactly(between(1e-6, 5e-6)) })
  return { id, position, part, other }
}

describe('200 positions', () => {
  const all = Array.from({ length: 200 }, (_, k) => ({ k, ...drawn(k) }))
  const usable = all.filter(({ position, part }) => looked(position, part).vce > 0.3)
  const results = usable.map((one) => ({
    ...one,
    got: reBias(one.position, partsFor(one.position, one.part), one.other)!,
  }))

  test('as docs/reference/stage.md counts them', () => {
    const restored = results.filter((r) => r.got.changes !== undefined)
    expect([results.length, restored.length]).toEqual([200, 191])
  })

  test('where values are found, the current is within 5 % and drifts no more, by whole operating points', () => {
    const found = results.filter((r) => r.got.changes !== undefined)
    expect(found.length).toBeGreaterThan(100)
    for (const { position, part, other, got } of found) {
      const before = looked(position, part)
      const after = looked(withOhm(position, changed(got.changes!)), other)
      expect(Math.abs(after.ic / before.ic - 1)).toBeLessThanOrEqual(0.05 + 1e-6)
      expect(after.drift).toBeLessThanOrEqual(before.drift * (1 + 1e-6))
    }
  })

  test('where none are found, none exist: every value of every resistor was tried', () => {
    const none = results.filter((r) => r.got.changes === undefined)
    expect(none.length).toBeLessThan(0.1 * results.length)
    for (const { k, position, part, other } of none) {
      // three resistors of E24 would be a million stages; there is none of those
      expect(position.template.settles.length, `position ${k}`).toBeLessThanOrEqual(2)
      expect(exhaustive(position, part, other, 'E24', 10), `position ${k}`).toBeUndefined()
    }
  })

  const few = ['fixed-bias', 'emitter-resistor', 'collector-feedback']
  test.each([
    { stages: few, span: 4, count: 24 },
    { stages: ['divider', 'follower'], span: 2, count: 10 },
  ])('the change is the least there is, by a search of all values of E12: $stages', ({ stages, span, count }) => {
    const some = results.filter(({ id }) => stages.includes(id)).slice(0, count)
    expect(some.length).toBe(count)
    for (const { k, position, part, other } of some) {
      const got = reBias(position, partsFor(position, part), other, { series: 'E12', span })!
      const best = exhaustive(position, part, other, 'E12', span)
      if (best === undefined) expect(got.changes, `position ${k}`).toBeUndefined()
      else {
        const cost = got.changes!.reduce((sum, c) => sum + Math.abs(Math.log(c.toOhm / c.fromOhm)), 0)
        expect(got.changes!.length, `position ${k}`).toBe(best.count)
        expectRelative(cost, best.cost, 1e-9, `position ${k}`)
      }
    }
  })
})

describe.runIf(hasSimulator())('as ngspice computes them', () => {
  /** Collector current at 25 degC and drift, by ngspice. */
  function simulatedRest(position: Position, part: PartNumbers) {
    const circuit = stageCircuit(position, partsFor(position, part))
    const { fromC, toC } = position.demands
    const currents = [25, fromC, toC].map((temperatureC) => {
      const netlist = writeNetlist({ ...circuit, temperatureC, gminS: 1e-15 })
      return Math.abs(simulated(netlist, ['@q1[ic]'])['@q1[ic]']!)
    })
    const ic = currents[0]!
    return { ic, drift: Math.max(...currents.slice(1).map((i) => Math.abs(i / ic - 1))) }
  }

  test.each([1, 2, 3, 4, 5, 7, 8, 9])('position %i', (k) => {
    const { position, part, other } = drawn(k)
    const got = reBias(position, partsFor(position, part), other)!
    expect(got.changes).toBeDefined()
    const before = simulatedRest(position, part)
    const after = simulatedRest(withOhm(position, changed(got.changes!)), other)
    expectRelative(before.ic, got.before.ic, 1e-4, 'I_C before')
    expectRelative(after.ic, got.after!.ic, 1e-4, 'I_C after')
    expect(Math.abs(after.ic / before.ic - 1)).toBeLessThanOrEqual(0.05 + 1e-4)
    expect(after.drift).toBeLessThanOrEqual(before.drift * (1 + 1e-3))
  })
})

describe('the other polarity', () => {
  test('is advice: what to turn', () => {
    const position = positionOf('divider')
    expect(polarityAdvice(position, transistor({ polarity: 'PNP' }))).toEqual([])
    expect(polarityAdvice(position, transistor({ polarity: 'NPN' })).join(' ')).toMatch(/electrolytic.*battery/)
  })

  test('a turned stage does the same', () => {
    const position = positionOf('divider')
    const [a, b] = [looked(position, transistor()), looked(turned(position), transistor({ polarity: 'NPN' }))]
    expectRelative(b.ic, a.ic, 1e-9, 'I_C')
  })
})
