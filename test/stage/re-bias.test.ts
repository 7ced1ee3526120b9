import { describe, expect, test } from 'vitest'
import { writeNetlist } from '#core/circuit'
import { Random } from '#core/numeric'
import { nearestPreferred } from '#core/resistor'
import { exactly, type PartNumbers, type Position, polarityAdvice, reBias, stageCircuit, turned } from '#core/stage'
import { expectRelative, hasSimulator, simulated } from '#core/testing'
import { exampleOhm, partsFor, positionOf, transistor } from './positions.ts'
import { changed, hasRoom, leastOfAll, looked, silicon, withOhm } from './re-biased.ts'

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

  test('most of them are germanium parts for which silicon is to stand', () =>
    expect(results.filter((r) => r.other.material === 'Si').length).toBeGreaterThan(100))

  test('re-bias brings I_C within 5 % of nominal and no worse drift than before, by whole operating points', () => {
    for (const { k, position, part, other, got } of results) {
      if (got.changes === undefined) continue
      const before = looked(position, part)
      const after = looked(withOhm(position, changed(got.changes)), other)
      expect(Math.abs(after.ic / before.ic - 1), `position ${k}`).toBeLessThanOrEqual(0.05 + 1e-6)
      expect(after.drift, `position ${k}`).toBeLessThanOrEqual(before.drift * (1 + 1e-6))
    }
  })

  test('wherever such E24 values exist: where it finds none, every value of every resistor was tried in vain', () => {
    for (const { k, position, part, other, got } of results) {
      if (got.changes !== undefined) continue
      // three resistors of E24 would be a hundred thousand stages; none of those was left without
      expect(position.template.settles.length, `position ${k}`).toBeLessThanOrEqual(2)
      expect(leastOfAll({ position, part, other, series: 'E24', span: 10 }), `position ${k}`).toBeUndefined()
    }
  })

  const few = ['fixed-bias', 'emitter-resistor', 'collector-feedback']
  test.each([
    { series: 'E12', stages: few, span: 4, count: 24 },
    { series: 'E24', stages: few, span: 4, count: 24 },
    { series: 'E12', stages: ['divider', 'follower'], span: 2, count: 10 },
    { series: 'E24', stages: ['divider', 'follower'], span: 1.6, count: 6 },
  ] as const)(
    'the least change there is, by a search of all values: $series, $stages',
    ({ series, stages, span, count }) => {
      const some = results.filter(({ id }) => (stages as readonly string[]).includes(id)).slice(0, count)
      expect(some.length).toBe(count)
      for (const { k, position, part, other } of some) {
        const tried = { position, part, other, series, span }
        const got = reBias(position, partsFor(position, part), other, { series, span })!
        const best = leastOfAll(tried, hasRoom(tried))
        expect(got.changes?.length, `position ${k}`).toBe(best?.count)
        const cost = got.changes?.reduce((sum, c) => sum + Math.abs(Math.log(c.toOhm / c.fromOhm)), 0) ?? 0
        expect(Math.abs(cost - (best?.cost ?? 0)), `position ${k}`).toBeLessThan(1e-9)
      }
    },
  )
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
