import type { Circuit, Movement, Range, Tester } from '#core/tester'
import { ringSegments } from './range-design.ts'
import { around, partDefaults, type TesterPart } from './tester-part.ts'

type Ring = Extract<Circuit, { kind: 'universal' }>

const ringOf = (r: Range): Ring | undefined => (r.circuit.kind === 'universal' ? r.circuit : undefined)

/** The segments of a universal shunt, and the contacts that feed its taps. */
export function ringParts(m: Movement, ranges: readonly Range[]): readonly TesterPart[] {
  const segments = ringSegments(m, ranges).map((s): TesterPart => {
    const top = s.from === 'end' ? Number.POSITIVE_INFINITY : ringOf(ranges.find((r) => r.id === s.from)!)!.tapOhm
    const limits = ranges.filter((r) => r.id === s.from || r.id === s.to).map((r) => ringOf(r)!.tolerance)
    return {
      id: `ring ${s.to} to ${s.from}`,
      kind: 'segment',
      unit: 'ohm',
      nominal: s.ohm,
      allowed: around(s.ohm, Math.max(...limits)),
      how: s.ohm < 10 ? 'Four wires, ring opened at one end.' : 'From tap to tap, ring opened at one end.',
      load: { currentA: s.currentA },
      change: (t, ohm) => withSegment(t, top, ohm - s.ohm),
    }
  })
  const feeds = ranges
    .filter((r) => ringOf(r) !== undefined)
    .map((r): TesterPart => {
      const identity = (t: Tester): Tester => t
      return {
        id: `contact ${r.id}`,
        kind: 'contact',
        unit: 'ohm',
        nominal: 0,
        allowed: { max: Math.min(partDefaults.dropV / r.fullScale, 1) },
        how: 'Voltage across the switch contact at a known current; it feeds the tap and moves no reading.',
        change: identity,
      }
    })
  return [...segments, ...feeds]
}

/** The tester with a segment larger by some ohm: all taps at or above its top move, and every ring. */
const withSegment = (t: Tester, topOhm: number, by: number): Tester => ({
  ...t,
  ranges: t.ranges.map((r) => {
    const c = ringOf(r)
    if (c === undefined) return r
    const tapOhm = c.tapOhm >= topOhm * (1 - 1e-9) ? c.tapOhm + by : c.tapOhm
    return { ...r, circuit: { ...c, ringOhm: c.ringOhm + by, tapOhm } }
  }),
})
