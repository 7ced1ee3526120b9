import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { atTerminals, type Movement, readTester, testerExample } from '#core/tester'
import { expectRelative } from '#core/testing'
import { designRanges, ohmScale, rangeBudget, rangeText, ringSegments, swamped, swampingFor } from './index.ts'
import { errorAtFullScale } from './range-budget.ts'
import reference from './range-design.ref.json' with { type: 'json' }

const movement = (m: { fullScaleA: number; coilOhm: number }): Movement => ({
  ...m,
  copperPerK: 0.00393,
  atC: 20,
  classPercent: 2,
  zero: 'left',
  readable: 0.2,
})

type Network = (typeof reference.design)[number]

const designed = (n: Network) =>
  designRanges(
    movement(n.movement),
    n.ranges.map(([fullScale]) => ({ measures: n.measures as 'current', fullScale: fullScale! })),
    { tolerance: 0.01, contactOhm: 0, ...(n.ringOhm === undefined ? {} : { ringOhm: n.ringOhm }) },
  )

describe.each(reference.design)('$id', (n) => {
  const ranges = designed(n)

  test('has the parts with which the network simulator reaches full scale', () => {
    for (const [i, [, ohm]] of n.ranges.entries()) {
      const budget = rangeBudget(movement(n.movement), ranges[i]!, { temperaturesC: [10, 40], partPerK: 0 })
      expectRelative(budget.part!.ohm, ohm!, 1e-8)
      expect(Math.abs(errorAtFullScale(movement(n.movement), ranges[i]!, 20))).toBeLessThan(1e-12)
    }
  })

  test('has the pieces of its ring', () => {
    const pieces = ringSegments(movement(n.movement), ranges)
    expect(pieces.map((p) => Number(p.ohm.toPrecision(9)))).toEqual(
      (n.segments ?? []).map((ohm) => Number(ohm.toPrecision(9))),
    )
    expect(pieces.at(-1)?.to).toBe(n.segments === undefined ? undefined : 'common')
  })
})

/** The contact of the simulated shunts, 12 milliohm, was not allowed for: at 0.5 A it shows 6.66 % too much. */
test('a contact shows too much as the network simulator says', () => {
  const n = reference.design.find((d) => d.contactOhm > 0)!
  const shown = [1.000108e-4, 1.00064026e-4, 1.00330668e-4, 1.0133065e-4, 1.06663911e-4]
  for (const [i, r] of designed(n).entries()) {
    if (r.circuit.kind !== 'shunt') throw new Error('no shunt')
    const worn = { ...r, circuit: { ...r.circuit, contactOhm: n.contactOhm } }
    expectRelative(1 + errorAtFullScale(movement(n.movement), worn, 20), shown[i]! / n.movement.fullScaleA, 1e-8)
  }
})

describe('ohms', () => {
  const o = reference.ohms
  const wish = { midOhm: o.midOhm, emfV: o.emfV, cellOhm: o.cellOhm }

  test('has the parts of the simulated meter, at each cell', () => {
    const scale = ohmScale(movement(o.movement), { ...wish, emfSpanV: [1.1, 1.6] })
    expectRelative(scale.seriesOhm, o.seriesOhm, 1e-9)
    for (const c of o.cells) {
      const { adjusterSpanOhm } = ohmScale(movement(o.movement), { ...wish, emfSpanV: [c.emfV, c.emfV] })
      expectRelative(adjusterSpanOhm[0], c.adjusterOhm, 1e-8)
    }
  })

  test('marks stand where its needle stands, and a tired cell reads as wrong as it says', () => {
    const nominal = ohmScale(movement(o.movement), { ...wish, emfSpanV: [o.emfV, o.emfV] })
    for (const mark of nominal.marks) {
      const row = o.cells.find((c) => c.emfV === o.emfV)!.rows.find(([ohm]) => ohm === mark.ohm)
      if (row !== undefined) expectRelative(mark.fraction, row[1]!, 1e-8)
    }
    expectRelative(nominal.marks.find((m) => m.ohm === o.midOhm)!.fraction, 0.5, 1e-12)
    for (const c of o.cells) {
      const { spanError } = ohmScale(movement(o.movement), { ...wish, emfSpanV: [c.emfV, c.emfV] })
      for (const [ohm, , read] of c.rows)
        if (ohm! > 0) expect(Math.abs(read! / ohm! - 1 - spanError[0])).toBeLessThan(1e-7)
    }
  })

  test.each([[{ midOhm: 50_000 }], [{ midOhm: 0.5 }], [{ emfSpanV: [0.05, 1.6] as const }]])(
    '%j cannot be made',
    (change) =>
      expect(() => ohmScale(movement(o.movement), { ...wish, emfSpanV: [1.1, 1.6], ...change })).toThrow(FaultError),
  )
})

/** By hand: 100 uA and 1 kohm want 111.1 ohm for 1 mA; 20 K of copper are 7.86 %, of which 9/10 show. */
test('a shunted movement drifts with its copper, and less when it is swamped', () => {
  const m = movement({ fullScaleA: 1e-4, coilOhm: 1000 })
  const options = { temperaturesC: [10, 40] as const, partPerK: 0 }
  const wanted = [{ measures: 'current' as const, fullScale: 1e-3 }]
  const plain = rangeBudget(m, designRanges(m, wanted, { tolerance: 0.01, contactOhm: 0 })[0]!, options)
  const warm = plain.drift.find((d) => d.temperatureC === 40)!.error
  expectRelative(warm, 1 / (1 + 0.0786 * 0.9) - 1, 1e-9)
  const ohm = swampingFor(m, 0.0005)
  expectRelative(ohm, 1000 * (0.00393 / 0.0005 - 1), 1e-12)
  const s = swamped(m, ohm)
  expectRelative(s.copperPerK, 0.0005, 1e-12)
  const better = rangeBudget(s, designRanges(s, wanted, { tolerance: 0.01, contactOhm: 0 })[0]!, options)
  expectRelative(better.drift.at(-1)!.error, 1 / (1 + 0.01 * 0.9) - 1, 1e-9)
  expect(swampingFor(m, 0.01)).toBe(0)
})

test('limits are those of class, part, contact and temperature', () => {
  const m = movement({ fullScaleA: 1e-4, coilOhm: 1000 })
  const [r] = designRanges(m, [{ measures: 'current', fullScale: 0.1 }], { tolerance: 0.01, contactOhm: 0.02 })
  const { limits, worst, fullScale } = rangeBudget(m, r!, { temperaturesC: [10, 40], partPerK: 2e-5 })
  expect(limits.map((l) => l.cause)).toEqual(['class of the movement', 'shunt', 'contact', 'temperature'])
  expectRelative(
    worst,
    limits.reduce((s, l) => s + l.limit, 0),
    1e-12,
  )
  // 0.02 ohm of contact beside a shunt of 1000 / 999 ohm: what more of the current the coil of 1000 ohm then has
  const shareOf = (ohm: number): number => ohm / (1000 + ohm)
  expectRelative(limits[2]!.limit, shareOf(1000 / 999 + 0.02) / shareOf(1000 / 999) - 1, 1e-3)
  expect(fullScale.budget).toHaveLength(4)
})

/** By hand: I is in proportion to (R_m + tap + rest) / tap; 1 % more below the tap and 1 % less above it of 1000 + 10 + 990. */
test('the pieces of a ring count at their worst', () => {
  const m = movement({ fullScaleA: 1e-4, coilOhm: 1000 })
  const options = { tolerance: 0.01, contactOhm: 0, ringOhm: 1000 }
  const [r] = designRanges(m, [{ measures: 'current', fullScale: 0.02 }], options)
  const { limits } = rangeBudget(m, r!, { temperaturesC: [20, 20], partPerK: 0 })
  const pieces = limits.find((l) => l.cause === 'pieces of the ring')!
  expectRelative(pieces.limit, 2000 / 10 / ((1000 + 10.1 + 990 * 0.99) / 10.1) - 1, 1e-9)
})

test('ranges that were worked out stand in a description as they are', () => {
  const m = movement({ fullScaleA: 1e-4, coilOhm: 1100 })
  const wanted = [
    { measures: 'current', fullScale: 1e-4 },
    { measures: 'current', fullScale: 0.01 },
    { measures: 'voltage', fullScale: 15 },
  ] as const
  const [direct, shunt, volts] = designRanges(m, wanted, { tolerance: 0.01, contactOhm: 0.005 })
  const [ring] = designRanges(m, [{ measures: 'current', fullScale: 0.1 }], {
    tolerance: 0.005,
    contactOhm: 0,
    ringOhm: 2500,
  })
  const made = [direct!, shunt!, volts!, ring!]
  const whole = `${testerExample.replace(/^ranges:[\s\S]*$/m, '')}${rangeText(made)}gain: none
tests:
  - { reads: I_C, ranges: [10 mA, 100 mA] }
limits: { current: 1 A, voltage: 15 V }
`
  const read = readTester(whole, {})
  if (!read.ok) throw new FaultError(read.faults)
  for (const [i, r] of read.tester.ranges.entries()) {
    expect(r.circuit.kind).toBe(made[i]!.circuit.kind)
    expectRelative(r.fullScale, made[i]!.fullScale, 1e-12)
    expectRelative(atTerminals(r.circuit, 1e-4, 1100)!, made[i]!.fullScale, 1e-5)
  }
})

test.each([
  [{ measures: 'current', fullScale: 5e-5 }, {}],
  [{ measures: 'voltage', fullScale: 0.05 }, {}],
  [{ measures: 'current', fullScale: 1e-4 }, { ringOhm: 'least' }],
  [{ measures: 'current', fullScale: 2e-4 }, { ringOhm: 900 }],
  [{ measures: 'current', fullScale: 1e-3 }, { contactOhm: 500 }],
] as const)('%j with %j cannot be made of 100 uA and 1 kohm', (w, o) =>
  expect(() =>
    designRanges(movement({ fullScaleA: 1e-4, coilOhm: 1000 }), [w], { tolerance: 0.01, contactOhm: 0, ...o }),
  ).toThrow(FaultError),
)

test('whatever is designed reaches full scale, and a ring that just serves gives its lowest range the whole', () =>
  fc.assert(
    fc.property(
      fc.double({ min: 1e-5, max: 5e-3, noNaN: true }),
      fc.double({ min: 10, max: 5000, noNaN: true }),
      fc.array(fc.double({ min: 1.5, max: 1e5, noNaN: true }), { minLength: 1, maxLength: 5 }),
      fc.constantFrom(undefined, 'least' as const),
      (fullScaleA, coilOhm, factors, ringOhm) => {
        const m = movement({ fullScaleA, coilOhm })
        const wanted = factors.map((f) => ({ measures: 'current' as const, fullScale: f * fullScaleA }))
        const ranges = designRanges(m, wanted, {
          tolerance: 0.01,
          contactOhm: 0,
          ...(ringOhm === undefined ? {} : { ringOhm }),
        })
        for (const r of ranges) expectRelative(atTerminals(r.circuit, fullScaleA, coilOhm)!, r.fullScale, 1e-9)
        const whole = ringSegments(m, ranges).reduce((sum, s) => sum + s.ohm, 0)
        const [first] = ranges
        if (first!.circuit.kind === 'universal') expectRelative(whole, first!.circuit.ringOhm, 1e-6)
      },
    ),
  ))
