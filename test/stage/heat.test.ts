import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { compileCircuit, readCircuit } from '#core/circuit'
import { voltsPerKelvin2014 } from '#core/physics'
import { type Position, type Stage, stageAt } from '#core/stage'
import { expectRelative } from '#core/testing'
import { dataDocument } from '#core/text'
import { positionOf, transistor } from './positions.ts'

/** Parts that heat themselves, by ngspice 39.3 and an independent search of their balances. */
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../src/core/circuit/self-heated.ref.json'), 'utf8'),
) as {
  cases: {
    id: string
    device: { polarity: string }
    drive: { kind: string; value?: number }
    vce: number
    results: { ambientC: number; rthKPerW: number; outcome: string; points: number[][]; fold: [number, number] }[]
  }[]
}

type Case = (typeof reference.cases)[number]

/** A stage that is nothing but the part between its sources. */
function stageOf({ device, drive, vce }: Case, ambientC: number, rthKPerW: number): Stage {
  const sign = device.polarity === 'pnp' ? -1 : 1
  const value = sign * (drive.value ?? 0)
  const base: Record<string, readonly object[]> = {
    'open-base': [],
    'fixed-ib': [{ kind: 'I', ref: 'DRIVE', nodes: ['0', 'b'], value }],
    'fixed-vbe': [{ kind: 'V', ref: 'DRIVE', nodes: ['b', '0'], value }],
  }
  const supply = { kind: 'V', ref: 'VC', nodes: ['c', '0'], value: sign * vce }
  const components = [supply, ...base[drive.kind]!, { kind: 'Q', ref: 'Q1', nodes: ['c', 'b', '0'] }]
  const circuit = readCircuit(dataDocument({ components, devices: { part: device } }))
  const bare = positionOf('fixed-bias')
  const position: Position = { ...bare, ohm: {}, template: { ...bare.template, sources: [], rooms: [] } }
  const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }
  const c = compileCircuit(circuit, { temperatureC: ambientC, setting })
  return { position, part: transistor({ ratings: { rthKPerW } }), c }
}

const cases = reference.cases.flatMap((one) =>
  one.results.map((r) => ({ name: `${one.id} at ${r.ambientC} degC, ${r.rthKPerW} K/W`, one, r })),
)

describe('a part rests or runs away as the independent search has it', () => {
  test('there are both', () => expect(new Set(cases.map(({ r }) => r.outcome))).toEqual(new Set(['stable', 'runaway'])))

  test.each(cases)('$name', ({ one, r }) => {
    const s = stageOf(one, r.ambientC, r.rthKPerW)
    for (const isWhole of [false, true]) {
      const outcome = stageAt(s, r.ambientC, s.position.template.states[0], isWhole)
      expect(outcome.kind).toBe(r.outcome === 'stable' ? 'point' : r.outcome)
      if (outcome.kind !== 'point') continue
      const [junctionC, ic, , , loopGain] = r.points[0]!
      expect(Math.abs(outcome.point.junctionC - junctionC!)).toBeLessThan(1e-4)
      expectRelative(outcome.point.ic, ic!, 1e-5, 'I_C')
      expectRelative(outcome.point.loopGain, loopGain!, 1e-4, 'loop gain')
      if (isWhole) expectRelative(outcome.point.mostKPerW!, r.fold[0], 1e-6, 'most heat resistance')
    }
  })
})
