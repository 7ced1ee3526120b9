import type { Circuit, Component, Device, DeviceComponent, ValueComponent } from '#core/circuit'
import type { NetlistFile } from './position-schema.ts'
import type { End, Fixed, Room, State, Template, TemplatePlace, TemplateResistor, TemplateSource } from './template.ts'
import { turnedComponent, turnedDevice } from './turn-device.ts'

/** A netlist as a stage, and what of a position follows from it. */
export interface NetlistStage {
  readonly template: Template
  readonly polarity: 'NPN' | 'PNP'
  /** Voltage of the first supply, or the highest of the drive where there is none, V. */
  readonly supplyV: number
  readonly ohm: Readonly<Record<string, number>>
}

/** What of a file and its circuit makes the stage, names found and checked. */
export interface NetlistPieces {
  readonly file: NetlistFile
  readonly circuit: Circuit
  readonly place: DeviceComponent
  readonly supplies: readonly ValueComponent[]
  readonly drive?: ValueComponent
  readonly loads: readonly ValueComponent[]
}

/** Makes a stage of a netlist: what stands in it is written down as in an NPN stage, as templates are. */
export function netlistStage(pieces: NetlistPieces): NetlistStage {
  const { file, circuit, place, supplies } = pieces
  const device = circuit.devices[place.device]
  const polarity = device?.kind === 'bipolar' && device.polarity === 'pnp' ? 'PNP' : 'NPN'
  const sign = polarity === 'PNP' ? -1 : 1
  const drives = Object.values(file.drive?.states ?? {})
  const supplyV = Math.abs(supplies[0]?.value ?? Math.max(...drives.map(Math.abs)))
  const resistors = circuit.components.flatMap((c) => (c.kind === 'R' ? [c] : []))
  const states = statesOf(file, sign * supplyV)
  const title = file.title ?? circuit.title
  const template: Template = {
    id: 'netlist',
    title: 'free netlist',
    says: title,
    supplyV,
    sources: sourcesOf(pieces, sign * supplyV),
    resistors: resistors.filter((r) => file.beta[r.ref] === undefined).map(resistorOf),
    thermistors: resistors.flatMap((r) => {
      const betaK = file.beta[r.ref]
      return betaK === undefined ? [] : [{ ...resistorOf(r), betaK }]
    }),
    places: placesOf(circuit, polarity),
    main: place.ref,
    states,
    rooms: roomsOf(pieces, polarity),
    ends: file.ends.map((e): End => ({ state: e.state, nodes: [...e.between], share: e.most, says: e.says })),
    settles: file.rebias ?? [],
    fixed: fixedOf(pieces, polarity),
  }
  return { template, polarity, supplyV, ohm: Object.fromEntries(resistors.map((r) => [r.ref, r.value])) }
}

const resistorOf = ({ ref, nodes, value }: ValueComponent): TemplateResistor => ({
  ref,
  nodes,
  ohm: value,
  role: 'resistor of the netlist',
})

function sourcesOf({ supplies, drive }: NetlistPieces, signedV: number): readonly TemplateSource[] {
  const ends = ({ ref, nodes: [node, minus] }: ValueComponent) => ({ ref, node, ...(minus === '0' ? {} : { minus }) })
  return [
    ...supplies.map((s) => ({ ...ends(s), ...(s.value === signedV ? {} : { share: s.value / signedV }) })),
    ...(drive === undefined ? [] : [{ ...ends(drive), isDriven: true }]),
  ]
}

function statesOf({ drive }: NetlistFile, signedV: number): readonly State[] {
  if (drive === undefined) return [{ name: 'at rest', drive: 0 }]
  return Object.entries(drive.states).map(([name, v]) => ({ name, drive: v / signedV }))
}

/** Diodes and bipolar transistors are places; those whose model has parameters have a device of their own. */
function placesOf({ components, devices }: Circuit, polarity: 'NPN' | 'PNP'): readonly TemplatePlace[] {
  return components.flatMap((c): readonly TemplatePlace[] => {
    if (c.kind !== 'D' && c.kind !== 'Q') return []
    const { ref, kind } = c
    const found = devices[c.device]!
    const own = Object.keys(found.card).length > 0 ? { device: asNpn(found, polarity) } : {}
    const nodes = kind === 'D' && polarity === 'PNP' ? [...c.nodes].reverse() : c.nodes
    const isOpposite = found.kind === 'bipolar' && found.polarity !== polarity.toLowerCase()
    const role = kind === 'D' ? 'diode' : 'transistor'
    return [{ ref, kind, nodes, role, ...own, ...(isOpposite ? { isOpposite } : {}) }]
  })
}

const asNpn = (d: Device, polarity: 'NPN' | 'PNP'): Device => (polarity === 'PNP' ? turnedDevice(d) : d)

/** All that is neither a resistor nor a place nor follows the supply. */
function fixedOf({ circuit, supplies, drive }: NetlistPieces, polarity: 'NPN' | 'PNP'): Fixed {
  const follows = new Set([...supplies, ...(drive === undefined ? [] : [drive])].map((s) => s.ref))
  const isFixed = (c: Component): boolean => !follows.has(c.ref) && c.kind !== 'R' && c.kind !== 'D' && c.kind !== 'Q'
  // places have their device under their own name: what is fixed must not meet it
  const nameOf = (model: string): string => `model ${model}`
  const components = circuit.components
    .filter(isFixed)
    .map((c) => ('device' in c ? { ...c, device: nameOf(c.device) } : c))
  const devices = Object.entries(circuit.devices).map(([model, d]) => [nameOf(model), asNpn(d, polarity)] as const)
  const { gminS } = circuit
  return {
    components: polarity === 'PNP' ? components.map(turnedComponent) : components,
    devices: Object.fromEntries(devices.filter(([name]) => components.some((c) => 'device' in c && c.device === name))),
    ...(gminS === undefined ? {} : { gminS }),
  }
}

/**
 * Room for the signal: as the file says, else what the transistor can still fall to its saturation and what is left over
 * each load.
 */
function roomsOf({ file, place, loads }: NetlistPieces, polarity: 'NPN' | 'PNP'): readonly Room[] {
  if (file.clipping !== undefined)
    return file.clipping.map(({ between: [a, b], transistor, says }) => ({
      name: `${a}-${b}`,
      nodes: polarity === 'PNP' ? [b, a] : [a, b],
      says,
      ...(transistor ? { isTransistor: true } : {}),
    }))
  if (place.kind === 'D' || (file.drive !== undefined && loads.length === 0)) return []
  const [c, , e] = place.nodes as [string, string, string]
  return [
    { nodes: [c, e], isTransistor: true, says: 'the collector bottoms' },
    ...loads.map((r) => ({
      nodes: loadNodes(r, c, e),
      says: `the transistor is cut off: nothing is left over ${r.ref}`,
    })),
  ]
}

/** Ends of a load in the direction of the current of an NPN transistor, where it stands at one of its leads. */
function loadNodes({ nodes: [a, b] }: ValueComponent, c: string, e: string): readonly [string, string] {
  return a === c || b === e ? [b, a] : [a, b]
}
