import { printPlain } from '#core/quantity'
import type { Supply, Tester } from '#core/tester'
import { around, partDefaults, type TesterPart } from './tester-part.ts'

/** Cells, resistors in series with the part under test, and the leads to it. */
export function supplyParts(t: Tester): readonly TesterPart[] {
  return [
    ...seriesParts(t),
    ...t.supplies.filter((s) => s.kind === 'cells').flatMap(cellParts),
    ...leadPart(t),
    ...fusePart(t),
  ]
}

const withSupply = (t: Tester, id: string, change: (s: Supply) => Supply): Tester => ({
  ...t,
  supplies: t.supplies.map((s) => (s.id === id ? change(s) : s)),
})

/** One resistor for all tests that have the same in the same supply. */
function seriesParts(t: Tester): readonly TesterPart[] {
  const found = new Map<string, TesterPart>()
  for (const { supply: id, seriesOhm } of t.tests) {
    const supply = t.supplies.find((s) => s.id === id)
    if (supply === undefined || seriesOhm === undefined || seriesOhm === 0) continue
    const most = Math.min(supply.maxA ?? Number.POSITIVE_INFINITY, t.limits.maxCurrentA)
    const topV = Math.max(supply.max ?? 0, ...supply.taps)
    const name = `series ${printPlain(seriesOhm, 'ohm', { ascii: true })} ${supply.id}`
    found.set(name, {
      id: name,
      kind: 'series',
      unit: 'ohm',
      nominal: seriesOhm,
      allowed: around(seriesOhm, partDefaults.series),
      how: 'Across the resistor, supply off.',
      load: { currentA: Math.min(most, topV / seriesOhm) },
      change: (was, ohm) => ({
        ...was,
        tests: was.tests.map((o) =>
          o.supply === supply.id && o.seriesOhm === seriesOhm ? { ...o, seriesOhm: ohm } : o,
        ),
      }),
    })
  }
  return [...found.values()]
}

function cellParts(s: Supply): readonly TesterPart[] {
  const cell: TesterPart = {
    id: `cell ${s.id}`,
    kind: 'cell',
    unit: 'V',
    nominal: s.cellV,
    // the description states a standard uncertainty; twice that holds nearly all
    allowed: around(s.cellV, 2 * s.tolerance),
    how: 'Voltage of the weakest cell at rest.',
    change: (t, cellV) =>
      withSupply(t, s.id, (was) => ({ ...was, taps: was.taps.map((v) => (v * cellV) / was.cellV), cellV })),
  }
  if (s.ohmPerCell === 0) return [cell]
  return [
    cell,
    {
      id: `inside ${s.id}`,
      kind: 'inside',
      unit: 'ohm',
      nominal: s.ohmPerCell,
      allowed: { max: partDefaults.inside * s.ohmPerCell },
      how: 'Resistance inside one cell, from the voltage of the set at rest and under a load.',
      change: (t, ohmPerCell) => withSupply(t, s.id, (was) => ({ ...was, ohmPerCell })),
    },
  ]
}

/** Both leads to the part together: what they lose is not seen by the meter. */
function leadPart(t: Tester): readonly TesterPart[] {
  const most = Math.max(0, ...t.ranges.filter((r) => r.measures === 'current').map((r) => r.fullScale))
  if (most === 0) return []
  return [
    {
      id: 'leads',
      kind: 'leads',
      unit: 'ohm',
      nominal: 0,
      allowed: { max: partDefaults.dropV / most },
      how: 'Both leads joined at their clips, four wires at the sockets.',
      change: (was) => was,
    },
  ]
}

/** A fuse in the leads: in series with the part, so that it lowers what cells drive and the meter never sees it. */
function fusePart({ fuse }: Tester): readonly TesterPart[] {
  if (fuse === undefined) return []
  return [
    {
      id: 'fuse',
      kind: 'fuse',
      unit: 'ohm',
      nominal: fuse.ohm,
      allowed: { max: partDefaults.fuse * fuse.ohm },
      how: 'From clip to clip, four wires, so that corroded caps count.',
      change: (was, ohm) => (was.fuse === undefined ? was : { ...was, fuse: { ...was.fuse, ohm } }),
    },
  ]
}
