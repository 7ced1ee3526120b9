import type { Circuit, Component, Device } from './circuit.ts'
import { writeModelCard } from './model-card.ts'

/**
 * Writes a circuit as a netlist that SPICE programs read. A cell becomes a source and a resistor; leakage outside the
 * junctions becomes resistors of its own.
 */
export function writeNetlist(circuit: Circuit): string {
  const cards = circuit.components.flatMap((c) => elementCards(c, circuit.devices))
  const used = new Set(circuit.components.flatMap((c) => ('device' in c ? [c.device] : [])))
  const models = [...used].map((name) => writeModelCard(name, circuit.devices[name]!).trimEnd())
  const t = circuit.temperatureC
  const gmin = circuit.gminS
  return [
    `* ${circuit.title.replaceAll(/\s+/g, ' ')}`,
    ...cards,
    ...models,
    ...(t === undefined ? [] : [`.temp ${t}`]),
    ...(gmin === undefined ? [] : [`.options gmin=${gmin}`]),
    '.end',
    '',
  ].join('\n')
}

/** A reference that begins with its element letter, as SPICE asks. */
const named = (letter: string, ref: string): string => (ref.charAt(0).toUpperCase() === letter ? ref : letter + ref)

function elementCards(c: Component, devices: Readonly<Record<string, Device>>): readonly string[] {
  if (c.kind === 'B') {
    const inner = `${c.ref}_inner`
    const source = `V${c.ref} ${inner} ${c.nodes[1]} ${c.value}`
    return c.resistance === 0
      ? [`V${c.ref} ${c.nodes.join(' ')} ${c.value}`]
      : [source, `R${c.ref} ${c.nodes[0]} ${inner} ${c.resistance}`]
  }
  if (!('device' in c)) return [`${named(c.kind, c.ref)} ${c.nodes.join(' ')} ${c.value}`]
  const nodes = c.kind === 'M' && c.nodes.length === 3 ? [...c.nodes, c.nodes[2]!] : c.nodes
  const device = devices[c.device]!
  return [`${named(c.kind, c.ref)} ${nodes.join(' ')} ${c.device}`, ...leakCards(c.ref, nodes, device)]
}

function leakCards(ref: string, nodes: readonly string[], device: Device): readonly string[] {
  const [one, two, three] = nodes
  if (device.kind === 'diode')
    return device.parallelOhm === undefined ? [] : [`R${ref}LP ${one} ${two} ${device.parallelOhm}`]
  if (device.kind !== 'bipolar') return []
  const { cb, ce } = device.leakOhm ?? {}
  const cbCard = cb === undefined ? [] : [`R${ref}LCB ${one} ${two} ${cb}`]
  return ce === undefined ? cbCard : [...cbCard, `R${ref}LCE ${one} ${three} ${ce}`]
}
