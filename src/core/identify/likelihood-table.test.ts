import { describe, expect, test } from 'vitest'
import { readNetlist } from '#core/circuit'
import type { BarePart } from './bare-part.ts'
import { leadCurve, pairsOf } from './lead-curve.ts'
import oracle from './lead-pairs.ref.json'
import { conditions, curvesOf, imaginedPart, waysOf, writePart } from './likelihood-table.ts'
import shipped from './likelihoods.gen.json'

/** One part of the oracle as we would draw it: its netlist, with the electrodes' nodes by lead. */
function partOf(lines: readonly string[]): BarePart {
  return readNetlist(['part', ...lines, '.end'].join('\n'))
}

/** Nodes of the oracle's netlists by the electrode at a lead. */
const nodeOf: Readonly<Record<string, string>> = {
  B: 'tb',
  C: 'tc',
  E: 'te',
  D: 'td',
  G: 'tg',
  S: 'ts',
  A: 'ta',
  K: 'tk',
  A1: 'ta',
  A2: 'tb',
}

describe('what flows between two leads', () => {
  // h02 latches or not, h07 has a cut lead of its own name
  const cases = oracle.cases.filter((c) => !['h02', 'h07'].includes(c.id))

  test.each(cases)('is that of ngspice 39: $id', (c) => {
    const part = partOf(c.netlist_lines)
    const node = (lead: number): string => nodeOf[(c.lead_map as Record<string, string>)[lead]!]!
    const electrodes = [1, 2, 3].map(node)
    const at25 = c.readings.find((r) => r.temperature_degC === 25)!
    for (const [plus, minus, v, i, state] of at25.rows as [number, number, number, number, string][]) {
      const curve = leadCurve(part, electrodes, { plus: node(plus), minus: node(minus) })
      if (state === 'compliance') expect(Math.abs(curve.leakA - i)).toBeLessThan(2e-12 + 0.005 * i)
      else expect(Math.abs(curve.volts[2]! - v)).toBeLessThan(2e-4)
    }
  })
})

describe('the table of likelihoods', () => {
  test('holds every kind with every fault, and nothing else', () =>
    expect(Object.keys(shipped.parts)).toEqual(conditions.map((c) => c.key)))

  test('is what the seeded draws give: a sample of it, made anew', () => {
    const parts: Readonly<Record<string, string>> = shipped.parts
    conditions.forEach((c, k) => {
      const n = (7 * k) % shipped.draws
      const made = { ...shipped, draws: 1, parts: { [c.key]: writePart(imaginedPart(c, shipped.seed, n)) } }
      const size = parts[c.key]!.length / shipped.draws
      const kept = { ...made, parts: { [c.key]: parts[c.key]!.slice(n * size, (n + 1) * size) } }
      for (let p = 0; p < waysOf(c.kind.electrodes.length); p++) {
        const [one, other] = [curvesOf(made, c, p)[0]!, curvesOf(kept, c, p)[0]!]
        one.volts.forEach((v, i) => {
          if (v === other.volts[i]) return
          expect(Math.abs(v - other.volts[i]!), `${c.key} ${n}, pair ${p}`).toBeLessThan(0.0011)
        })
        expect(Math.abs(Math.log10(one.leakA / other.leakA))).toBeLessThan(0.0021)
      }
    })
  })

  test('looks at every ordered pair', () => {
    expect(pairsOf(3)).toEqual([
      [0, 1],
      [0, 2],
      [1, 0],
      [1, 2],
      [2, 0],
      [2, 1],
    ])
    expect(pairsOf(2)).toHaveLength(2)
  })
})
