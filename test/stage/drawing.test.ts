import { describe, expect, test } from 'vitest'
import { levelsAt, makeStage, type Position, stageAt, type TemplateResistor, templates } from '#core/stage'
import { expectRelative } from '#core/testing'
import { pictureFile } from '#report/plot'
import { drawnNets, isDrawn, stageDrawing } from '#report/stage'
import { diode, partsFor, positionOf } from './positions.ts'

const polarities = ['NPN', 'PNP'] as const
const cases = templates.flatMap((t) => polarities.map((polarity) => ({ id: t.id, polarity })))
const filled = (p: Position) => (p.template.id === 'detector' ? partsFor(p, diode) : partsFor(p))
const levelsOf = (p: Position, t = 25) => levelsAt(makeStage(p, filled(p)), t)!

/** Every choice of the resistors that may be left out. */
function choices(p: Position): readonly Position[] {
  const free = p.template.resistors.filter((r) => r.absent !== undefined)
  return Array.from({ length: 2 ** free.length }, (_, bits) => {
    const left = free.filter((_, k) => (bits >> k) & 1).map((r) => r.ref)
    return { ...p, ohm: Object.fromEntries(Object.entries(p.ohm).filter(([ref]) => !left.includes(ref))) }
  })
}

/** Nodes that are one because the resistor between them is left out for a wire. */
function joinedNodes(p: Position): (node: string) => string {
  const wires = p.template.resistors.filter((r) => r.absent === 'wire' && p.ohm[r.ref] === undefined)
  const same = new Map<string, string>()
  const root = (n: string): string => (same.has(n) ? root(same.get(n)!) : n)
  for (const { nodes } of wires) if (root(nodes[0]) !== root(nodes[1])) same.set(root(nodes[0]), root(nodes[1]))
  return root
}

/** The node every lead is on, by the template alone: the list the solver is given. */
function templateNodes(p: Position): ReadonlyMap<string, string> {
  const node = joinedNodes(p)
  const { resistors, thermistors, places, sources } = p.template
  const there = (r: TemplateResistor): boolean => p.ohm[r.ref] !== undefined
  return new Map([
    ...[...resistors, ...thermistors]
      .filter(there)
      .flatMap((r) => r.nodes.map((n, i) => [`${r.ref}.${i}`, node(n)] as const)),
    ...places.flatMap((x) => x.nodes.map((n, i) => [`${x.ref}.${x.kind === 'Q' ? 'cbe'[i] : i}`, node(n)] as const)),
    ...sources.map((s) => [`${s.ref}.0`, node(s.node)] as const),
    ['earth', '0'],
  ])
}

describe('a drawing is the circuit that is solved', () => {
  test('every template has one', () => {
    expect(templates.length).toBeGreaterThan(9)
    expect(templates.filter((t) => !isDrawn({ template: t })).map((t) => t.id)).toEqual([])
  })

  test.each(templates.map((t) => t.id))('%s joins what the template joins, and nothing else', (id) => {
    for (const p of choices(positionOf(id))) {
      const nets = drawnNets(p)!
      const nodes = templateNodes(p)
      const leads = [...nodes.keys()]
      expect(leads.filter((lead) => !nets.has(lead))).toEqual([])
      expect([...nets.keys()].filter((lead) => lead !== 'VCC.1' && !nodes.has(lead))).toEqual([])
      for (const a of leads)
        for (const b of leads)
          expect(nets.get(a) === nets.get(b), `${a} and ${b}, ${JSON.stringify(p.ohm)}`).toBe(
            nodes.get(a) === nodes.get(b),
          )
      if (nets.has('VCC.1')) expect(nets.get('VCC.1')).toBe(nets.get('earth'))
    }
  })
})

describe('what is told in it', () => {
  test.each(cases)(
    "$id, $polarity: currents into every node add up to nothing (Kirchhoff's law)",
    ({ id, polarity }) => {
      const p = positionOf(id, { polarity })
      const { branchA } = levelsOf(p)
      const sums = new Map<string, number>()
      const sizes = new Map<string, number>()
      const add = (node: string, a: number): void => {
        sums.set(node, (sums.get(node) ?? 0) + a)
        sizes.set(node, Math.max(sizes.get(node) ?? 0, Math.abs(a)))
      }
      for (const r of [...p.template.resistors, ...p.template.thermistors]) {
        add(r.nodes[0], branchA[r.ref]!)
        add(r.nodes[1], -branchA[r.ref]!)
      }
      for (const { ref, kind, nodes } of p.template.places)
        if (kind === 'Q') for (const [k, lead] of ['c', 'b', 'e'].entries()) add(nodes[k]!, branchA[`${ref}.${lead}`]!)
        else {
          add(nodes[0]!, branchA[ref]!)
          add(nodes[1]!, -branchA[ref]!)
        }
      const driven = ['0', ...p.template.sources.map((s) => s.node)]
      const inner = [...sums.keys()].filter((n) => !driven.includes(n))
      expect(inner.length).toBeGreaterThan(0)
      for (const n of inner) expect(Math.abs(sums.get(n)!), n).toBeLessThan(1e-5 * sizes.get(n)! + 1e-12)
    },
  )

  test('voltages of a PNP stage stand below its common line, and its point is that of the solver', () => {
    const p = positionOf('divider')
    const levels = levelsOf(p)
    const outcome = stageAt(makeStage(p, partsFor(p)), 25)
    if (outcome.kind !== 'point') throw new Error('no point')
    expect(levels.nodeV.vcc).toBe(-9)
    expect(levels.nodeV.b).toBeLessThan(0)
    expectRelative(levels.nodeV.e! - levels.nodeV.c!, outcome.point.vce, 1e-9, 'V_CE')
    expectRelative(-levels.branchA['Q1.c']!, outcome.point.ic, 1e-9, 'I_C')
  })

  test.each(cases)('$id, $polarity: values, voltages and polarity can be read', ({ id, polarity }) => {
    const p = positionOf(id, { polarity, title: 'first <stage>' })
    const svg = stageDrawing(p, filled(p), levelsOf(p))!
    expect(svg).toContain('<title>first &lt;stage&gt;: ')
    expect(svg).toContain(polarity === 'PNP' ? 'common line, +' : 'common line, −')
    for (const ref of Object.keys(p.ohm)) expect(svg).toContain(`>${ref}`)
    expect(svg.match(/class="volt"/g)!.length).toBeGreaterThanOrEqual(2)
    expect(svg.match(/class="flow"/g)!.length).toBeGreaterThanOrEqual(1)
    for (const [, v] of svg.matchAll(/class="volt"[^>]*>([^<]*)</g))
      if (polarity === 'PNP' && id !== 'detector') expect(v).not.toMatch(/^[1-9]/)
    expect(svg).not.toContain('NaN')
    expect(svg).toContain('viewBox="0 0 356 ')
  })

  test('the arrow of the emitter turns with the polarity, and nothing else of the transistor', () => {
    const [npn, pnp] = polarities.map((polarity) => stageDrawing(positionOf('fixed-bias', { polarity }), {})!)
    const envelope = /<circle class="envelope"[^>]*>/.exec(npn!)![0]
    expect(pnp).toContain(envelope)
    const arrows = (svg: string): string => [...svg.matchAll(/class="solid"[^>]*>/g)].map((m) => m[0]).join()
    expect(arrows(npn!)).not.toBe(arrows(pnp!))
  })

  test('as a file of its own it carries its colours', () => {
    const p = positionOf('push-pull-diode')
    const file = pictureFile(stageDrawing(p, filled(p), levelsOf(p))!, 'dark')
    expect(file).toContain('xmlns="http://www.w3.org/2000/svg"')
    expect(file).not.toContain('var(--')
  })
})
