import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readYaml } from '#core/text'
import { cardShapes } from './circuit-schema.ts'
import { circuitExampleJson } from './example.ts'
import { readNetlist } from './netlist.ts'
import { operatingPoint } from './point.ts'
import { readCircuit } from './read-circuit.ts'

const page = readFileSync(new URL('../../../docs/reference/circuits.md', import.meta.url), 'utf8')

function exampleDocument() {
  const read = readYaml(circuitExampleJson)
  if (!read.ok) throw new Error('the example does not read')
  return read.document
}

/** The one block of a language. */
const block = (language: string): string => page.split(`\`\`\`${language}\n`)[1]!.split('```')[0]!

describe('the page on circuits', () => {
  test('shows the example', () => expect(block('json')).toBe(circuitExampleJson))

  test('tells of every parameter of every card what it is, in its words', () => {
    for (const [kind, shape] of Object.entries(cardShapes))
      for (const [name, field] of Object.entries(shape)) {
        const about = field.meta()?.description ?? field.unwrap().meta()?.description
        expect(page, `${kind} ${name}`).toContain(`\`${name.toUpperCase()}\` ${about}`)
      }
  })

  test('its netlist is the circuit of the example', () => {
    const a = operatingPoint(readCircuit(exampleDocument()), { temperatureC: 25 })
    const b = operatingPoint(readNetlist(block('spice')), { temperatureC: 25 })
    expect(a.converged && b.converged).toBe(true)
    // the netlist has the cell as source and resistor, and the leakage as a resistor of its own
    for (const node of ['b', 'c', 'e', 'neg']) expect(b.nodeVoltages[node]).toBeCloseTo(a.nodeVoltages[node]!, 9)
  })
})
