import type { Component, Device } from '#core/circuit'

/** A component as it stands in a stage of the other polarity: diodes, voltages and currents turned round. */
export function turnedComponent(c: Component): Component {
  if (c.kind === 'D') return { ...c, nodes: [...c.nodes].reverse() }
  return c.kind === 'V' || c.kind === 'I' || c.kind === 'B' ? { ...c, value: 0 - c.value } : c
}

/** A device of the other polarity with the same card; a diode has none, it is turned where it stands. */
export function turnedDevice(d: Device): Device {
  switch (d.kind) {
    case 'diode':
      return d
    case 'bipolar':
      return { ...d, polarity: d.polarity === 'npn' ? 'pnp' : 'npn' }
    case 'jfet':
      return { ...d, polarity: d.polarity === 'n' ? 'p' : 'n' }
    case 'mosfet':
      return { ...d, polarity: d.polarity === 'n' ? 'p' : 'n', card: { ...d.card, vto: 0 - (d.card.vto ?? 0) } }
  }
}
