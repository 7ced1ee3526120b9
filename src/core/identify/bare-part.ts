import type { Component, Device } from '#core/circuit'

/**
 * What is inside a part, as a circuit whose outer nodes are named after the electrodes: `B`, `C`, `E`.
 * `isFired` has a thyristor found conducting, set off by the touch of the test leads.
 */
export interface BarePart {
  readonly components: readonly Component[]
  readonly devices: Readonly<Record<string, Device>>
  readonly isFired?: boolean
}

export const resistor = (ref: string, a: string, b: string, ohm: number): Component => ({
  kind: 'R',
  ref,
  nodes: [a, b],
  value: ohm,
})

/** A device between nodes, with the name of its component. */
export function device(ref: string, nodes: readonly string[], d: Device): BarePart {
  const kind = ({ diode: 'D', bipolar: 'Q', jfet: 'J', mosfet: 'M' } as const)[d.kind]
  return { components: [{ kind, ref, nodes, device: ref }], devices: { [ref]: d } }
}

/** Parts put together into one. */
export const together = (...parts: readonly BarePart[]): BarePart => ({
  components: parts.flatMap((p) => p.components),
  devices: Object.assign({}, ...parts.map((p) => p.devices)),
  isFired: parts.some((p) => p.isFired === true),
})

/** Resistors alone. */
export const wires = (...components: readonly Component[]): BarePart => ({ components, devices: {} })
