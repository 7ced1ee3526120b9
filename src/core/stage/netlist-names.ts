import { type Circuit, type DeviceComponent, isGround, type ValueComponent } from '#core/circuit'
import type { Fault } from '#core/fault'
import { documentFault, type TextDocument } from '#core/text'
import { notOf } from './position-pieces.ts'
import type { NetlistFile } from './position-schema.ts'
import { probes } from './stage-circuit.ts'

/** Finds what the file names in the circuit, and gathers what is not there. */
export class NetlistNames {
  readonly faults: Fault[] = []

  constructor(
    private readonly document: TextDocument,
    private readonly file: NetlistFile,
    private readonly circuit: Circuit,
  ) {}

  private of(kind: 'R' | 'V'): readonly ValueComponent[] {
    return this.circuit.components.flatMap((c) => (c.kind === kind ? [c] : []))
  }

  private take(path: readonly string[], name: string, what: string, all: readonly ValueComponent[]) {
    const wrong = notOf(
      this.document,
      path,
      name,
      what,
      all.map((c) => c.ref),
    )
    this.faults.push(...wrong)
    return all.filter((c) => c.ref === name)
  }

  private refuse(path: readonly string[], problem: string, mend: string): void {
    this.faults.push(documentFault(this.document, path, problem, mend))
  }

  /** The place that is looked at: the one named, else the only transistor, else the only diode. */
  place(): DeviceComponent | undefined {
    const of = (kind: string): readonly DeviceComponent[] =>
      this.circuit.components.flatMap((c) => ((c.kind === 'Q' || c.kind === 'D') && kind.includes(c.kind) ? [c] : []))
    const all = of('QD')
    const { place } = this.file
    if (place !== undefined) {
      this.faults.push(
        ...notOf(
          this.document,
          ['place'],
          place,
          'place',
          all.map((c) => c.ref),
        ),
      )
      return all.find((c) => c.ref === place)
    }
    const most = of('Q').length > 0 ? of('Q') : of('D')
    if (most.length === 1) return most[0]
    if (most.length === 0) this.refuse(['netlist'], 'has no transistor and no diode', 'Add one: Q1 c b e OC71.')
    else this.refuse(['netlist'], 'does not say which part is looked at', `Add place: ${most[0]!.ref}.`)
    return undefined
  }

  supplies(): readonly ValueComponent[] {
    const all = this.of('V')
    const { supplies, drive } = this.file
    const found =
      supplies?.flatMap((name) => this.take(['supplies'], name, 'voltage source', all)) ??
      all.filter((v) => v.value !== 0 && v.ref !== drive?.source)
    if (found.some((v) => v.value === 0)) this.refuse(['supplies'], 'names a source of 0 V', 'Leave it out.')
    if (found.some((v) => v.ref === drive?.source))
      this.refuse(['supplies'], 'names the source that drives the stage', 'Leave it out.')
    if (found.length === 0 && drive === undefined && this.faults.length === 0)
      this.refuse(['netlist'], 'has no voltage source that feeds it', 'Add one: VCC vcc 0 9.')
    return found
  }

  drive(): ValueComponent | undefined {
    const { drive, ends } = this.file
    const states = Object.keys(drive?.states ?? {})
    for (const [k, end] of ends.entries())
      this.faults.push(...notOf(this.document, ['ends', k, 'state'], end.state, 'state', states))
    if (drive === undefined) return undefined
    if (Object.values(drive.states).every((v) => v === 0))
      this.refuse(['drive', 'states'], 'has no voltage in any state', 'Give one: on: 6 V.')
    return this.take(['drive', 'source'], drive.source, 'voltage source', this.of('V'))[0]
  }

  loads(): readonly ValueComponent[] {
    const resistors = this.of('R')
    const { loads = [], values, beta } = this.file
    for (const ref of Object.keys(values)) this.take(['values', ref], ref, 'resistor', resistors)
    for (const ref of Object.keys(beta)) this.take(['beta', ref], ref, 'resistor', resistors)
    return loads.flatMap((ref) => this.take(['loads'], ref, 'resistor', resistors))
  }

  /** Names the computation needs for itself, and what has no place in a position. */
  checkNames(): void {
    const own: readonly string[] = Object.values(probes)
    for (const { ref } of this.circuit.components)
      if (own.includes(ref))
        this.refuse(['netlist'], `has a source called ${ref}, which stands for something else here`, 'Rename it.')
    if (this.circuit.temperatureC !== undefined)
      this.refuse(['netlist'], 'asks for a temperature', 'Take .temp out: from and to say which are tried.')
  }

  /** Nodes that clipping and ends are told between. */
  checkNodes(): void {
    const nodes = [...new Set(this.circuit.components.flatMap((c) => c.nodes))]
    const all = nodes.some(isGround) ? nodes : [...nodes, '0']
    const pairs = [
      ...(this.file.clipping ?? []).map((c, k) => ['clipping', k, c.between] as const),
      ...this.file.ends.map((e, k) => ['ends', k, e.between] as const),
    ]
    for (const [key, k, between] of pairs)
      for (const [i, node] of between.entries())
        this.faults.push(...notOf(this.document, [key, k, 'between', i], node, 'node', all))
  }
}
