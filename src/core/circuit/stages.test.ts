import { describe, expect, test } from 'vitest'
import { voltsPerKelvin2014 } from '#core/physics'
import { dataDocument } from '#core/text'
import { type Assignment, operatingPoint, readCircuit } from './index.ts'
import reference from './stages.ref.json' with { type: 'json' }

const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

const cases = reference.stages.flatMap((s) =>
  s.results.map((r) => {
    const who = Object.entries(r.assignment).map(([k, v]) => `${k}=${v}`)
    return { name: `${s.id} with ${who.join(' ')} at ${r.temperature_degC} degC`, stage: s, result: r }
  }),
)

/** Within 1e-4 of the value, and no less than 1e-12 A or V. */
function expectNear(got: number | undefined, wanted: number, what: string): void {
  const off = Math.abs((got ?? Number.POSITIVE_INFINITY) - wanted)
  expect(off / Math.max(1e-4 * Math.abs(wanted), 1e-12), `${what}: ${got} is not ${wanted}`).toBeLessThanOrEqual(1)
}

describe('stages as ngspice computes them', () => {
  test.each(cases)('$name', ({ stage, result }) => {
    const circuit = readCircuit(dataDocument(stage), result.assignment as unknown as Assignment)
    const point = operatingPoint(circuit, { temperatureC: result.temperature_degC, setting })
    expect(point.converged).toBe(true)
    for (const [node, v] of Object.entries(result.node_voltages)) expectNear(point.nodeVoltages[node], v, node)
    for (const [ref, i] of Object.entries(result.source_currents)) expectNear(point.sourceCurrents[ref], i, ref)
    for (const [ref, device] of Object.entries(result.devices))
      for (const [key, value] of Object.entries(device as Record<string, number>))
        expectNear((point.devices[ref] as unknown as Record<string, number>)[key], value, `${ref}.${key}`)
  })
})
