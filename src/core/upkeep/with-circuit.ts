import type { Circuit, Tester } from '#core/tester'

/** The tester with another circuit on one range; unchanged where the range is made otherwise. */
export const withCircuit = <K extends Circuit['kind']>(
  tester: Tester,
  range: string,
  kind: K,
  change: (c: Extract<Circuit, { kind: K }>) => Circuit,
): Tester => ({
  ...tester,
  ranges: tester.ranges.map((r) =>
    r.id === range && r.circuit.kind === kind
      ? { ...r, circuit: change(r.circuit as Extract<Circuit, { kind: K }>) }
      : r,
  ),
})
