import { printPlain, type Unit } from '#core/quantity'
import type { Circuit, Range } from '#core/tester'
import { unitOf } from './range-design.ts'

const text = (value: number, unit: Unit): string => printPlain(value, unit, { digits: 6, ascii: true })
const percent = (part: number): string => `${Number((part * 100).toPrecision(6))} %`

function circuitText(c: Circuit): string {
  switch (c.kind) {
    case 'shunt': {
      const contact = c.contactOhm > 0 ? `, contact: ${text(c.contactOhm, 'ohm')}` : ''
      return `{ kind: shunt, shunt: ${text(c.shuntOhm, 'ohm')}, tolerance: ${percent(c.tolerance)}${contact} }`
    }
    case 'universal':
      return `{ kind: universal, ring: ${text(c.ringOhm, 'ohm')}, tap: ${text(c.tapOhm, 'ohm')}, tolerance: ${percent(c.tolerance)} }`
    case 'multiplier':
      return `{ kind: multiplier, series: ${text(c.seriesOhm, 'ohm')}, tolerance: ${percent(c.tolerance)} }`
    default:
      return 'movement'
  }
}

/**
 * Ranges that were worked out, as they stand in the description of a tester.
 *
 * @example rangeText(designRanges(...)) // 'ranges:\n  - { id: 1 mA, fullScale: 1 mA, circuit: { kind: shunt, ... } }\n'
 */
export function rangeText(ranges: readonly Range[]): string {
  const lines = ranges.map((r) => {
    const fullScale = text(r.fullScale, unitOf(r))
    return `  - { id: ${fullScale}, fullScale: ${fullScale}, circuit: ${circuitText(r.circuit)} }`
  })
  return `ranges:\n${lines.join('\n')}\n`
}
