import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { type Circuit, type Device, operatingPoint, readCircuit } from '#core/circuit'
import { FaultError } from '#core/fault'
import { voltsPerKelvin2014 } from '#core/physics'
import { stageCircuit, templateNamed, templates } from '#core/stage'
import { dataDocument } from '#core/text'
import { diode, exampleOhm, partsFor, positionOf, transistor } from './positions.ts'

/** Stages as ngspice 39.3 computes them, on invented devices; the file core/circuit is held to. */
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../src/core/circuit/stages.ref.json'), 'utf8'),
) as {
  stages: {
    id: string
    components: { ref: string; kind: string; value?: number }[]
    results: {
      temperature_degC: number
      assignment: Record<string, string>
      devices: Record<string, Record<string, number>>
      node_voltages: Record<string, number>
    }[]
  }[]
}

const template: Readonly<Record<string, string>> = {
  'b1-fixed-bias': 'fixed-bias',
  'b2-emitter-resistor': 'emitter-resistor',
  'b3-divider': 'divider',
  'b4-collector-feedback': 'collector-feedback',
  'b5-dc-pair': 'direct-pair',
  'b6-push-pull': 'push-pull',
  'b7-push-pull-diode': 'push-pull-diode',
}

const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

/** A position with values, and any part in each place. */
function made(id: string, polarity: 'NPN' | 'PNP', ohm: Readonly<Record<string, number>>, supplyV: number) {
  const position = positionOf(id, { polarity, ohm, supplyV })
  return {
    position,
    parts: partsFor(position, position.template.main.startsWith('D') ? diode : transistor({ polarity })),
  }
}

const cases = reference.stages.flatMap((s) =>
  s.results.map((r) => ({ name: `${s.id} ${Object.values(r.assignment).join(' ')} ${r.temperature_degC} degC`, s, r })),
)

describe('templates make the circuits ngspice was given', () => {
  test('every stage of the reference has its template', () =>
    expect(reference.stages.map((s) => template[s.id]).filter((t) => t === undefined)).toEqual([]))

  test.each(cases)('$name', ({ s, r }) => {
    const given = readCircuit(dataDocument(s), r.assignment)
    const values = Object.fromEntries(s.components.flatMap((c) => (c.kind === 'R' ? [[c.ref, c.value!]] : [])))
    const supply = s.components.find((c) => c.ref === 'VCC')!.value!
    const { position, parts } = made(template[s.id]!, supply > 0 ? 'NPN' : 'PNP', values, Math.abs(supply))
    const bare = stageCircuit(position, parts)
    // the reference's own devices stand in the places
    const devices: Record<string, Device> = Object.fromEntries(
      Object.entries(r.assignment).map(([ref, name]) => [ref, given.devices[name]!]),
    )
    const circuit: Circuit = { ...bare, devices }
    const point = operatingPoint(circuit, { temperatureC: r.temperature_degC, setting })
    expect(point.converged).toBe(true)
    for (const [node, v] of Object.entries(r.node_voltages))
      if (node in point.nodeVoltages)
        expect(Math.abs(point.nodeVoltages[node]! - v)).toBeLessThan(1e-4 * Math.abs(v) + 1e-9)
    for (const [ref, device] of Object.entries(r.devices))
      for (const [key, value] of Object.entries(device)) {
        const got = (point.devices[ref] as unknown as Record<string, number>)[key]!
        expect(Math.abs(got - value), `${ref}.${key}`).toBeLessThanOrEqual(1e-4 * Math.abs(value) + 1e-12)
      }
  })
})

describe('every template', () => {
  const both = templates.flatMap((t) => (['NPN', 'PNP'] as const).map((polarity) => ({ id: t.id, polarity })))

  test.each(both)('$id, $polarity: the example has an operating point at 0, 25 and 50 degC', ({ id, polarity }) => {
    const { position, parts } = made(id, polarity, exampleOhm(id), templateNamed(id).supplyV)
    for (const temperatureC of [0, 25, 50])
      expect(operatingPoint(stageCircuit(position, parts), { temperatureC }).converged).toBe(true)
  })

  test.each(both)('$id, $polarity: so it has without the resistors that may be left out', ({ id, polarity }) => {
    const t = templateNamed(id)
    const ohm = exampleOhm(id)
    for (const r of t.resistors) if (r.absent !== undefined) delete ohm[r.ref]
    const { position, parts } = made(id, polarity, ohm, t.supplyV)
    expect(operatingPoint(stageCircuit(position, parts)).converged).toBe(true)
  })

  test.each(templates.map((t) => t.id))('%s: PNP is NPN turned round', (id) => {
    const points = (['NPN', 'PNP'] as const).map((polarity) => {
      const { position, parts } = made(id, polarity, exampleOhm(id), templateNamed(id).supplyV)
      return operatingPoint(stageCircuit(position, parts)).nodeVoltages
    })
    for (const [node, v] of Object.entries(points[0]!)) expect(v + points[1]![node]!).toBeCloseTo(0, 6)
  })

  test.each(templates.map((t) => t.id))('%s names only nodes, resistors and states it has', (id) => {
    const t = templateNamed(id)
    const refs = [...t.resistors, ...t.thermistors].map((r) => r.ref)
    const nodes = new Set(['0', ...[...t.resistors, ...t.thermistors, ...t.places].flatMap((x) => x.nodes)])
    expect([...t.settles, ...(t.bias?.rb ?? []), ...(t.bias?.re ?? [])].filter((r) => !refs.includes(r))).toEqual([])
    expect([...t.rooms, ...t.ends].flatMap((r) => r.nodes).filter((n) => !nodes.has(n))).toEqual([])
    expect(t.places.some((p) => p.ref === t.main)).toBe(true)
    expect(t.ends.filter((e) => !t.states.some((s) => s.name === e.state))).toEqual([])
  })
})

test('a place wants a part of its kind and polarity', () => {
  const { position, parts } = made('divider', 'PNP', exampleOhm('divider'), 9)
  expect(() => stageCircuit(position, { ...parts, Q1: transistor({ polarity: 'NPN' }) })).toThrow(
    /turn the whole stage/,
  )
  expect(() => stageCircuit(position, { ...parts, Q1: diode })).toThrow(FaultError)
  expect(() => stageCircuit(position, {})).toThrow(/Nothing is said of the amplifier, Q1/)
})

test('an unknown template is named with those there are', () =>
  expect(() => templateNamed('dividr')).toThrow(/divider/))
