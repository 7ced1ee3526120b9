import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Device } from '#core/circuit'
import { FaultError } from '#core/fault'
import { reduceReadings } from '#core/reduce'
import { rehearse } from '#core/rehearsal'
import { planSheet } from '#core/sheet'
import { readingsCsv, readReadings } from '#core/tester'
import { anyPartType, anyTester } from '#core/testing'
import { knownParts } from './known-parts.ref.ts'

const transistor = (polarity: 'npn' | 'pnp', bf: number, cb: number, ce: number): Device => ({
  ...knownParts[polarity === 'npn' ? 'silicon' : 'germanium'].device,
  polarity,
  card: { ...knownParts[polarity === 'npn' ? 'silicon' : 'germanium'].device.card, bf },
  leakOhm: { cb, ce },
})

const log = (low: number, high: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp)

/** Parts from strong to hopeless, from tight to nearly shorted. */
const anyTransistor = fc.tuple(
  fc.constantFrom('npn' as const, 'pnp' as const),
  log(1, 2000),
  log(1e2, 1e9),
  log(1e2, 1e9),
)
const anyDiode = fc.tuple(log(1e-15, 1e-4), log(1e2, 1e9))

test('whatever tester, type and part: what is rehearsed reads back from a file and can be reduced', () => {
  let count = 0
  fc.assert(
    fc.property(anyTester, anyPartType, anyTransistor, anyDiode, fc.nat(1e6), (tester, type, q, [is, ak], seed) => {
      fc.pre(type.family === 'bjt' || type.family === 'diode')
      const device: Device =
        type.family === 'diode' ? { kind: 'diode', card: { is, n: 1.4, rs: 1 }, parallelOhm: ak } : transistor(...q)
      const sheet = planSheet(tester, type)
      const { readings, truths, leftOut } = rehearse(sheet, { part: 'X-1', device }, { seed, ambientC: 23 })
      const reads = sheet.steps.filter((s) => s.kind === 'read').length
      expect(readings.length + leftOut.length).toBe(reads)
      for (const t of truths) expect(t.value, t.symbol).not.toBeNaN()
      if (readings.length === 0) return
      count += readings.length
      const read = readReadings(readingsCsv(readings), { tester })
      if (!read.ok) throw new FaultError(read.faults)
      expect(read.readings.map((r) => r.shown)).toEqual(readings.map((r) => r.shown))
      reduceReadings(tester, read.readings)
    }),
    { numRuns: 300, seed: 11 },
  )
  expect(count).toBeGreaterThan(300)
}, 60_000)
