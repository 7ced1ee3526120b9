import { type Fault, FaultError, type Place } from '#core/fault'
import { checkWith, nearNames, type TextDocument } from '#core/text'
import { type Circuit, type Component, type Device, deviceKinds, leadsOf } from './circuit.ts'
import { type CircuitFile, type ComponentFile, circuitFileSchema, type DeviceFile } from './circuit-schema.ts'

/** Which device stands at which place, for files that offer several: `{ Q1: 'ge-pnp-af1' }`. */
export type Assignment = Readonly<Record<string, string>>

/**
 * Reads a circuit from a JSON or YAML document: `components` and `devices`, as docs/reference/circuits.md describes.
 *
 * @param assignment devices for components that do not name one; where one device fits, it is taken unasked
 * @throws {FaultError} every fault of the document together
 */
export function readCircuit(document: TextDocument, assignment: Assignment = {}): Circuit {
  const checked = checkWith(circuitFileSchema, document)
  if (!checked.ok) throw new FaultError(checked.faults)
  const file = checked.data
  const faults: Fault[] = []
  const devices = Object.fromEntries(Object.entries(file.devices).map(([name, d]) => [name, deviceOf(d)]))
  const components = file.components.map((c) => componentOf(c, devices, assignment, faults))
  const refs = components.map((c) => c.ref)
  faults.push(...repeatedNames(refs, (k) => ({ field: `components[${k}].ref` })), ...strayAssignments(file, assignment))
  if (faults.length > 0) throw new FaultError(faults)
  const title = file.title ?? file.id ?? 'circuit'
  const t = file.temperature_degC
  return { title, components, devices, ...(t === undefined ? {} : { temperatureC: t }) }
}

function deviceOf(d: DeviceFile): Device {
  if (d.polarity === undefined) {
    const parallel = d.external_parallel_ohm
    return { kind: 'diode', card: given(d.params), ...(parallel == null ? {} : { parallelOhm: parallel }) }
  }
  if (d.polarity === 'npn' || d.polarity === 'pnp') {
    const { rcb, rce } = ('external_leakage_ohm' in d ? d.external_leakage_ohm : undefined) ?? {}
    const leakOhm = { ...(rcb == null ? {} : { cb: rcb }), ...(rce == null ? {} : { ce: rce }) }
    return { kind: 'bipolar', polarity: d.polarity, card: given(d.params), leakOhm }
  }
  const polarity = d.polarity.startsWith('n') ? 'n' : 'p'
  if (d.polarity.endsWith('jf')) return { kind: 'jfet', polarity, card: given(d.params) }
  const { level, ...card } = d.params as { level?: number }
  return { kind: 'mosfet', polarity, card: given(card) }
}

/** Keys without a value taken out. */
const given = <T extends object>(card: T): { [K in keyof T]-?: number } =>
  Object.fromEntries(Object.entries(card).filter(([, v]) => v !== undefined)) as { [K in keyof T]-?: number }

function componentOf(
  c: ComponentFile,
  devices: Readonly<Record<string, Device>>,
  assignment: Assignment,
  faults: Fault[],
): Component {
  const nodes = inOrder(c, faults)
  const pair = [nodes[0]!, nodes[1]!] as const
  if (c.kind === 'B') return { kind: c.kind, ref: c.ref, nodes: pair, value: c.value, resistance: c.resistance }
  if (c.kind === 'R' || c.kind === 'V' || c.kind === 'I')
    return { kind: c.kind, ref: c.ref, nodes: pair, value: c.value }
  const kind = deviceKinds[c.kind]
  const fitting = Object.keys(devices).filter((d) => devices[d]!.kind === kind)
  const asked = assignment[c.ref] ?? c.device ?? (fitting.length === 1 ? fitting[0] : undefined)
  if (asked === undefined) faults.push(noDevice(c.ref, fitting))
  else if (!fitting.includes(asked)) faults.push(wrongDevice(c.ref, asked, kind, fitting))
  return { kind: c.kind, ref: c.ref, nodes, device: asked ?? '' }
}

/** Nodes in the usual order of leads, where the file names its pins in another. */
function inOrder(c: ComponentFile, faults: Fault[]): readonly string[] {
  if (c.pins === undefined) return c.nodes
  const leads = leadsOf[c.kind].slice(0, c.nodes.length)
  const pins = c.pins.map((p) => p.toUpperCase())
  if (pins.length === leads.length && leads.every((l) => pins.includes(l)))
    return leads.map((l) => c.nodes[pins.indexOf(l)]!)
  const problem = `are not the leads of ${c.ref}`
  const mend = `Write ${leads.join(', ')}, in the order of its nodes, or leave pins out.`
  faults.push({ code: 'bad-input', place: { field: `${c.ref}.pins` }, value: c.pins.join(', '), problem, mend })
  return c.nodes
}

const noDevice = (ref: string, fitting: readonly string[]): Fault => ({
  code: 'usage',
  problem: `${ref} names no device`,
  mend:
    fitting.length === 0
      ? 'Add one to devices that fits.'
      : `Assign one, such as ${ref}=${fitting[0]}. The file offers ${fitting.join(', ')}.`,
})

const wrongDevice = (ref: string, asked: string, kind: string, fitting: readonly string[]): Fault => ({
  code: 'not-found',
  what: `${kind} for ${ref}`,
  name: asked,
  near: nearNames(asked, fitting),
  mend: `The file offers ${fitting.join(', ') || 'none'}.`,
})

function strayAssignments(file: CircuitFile, assignment: Assignment): readonly Fault[] {
  const refs = file.components.flatMap((c) => (c.kind in deviceKinds ? [c.ref] : []))
  return Object.keys(assignment)
    .filter((r) => !refs.includes(r))
    .map((r) => ({ code: 'not-found', what: 'diode or transistor', name: r, near: nearNames(r, refs) }))
}

/** Names used twice. */
export function repeatedNames(refs: readonly string[], placeOf: (k: number) => Place): readonly Fault[] {
  const seen = new Set<string>()
  return refs.flatMap((value, k) => {
    const again = seen.has(value)
    seen.add(value)
    const problem = 'stands for two components'
    return again ? [{ code: 'bad-input' as const, place: placeOf(k), value, problem, mend: 'Rename one.' }] : []
  })
}
