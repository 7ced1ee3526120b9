import { describe, expect, test } from 'vitest'
import { voltsPerKelvin2014 } from '#core/physics'
import { hasSimulator, simulated } from '#core/testing'
import reference from './cards.ref.json' with { type: 'json' }
import { type CardCase, cardCases, cardNetlist, cardTemperatures, cardVectors } from './cards.ref.ts'
import { operatingPoint, readNetlist } from './index.ts'

const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

/** The wanted agreement, and the digits a source's current has where it is the difference of node voltages. */
const wanted = 1e-4
const floor = 1e-12

const runs = cardCases.flatMap((c) => cardTemperatures.map((t) => ({ c, t, name: `${c.id} at ${t} degC` })))
const kept = reference.values as Readonly<Record<string, readonly number[]>>

/** What our solver has for each vector. */
function ours(c: CardCase, t: number): readonly number[] {
  const point = operatingPoint(readNetlist(cardNetlist(c, t)), { setting })
  expect(point.converged).toBe(true)
  return cardVectors(c).map((v) => {
    const name = v.slice(2, -1)
    return v.startsWith('i') ? -point.sourceCurrents[name.toUpperCase()]! : point.nodeVoltages[name]!
  })
}

/** Largest deviation over its allowance. */
function expectNear(got: readonly number[], values: readonly number[], vectors: readonly string[]): void {
  expect(got).toHaveLength(values.length)
  for (const [k, value] of values.entries()) {
    const off = Math.abs(got[k]! - value) / Math.max(wanted * Math.abs(value), floor)
    expect(off, `${vectors[k]}: ${got[k]} is not ${value}`).toBeLessThanOrEqual(1)
  }
}

describe('every DC parameter of a card as ngspice computes it', () => {
  test.each(runs)('$name', ({ c, t, name }) => expectNear(ours(c, t), kept[name]!, cardVectors(c)))
})

describe.runIf(hasSimulator())('ngspice here and now', () => {
  test.each(runs)('$name', ({ c, t }) => {
    const vectors = cardVectors(c)
    const values = simulated(cardNetlist(c, t), vectors)
    expectNear(
      ours(c, t),
      vectors.map((v) => values[v]!),
      vectors,
    )
  })
})
