import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { correlation, exact, leaf, standardUncertainty, term } from '#core/quantity'
import { dataDocument } from '#core/text'
import {
  type Circuit,
  compileCircuit,
  operatingPoint,
  readCircuit,
  readNetlist,
  readOutput,
  reset,
  sensitivity,
  setCard,
  setTemperature,
  setValue,
  solve,
  solveMany,
  sweepTemperature,
  throughCircuit,
  writeNetlist,
} from './index.ts'
import reference from './stages.ref.json' with { type: 'json' }

const stages = reference.stages.map((s) => ({
  id: s.id,
  circuit: readCircuit(dataDocument(s), s.results[0]!.assignment as unknown as Record<string, string>),
}))
const divider = stages.find((s) => s.id === 'b3-divider')!.circuit

/** Currents that leave each node, added up from the results alone. */
function nodeSums(circuit: Circuit): Readonly<Record<string, readonly [sum: number, size: number]>> {
  const p = operatingPoint(circuit)
  const v = (n: string): number => p.nodeVoltages[n] ?? 0
  const sums: Record<string, [number, number]> = {}
  const add = (node: string, a: number): void => {
    sums[node] ??= [0, 0]
    sums[node][0] += a
    sums[node][1] += Math.abs(a)
  }
  for (const c of circuit.components) {
    const [a = '', b = '', e = ''] = c.nodes
    if (c.kind === 'R') {
      add(a, (v(a) - v(b)) / c.value)
      add(b, (v(b) - v(a)) / c.value)
    } else if (c.kind === 'V') {
      add(a, -p.sourceCurrents[c.ref]!)
      add(b, p.sourceCurrents[c.ref]!)
    } else {
      const d = p.devices[c.ref]!
      const device = circuit.devices[d.device]!
      const s = device.kind === 'bipolar' && device.polarity === 'pnp' ? -1 : 1
      if (d.kind === 'diode') {
        add(a, d.if)
        add(b, -d.if)
      } else if (d.kind === 'bipolar') {
        add(a, s * d.ic)
        add(b, s * d.ib)
        add(e, -s * (d.ic + d.ib))
      }
    }
  }
  return sums
}

describe('operating points', () => {
  test.each(stages)("$id: Kirchhoff's current law holds at every node", ({ circuit }) => {
    for (const [node, [sum, size]] of Object.entries(nodeSums(circuit)))
      if (node !== '0') expect(Math.abs(sum) / size, node).toBeLessThan(1e-9)
  })

  test('passive networks turn into heat what their sources give', () =>
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(4), fc.nat(4), fc.double({ min: 1, max: 1e6, noNaN: true })), {
          minLength: 1,
          maxLength: 12,
        }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        (edges, volts) => {
          const chain = [0, 1, 2, 3].map((k) => ({
            kind: 'R' as const,
            ref: `C${k}`,
            nodes: [`${k}`, `${k + 1}`] as const,
            value: 1e3,
          }))
          const more = edges.map(([a, b, ohm], k) => ({
            kind: 'R' as const,
            ref: `R${k}`,
            nodes: [`${a}`, `${b}`] as const,
            value: ohm,
          }))
          const resistors = [...chain, ...more]
          const source = { kind: 'V' as const, ref: 'V', nodes: ['4', '0'] as const, value: volts }
          const p = operatingPoint({ title: 'network', components: [...resistors, source], devices: {} })
          const v = (n: string): number => p.nodeVoltages[n] ?? 0
          const heat = resistors.reduce((sum, r) => sum + (v(r.nodes[0]) - v(r.nodes[1])) ** 2 / r.value, 0)
          expect(heat).toBeCloseTo(volts * p.sourceCurrents.V!, 9)
        },
      ),
    ))

  test('a sweep of temperature gives the points that single solves give', () => {
    const swept = sweepTemperature(divider, [0, 25, 50])
    for (const p of swept) {
      const alone = operatingPoint(divider, { temperatureC: p.temperatureC })
      for (const [node, v] of Object.entries(alone.nodeVoltages)) expect(p.nodeVoltages[node]).toBeCloseTo(v, 9)
    }
  })

  test('a batch gives the points that single solves give, and allocates no outcome for them', () => {
    const got: number[] = []
    const outcome = solveMany(
      divider,
      40,
      (c, k) => {
        setValue(c, 'RC', 2000 + 20 * k)
        setTemperature(c, 283.15 + k)
      },
      (c) => got.push(c.x[c.nodeRow.get('c')!]!),
    )
    expect(outcome).toEqual({ solved: 40, failed: [] })
    for (const k of [0, 17, 39]) {
      const c = compileCircuit(divider)
      setValue(c, 'RC', 2000 + 20 * k)
      setTemperature(c, 283.15 + k)
      expect(solve(c).converged).toBe(true)
      expect(got[k]).toBeCloseTo(c.x[c.nodeRow.get('c')!]!, 9)
    }
  })

  test.each(stages)(
    '$id: values three times up or down, from -20 to 70 degC, are all found from nothing',
    ({ circuit }) => {
      const dice = new Random(7)
      const c = compileCircuit(circuit)
      for (let k = 0; k < 200; k++) {
        for (const p of circuit.components)
          if ('value' in p) setValue(c, p.ref, p.value * 3 ** (2 * dice.uniform() - 1))
        setTemperature(c, 253 + 90 * dice.uniform())
        reset(c)
        expect(solve(c).converged).toBe(true)
      }
    },
  )

  test('a node that nothing holds is told as data', () => {
    const r = { kind: 'R' as const, ref: 'R1', nodes: ['a', 'b'] as const, value: 1 }
    const p = operatingPoint({ title: 'floating', components: [r], devices: {} })
    expect(p.converged).toBe(false)
    expect(p.attempts.map((a) => a.method)).toEqual(['newton', 'gmin stepping', 'source stepping'])
    expect(['a', 'b']).toContain(p.attempts[0]!.worst)
  })
})

describe('sensitivities', () => {
  const asked = ['node:c', 'source:VCC', 'Q1.ic', 'Q1.ib', 'Q1.vbe']
  test.each(asked)('%s: the adjoint agrees with differences of whole solutions', (text) => {
    const c = compileCircuit(divider)
    solve(c)
    const { slopes } = sensitivity(c, readOutput(c, text))
    const at = (change: (c: ReturnType<typeof compileCircuit>) => void): number => {
      const other = compileCircuit(divider)
      change(other)
      solve(other)
      return sensitivity(other, readOutput(other, text)).value
    }
    const scale = Math.abs(sensitivity(c, readOutput(c, text)).value)
    for (const part of divider.components) {
      if (!('value' in part)) continue
      const h = Math.abs(part.value) * 1e-4
      const wanted =
        (at((o) => setValue(o, part.ref, part.value + h)) - at((o) => setValue(o, part.ref, part.value - h))) / (2 * h)
      expect(Math.abs(slopes[part.ref]! - wanted) * Math.abs(part.value)).toBeLessThan(1e-5 * scale)
    }
    const device = divider.devices[c.instances[0]!.name]!
    for (const [name, value] of Object.entries(device.card) as [string, number][]) {
      if (slopes[`Q1.${name}`] === undefined) continue
      const h = Math.abs(value) * 1e-3
      const wanted =
        (at((o) => setCard(o, 'Q1', { [name]: value + h })) - at((o) => setCard(o, 'Q1', { [name]: value - h }))) /
        (2 * h)
      expect(Math.abs(slopes[`Q1.${name}`]! - wanted) * Math.abs(value), name).toBeLessThan(3e-4 * scale)
    }
    const byT = (at((o) => setTemperature(o, 298.25)) - at((o) => setTemperature(o, 298.05))) / 0.2
    expect(Math.abs(slopes.temperature! - byT)).toBeLessThan(1e-5 * scale)
  })

  test('quantities pass through with their causes shared', () => {
    const vcc = leaf(-9, 'V', { kind: 'stated', what: 'supply' }, [term('cell', { label: 'cell', u: 0.05 })])
    const rc = leaf(3300, 'ohm', { kind: 'stated', what: 'R_C' }, [term('rc', { label: 'R_C', u: 33 })])
    const { quantities } = throughCircuit(divider, { VCC: vcc, RC: rc }, ['node:c', 'node:e'])
    const c = quantities['node:c']!
    const e = quantities['node:e']!
    expect(standardUncertainty(c)).toBeGreaterThan(0.01)
    expect(e.budget.map((t) => t.cause).sort()).toEqual(['cell', 'rc'])
    expect(Math.abs(correlation(c, e))).toBeGreaterThan(0.2)
    const sure = throughCircuit(divider, { VCC: exact(-9, 'V', 'supply') }, ['Q1.ic']).quantities['Q1.ic']!
    expect(standardUncertainty(sure)).toBe(0)
  })
})

describe('netlists', () => {
  test.each(stages)('$id: a netlist written and read again gives the same point', ({ circuit }) => {
    const again = readNetlist(writeNetlist(circuit))
    const one = operatingPoint(circuit)
    const two = operatingPoint(again)
    for (const [node, v] of Object.entries(one.nodeVoltages))
      expect(two.nodeVoltages[node.toLowerCase()]).toBeCloseTo(v, 9)
    expect(writeNetlist(readNetlist(writeNetlist(again)))).toBe(writeNetlist(again))
  })
})
