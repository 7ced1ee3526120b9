import type { Position } from '#core/stage'
import { type Layout, leadsAt, type Spot } from './layout.ts'

/** A straight piece of conductor, or a part seen as one. */
export type Segment = readonly [Spot, Spot]

/** What stands in the place of a lead that a position leaves out. */
export function absence(position: Position, ref: string): 'wire' | 'nothing' | undefined {
  const { template: t, ohm } = position
  const resistor = [...t.resistors, ...t.thermistors].find((r) => r.ref === ref)
  return resistor === undefined || ohm[ref] !== undefined ? undefined : (resistor.absent ?? 'nothing')
}

const piecesOf = (line: readonly Spot[]): readonly Segment[] => line.slice(1).map((to, i) => [line[i]!, to])

/** Conductors of a drawing: wires, and the parts that are but a wire there. */
export const conductors = (layout: Layout, position: Position): readonly Segment[] => [
  ...layout.wires.flatMap(piecesOf),
  ...layout.leads.filter((l) => absence(position, l.ref) === 'wire').map((l): Segment => [l.from, l.to]),
]

/** Every end that something has on the drawing, of parts and capacitors. */
function endsOf(layout: Layout, position: Position): readonly Spot[] {
  const { battery, drive } = layout
  return [
    ...layout.leads.filter((l) => absence(position, l.ref) === undefined).flatMap((l) => [l.from, l.to]),
    ...layout.transistors.flatMap((t) => Object.values(leadsAt(t))),
    ...layout.capacitors.flatMap((c) => [c.path[0]!, c.path.at(-1)!]),
    ...(battery === undefined ? [] : [battery.from, battery.to]),
    ...(drive?.to === undefined ? [] : [drive.at, drive.to]),
  ]
}

const same = (a: Spot, b: Spot): boolean => a[0] === b[0] && a[1] === b[1]

/** Whether a place lies on a straight piece; pieces go straight up, down or across. */
function isOn([x, y]: Spot, [[ax, ay], [bx, by]]: Segment): boolean {
  const inside = (v: number, a: number, b: number): boolean => v >= Math.min(a, b) && v <= Math.max(a, b)
  return inside(x, ax, bx) && inside(y, ay, by)
}

/** Places where three or more conductors meet, which carry a dot; wires that only cross do not. */
export function joints(layout: Layout, position: Position): readonly Spot[] {
  const wires = conductors(layout, position)
  const ends = [...wires.flat(), ...endsOf(layout, position)]
  const found: Spot[] = []
  for (const spot of ends) {
    const through = wires.filter((w) => isOn(spot, w) && !same(spot, w[0]) && !same(spot, w[1])).length
    const ending = ends.filter((e) => same(e, spot)).length
    if (2 * through + ending >= 3 && !found.some((f) => same(f, spot))) found.push(spot)
  }
  return found
}

/**
 * Which net every lead of every part is on, as the drawing joins them: `R1.0` and `R1.1` for its two ends, `Q1.c`, `VCC.0`.
 * Two leads have the same number where a wire joins them.
 */
export function netsOf(layout: Layout, position: Position): ReadonlyMap<string, number> {
  const wires = conductors(layout, position)
  const net = wires.map((_, i) => i)
  const root = (i: number): number => (net[i] === i ? i : root(net[i]!))
  const touch = (a: Segment, b: Segment): boolean => a.some((end) => isOn(end, b)) || b.some((end) => isOn(end, a))
  for (const [i, a] of wires.entries())
    for (const [j, b] of wires.entries()) if (i < j && touch(a, b)) net[root(j)] = root(i)
  const spots: Spot[] = []
  const netAt = (spot: Spot): number => {
    const wire = wires.findIndex((w) => isOn(spot, w))
    if (wire >= 0) return root(wire)
    const known = spots.findIndex((s) => same(s, spot))
    return wires.length + (known >= 0 ? known : spots.push(spot) - 1)
  }
  const { battery, drive } = layout
  const leads = layout.leads.filter((l) => absence(position, l.ref) === undefined)
  return new Map([
    ...leads.flatMap((l): [string, number][] => [
      [`${l.ref}.0`, netAt(l.from)],
      [`${l.ref}.1`, netAt(l.to)],
    ]),
    ...layout.transistors.flatMap((t) =>
      Object.entries(leadsAt(t)).map(([lead, spot]): [string, number] => [`${t.ref}.${lead}`, netAt(spot)]),
    ),
    ...(battery === undefined ? [] : ([['VCC.0', netAt(battery.from)]] as [string, number][])),
    ...(battery === undefined ? [] : ([['VCC.1', netAt(battery.to)]] as [string, number][])),
    ...(drive === undefined ? [] : ([['VIN.0', netAt(drive.at)]] as [string, number][])),
    ['earth', netAt(layout.earth)],
  ])
}
