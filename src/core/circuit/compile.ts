import { FaultError } from '#core/fault'
import { type DeviceSetting, deviceSettingDefaults, kelvin } from '#core/physics'
import { type Circuit, deviceKinds, isGround } from './circuit.ts'
import { type Instance, instanceOf, warm } from './instance.ts'

/** A circuit made ready to be solved many times: rows, typed arrays and devices, all reused. */
export interface Compiled {
  readonly circuit: Circuit
  readonly setting: DeviceSetting
  temperatureK: number
  /** Node and inner node names by row, then branches of sources. */
  readonly rowNames: readonly string[]
  readonly nodeRow: ReadonlyMap<string, number>
  /** Rows in use, and how many of them are nodes. */
  readonly n: number
  readonly nodes: number
  readonly resistors: Linear
  readonly currents: Linear
  /** Sources and cells; `extra` is a cell's resistance, `rows` their branch rows. */
  readonly sources: Linear & { readonly extra: Float64Array; readonly rows: Int32Array }
  readonly instances: readonly Instance[]
  /** Solution: voltages and branch currents, the common node last at 0. */
  readonly x: Float64Array
  readonly step: Float64Array
  readonly fixed: Float64Array
  readonly rhs: Float64Array
  readonly matrix: Float64Array
  readonly order: Int32Array
  /** Whether values changed since `fixed` was made. */
  isStale: boolean
}

/** Two-lead components with their values, by place. */
export interface Linear {
  readonly refs: readonly string[]
  readonly a: Int32Array
  readonly b: Int32Array
  readonly value: Float64Array
}

export interface CompileOptions {
  /** Temperature of all parts, degC. */
  readonly temperatureC?: number
  readonly setting?: DeviceSetting
}

/** Temperature of a circuit whose file asks for none, degC. */
export const circuitDefaults = { temperatureC: 25 } as const

/**
 * Makes a circuit ready to be solved.
 *
 * @throws {FaultError} where a component's device is not among those of the circuit or of another kind
 */
export function compileCircuit(circuit: Circuit, options: CompileOptions = {}): Compiled {
  const gminS = circuit.gminS ?? deviceSettingDefaults.gminS
  const setting = options.setting ?? { ...deviceSettingDefaults, gminS }
  const names: string[] = []
  const nodeRow = new Map<string, number>()
  const give = (name: string): number => names.push(name) - 1
  for (const c of circuit.components)
    for (const node of c.nodes) if (!isGround(node) && !nodeRow.has(node)) nodeRow.set(node, give(node))
  const row = (node: string): number => nodeRow.get(node) ?? -1
  const instances = instancesOf(circuit, { row, inner: give })
  const nodes = names.length
  const branches = circuit.components.filter((c) => c.kind === 'V' || c.kind === 'B')
  const rows = Int32Array.from(branches.map((c) => give(c.ref)))
  const n = names.length
  const of = (kinds: string): Linear => linear(circuit, kinds, (node) => nodeRow.get(node) ?? n)
  for (const i of instances) for (let k = 0; k < i.size; k++) if (i.at[k]! < 0) i.at[k] = n
  const extra = Float64Array.from(branches.map((c) => (c.kind === 'B' ? c.resistance : 0)))
  const compiled: Compiled = {
    circuit,
    setting,
    temperatureK: kelvin(options.temperatureC ?? circuit.temperatureC ?? circuitDefaults.temperatureC),
    rowNames: names,
    nodeRow,
    n,
    nodes,
    resistors: of('R'),
    currents: of('I'),
    sources: { ...of('VB'), extra, rows },
    instances,
    x: new Float64Array(n + 1),
    step: new Float64Array(n + 1),
    fixed: new Float64Array((n + 1) * (n + 1)),
    rhs: new Float64Array(n + 1),
    matrix: new Float64Array((n + 1) * (n + 1)),
    order: new Int32Array(n),
    isStale: true,
  }
  setTemperature(compiled, compiled.temperatureK)
  return compiled
}

function instancesOf(circuit: Circuit, give: Parameters<typeof instanceOf>[4]): readonly Instance[] {
  return circuit.components.flatMap((c) => {
    if (!('device' in c)) return []
    const device = circuit.devices[c.device]
    if (device === undefined || device.kind !== deviceKinds[c.kind])
      throw new FaultError({
        code: 'not-found',
        what: `${deviceKinds[c.kind]} device for ${c.ref}`,
        name: c.device,
        near: Object.keys(circuit.devices).filter((d) => circuit.devices[d]!.kind === deviceKinds[c.kind]),
      })
    return [instanceOf(c.ref, c.device, device, c.nodes, give)]
  })
}

function linear(circuit: Circuit, kinds: string, row: (node: string) => number): Linear {
  const all = circuit.components.flatMap((c) => ('value' in c && kinds.includes(c.kind) ? [c] : []))
  return {
    refs: all.map((c) => c.ref),
    a: Int32Array.from(all.map((c) => row(c.nodes[0]))),
    b: Int32Array.from(all.map((c) => row(c.nodes[1]))),
    value: Float64Array.from(all.map((c) => c.value)),
  }
}

/** Brings all parts to one temperature, K. */
export function setTemperature(c: Compiled, temperatureK: number): void {
  c.temperatureK = temperatureK
  for (const i of c.instances) warm(i, temperatureK, c.setting)
}

/**
 * Brings one diode or transistor to a temperature of its own, K; `setTemperature` takes it back.
 *
 * @throws {FaultError} `not-found` where no such device is in the circuit
 */
export const setPartTemperature = (c: Compiled, ref: string, temperatureK: number): void =>
  warm(instanceNamed(c, ref), temperatureK, c.setting)

/** Where a component's value is kept: set it, and mark the circuit stale. */
export function valuePlace(c: Compiled, ref: string): { readonly in: Float64Array; readonly at: number } | undefined {
  for (const list of [c.resistors, c.currents, c.sources]) {
    const at = list.refs.indexOf(ref)
    if (at >= 0) return { in: list.value, at }
  }
  return undefined
}

/**
 * Gives a component another value: ohm, V or A.
 *
 * @throws {FaultError} `not-found` where no such component has a value
 */
export function setValue(c: Compiled, ref: string, value: number): void {
  const place = valuePlace(c, ref)
  if (place === undefined)
    throw new FaultError({ code: 'not-found', what: 'component with a value', name: ref, near: [] })
  if (place.in[place.at] === value) return
  place.in[place.at] = value
  c.isStale = true
}

/** The device of a component, or a fault. */
export function instanceNamed(c: Compiled, ref: string): Instance {
  const found = c.instances.find((i) => i.ref === ref)
  if (found !== undefined) return found
  throw new FaultError({ code: 'not-found', what: 'device', name: ref, near: c.instances.map((i) => i.ref) })
}

/**
 * Gives the device of a component other card parameters. A series resistance can change, but not begin or end: 0 stays
 * 0, and another value must stay above 0.
 *
 * @throws {FaultError} `not-found` where no such device is in the circuit
 */
export function setCard(c: Compiled, ref: string, changes: Readonly<Record<string, number>>): void {
  const i = instanceNamed(c, ref)
  i.card = { ...i.card, ...changes }
  warm(i, c.temperatureK, c.setting)
}

/** Matrix and right side of the linear components, made anew where a value changed. */
export function refresh(c: Compiled): void {
  if (!c.isStale) return
  const s = c.n + 1
  const m = c.fixed
  m.fill(0)
  c.rhs.fill(0)
  const { resistors: r, currents: i, sources: v } = c
  for (let k = 0; k < r.refs.length; k++) {
    const a = r.a[k]!
    const b = r.b[k]!
    const g = 1 / r.value[k]!
    m[a * s + a]! += g
    m[b * s + b]! += g
    m[a * s + b]! -= g
    m[b * s + a]! -= g
  }
  for (let k = 0; k < i.refs.length; k++) {
    c.rhs[i.a[k]!]! -= i.value[k]!
    c.rhs[i.b[k]!]! += i.value[k]!
  }
  for (let k = 0; k < v.refs.length; k++) {
    const row = v.rows[k]!
    m[v.a[k]! * s + row]! += 1
    m[v.b[k]! * s + row]! -= 1
    m[row * s + v.a[k]!]! += 1
    m[row * s + v.b[k]!]! -= 1
    // V+ - V- = emf + r j, with j the current from + through the source to -: a cell under load shows less
    m[row * s + row]! -= v.extra[k]!
    c.rhs[row]! += v.value[k]!
  }
  c.isStale = false
}
