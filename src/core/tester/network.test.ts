import { describe, expect, test } from 'vitest'
import reference from './network.ref.json' with { type: 'json' }
import {
  atTerminals,
  burdenOf,
  drawnOf,
  nullDividerGain,
  nullRatioGain,
  ohmmeterCurrent,
  terminalOhm,
} from './network.ts'
import type { Circuit, Movement, Range } from './tester.ts'

/** The reference is printed to 9 significant digits. */
const close = (got: number, want: number): void =>
  expect(Math.abs(got - want), `${got} is not ${want}`).toBeLessThanOrEqual(1e-6 * Math.abs(want))

type Case = (typeof reference.cases)[number]

const movementOf = (c: Case): Movement => ({
  ...c.movement,
  copperPerK: 0,
  atC: 20,
  classPercent: 1,
  zero: 'left',
  readable: 0.2,
})

const circuitOf = (c: Case): Circuit => {
  const tolerance = 0.01
  if (c.kind === 'multiplier') return { kind: 'multiplier', seriesOhm: c.seriesOhm!, tolerance }
  if (c.kind === 'universal') return { kind: 'universal', ringOhm: c.ringOhm!, tapOhm: c.tapOhm!, tolerance }
  return { kind: 'shunt', shuntOhm: c.shuntOhm!, contactOhm: c.contactOhm!, tolerance }
}

describe.each(reference.cases.map((c) => [`${c.kind} of ${c.fullScale}`, c] as const))('%s', (_, c) => {
  test('the network simulator sends the same current through the movement', () => {
    const circuit = circuitOf(c)
    for (const [fraction, movementA] of c.rows)
      close(atTerminals(circuit, movementA!, c.movement.coilOhm)!, fraction! * c.fullScale)
  })

  test('the voltage across the movement follows', () => {
    for (const [, movementA, movementV] of c.rows) close(movementA! * c.movement.coilOhm, movementV!)
  })

  test('burden and load agree with it', () => {
    const circuit = circuitOf(c)
    const range: Range = {
      id: 'r',
      measures: c.kind === 'multiplier' ? 'voltage' : 'current',
      fullScale: c.fullScale,
      circuit,
    }
    for (const [fraction, movementA, movementV] of c.rows) {
      const applied = fraction! * c.fullScale
      if (c.kind === 'multiplier') close(drawnOf(range, movementOf(c), applied), movementA!)
      if (c.kind === 'shunt') close(burdenOf(range, movementOf(c), applied), movementV!)
      if (c.kind === 'universal') close(burdenOf(range, movementOf(c), applied), universalDrop(c, movementA!))
    }
  })
})

/** Voltage at the tap: movement and the rest of the ring in series, by way of the movement. */
const universalDrop = (c: Case, movementA: number): number => movementA * (c.movement.coilOhm + c.ringOhm! - c.tapOhm!)

test('a series ohmmeter with its zero adjuster across the movement', () => {
  for (const { rows, ...meter } of reference.ohmmeter)
    for (const [partOhm, movementA] of rows) close(ohmmeterCurrent({ ...meter, partOhm: partOhm! }), movementA!)
})

test('a gain nulled by equal drops is the ratio of the resistors, whatever the cell', () => {
  const { baseOhm, rows } = reference.nullRatio
  for (const [collectorOhm, shown, baseA, collectorA] of rows) {
    close(nullRatioGain(baseOhm, collectorOhm!), shown!)
    close(collectorA! / baseA!, shown!)
  }
})

test('a gain nulled against a divider depends on the base-emitter voltage taken for granted', () => {
  const { rows, ...bridge } = reference.nullDivider
  for (const [baseOhm, nominalV, shown, actualV, actual] of rows) {
    close(nullDividerGain({ ...bridge, baseOhm: baseOhm!, baseEmitterV: nominalV! }), shown!)
    close(nullDividerGain({ ...bridge, baseOhm: baseOhm!, baseEmitterV: actualV! }), actual!)
  }
})

test('circuits whose insides are unknown have no network', () => {
  const stated: Circuit = { kind: 'stated', ofReading: 0.01, ofRange: 0, counts: 2, step: 1e-7, burdenV: 0.2 }
  expect(atTerminals(stated, 1e-4, 1000)).toBeUndefined()
  expect(terminalOhm({ kind: 'unknown', assumed: 0.1, step: 1e-6 }, 1000)).toBeUndefined()
  const range: Range = { id: 'r', measures: 'current', fullScale: 2e-3, circuit: stated }
  expect(burdenOf(range, undefined, 1e-3)).toBeCloseTo(0.1, 12)
  const volts: Range = { ...range, measures: 'voltage', circuit: { ...stated, inputOhm: 1e7 } }
  expect(drawnOf(volts, undefined, 2)).toBeCloseTo(2e-7, 18)
})
