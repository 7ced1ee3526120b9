import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { readPosition, stageExampleYaml } from '#core/stage'
import { readYaml } from '#core/text'

const read = (text: string) => {
  const parsed = readYaml(text)
  if (!parsed.ok) throw new FaultError(parsed.faults)
  return readPosition(parsed.document)
}

const faultsOf = (text: string): string => {
  try {
    read(text)
  } catch (error) {
    if (error instanceof FaultError) return error.message
    throw error
  }
  return ''
}

describe('a position as people write it', () => {
  test('the example, with its defaults', () => {
    const { position, wanted } = read(stageExampleYaml)
    expect(position).toMatchObject({ supplyV: 9, ohm: { R1: 33e3, R2: 6800, RC: 2700, RE: 1000 }, place: 'Q1' })
    expect(position.tolerance.R1).toBe(0.1)
    expect(position.tolerance.RE).toBeCloseTo(0.05, 12)
    expect(position.demands).toEqual({ fromC: 0, toC: 50, sag: 0.2, ageing: 0.1, swingV: 0.5, drift: 0.5 })
    expect(wanted).toEqual({ Q1: { type: 'OC71' } })
  })

  test('a part in numbers, with its doubt', () => {
    const part = '{ material: Ge, gain: 80 +- 10, at: 2 mA, leakage: 4 uA, thermalResistance: 300 K/W }'
    const { wanted } = read(stageExampleYaml.replace('Q1: OC71', `Q1: ${part}`))
    const q = wanted.Q1!
    if (!('numbers' in q) || q.numbers.kind !== 'bipolar') throw new Error('no numbers')
    expect(q.numbers).toMatchObject({ polarity: 'PNP', gain: { low: 70, usual: 80, high: 90 }, atA: 2e-3 })
    expect(q.numbers.ratings).toEqual({ rthKPerW: 300 })
    // 0.15 V at 1 mA, V_T ln 2 more at 2 mA
    expect(q.numbers.vbeV.usual).toBeCloseTo(0.15 + 0.025693 * Math.LN2, 5)
  })

  test.each([
    ['stage: divider', 'stage: dividr', /dividr.*Did you mean divider/s],
    ['R2: 6.8 kohm', 'R22: 6.8 kohm', /R22[\s\S]*no value for R2, the divider/],
    ['supply: 9 V', 'supply: 9 A', /is a current/],
    ['Q1: OC71', 'Q7: OC71', /no place of this stage/],
    ['Q1: OC71', 'Q1: { material: Ge, leakage: 4 uA }', /neither a transistor nor a diode/],
    ['swing: 0.5 V', 'from: 60 C', /coldest air, 60 °C/],
    ['swing: 0.5 V', 'sag: 300 %', /is more than 0.9/],
  ])('%s -> %s is refused with its mend', (from, to, wanted) => {
    expect(stageExampleYaml).toContain(from)
    expect(faultsOf(stageExampleYaml.replace(from, to))).toMatch(wanted)
  })
})
