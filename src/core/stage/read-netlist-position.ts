import {
  type Circuit,
  type Component,
  type DeviceComponent,
  isGround,
  readNetlist,
  type ValueComponent,
} from '#core/circuit'
import { type Fault, FaultError } from '#core/fault'
import { checkWith, documentFault, placeOf, type TextDocument } from '#core/text'
import { netlistStage } from './netlist-template.ts'
import { notOf, type PositionRead, positionFrom, sharedFaults, type WantedPart, wantedOf } from './position-pieces.ts'
import { type NetlistFile, netlistSchema } from './position-schema.ts'
import { probes } from './stage-circuit.ts'
import type { Template, TemplatePlace } from './template.ts'

/**
 * Reads a position whose circuit is a netlist.
 *
 * @throws {FaultError} every fault of the document, or of its netlist by line
 */
export function readNetlistPosition(document: TextDocument): PositionRead {
  const checked = checkWith(netlistSchema, document)
  if (!checked.ok) throw new FaultError(checked.faults)
  const file = checked.data
  const circuit = withValues(circuitOf(document, file.netlist), file)
  const found = new Names(document, file, circuit)
  const place = found.place()
  const supplies = found.supplies()
  const drive = found.drive()
  const loads = found.loads()
  if (place === undefined || found.faults.length > 0) throw new FaultError(found.faults)
  const made = netlistStage({ file, circuit, place, supplies, loads, ...(drive === undefined ? {} : { drive }) })
  const faults = [...sharedFaults(document, file, made.template), ...workFaults(document, file, made.template)]
  if (faults.length > 0) throw new FaultError(faults)
  const position = positionFrom({
    ...made,
    file,
    supplyV: file.supply?.value ?? made.supplyV,
    place: place.ref,
  })
  return { position, wanted: { ...typesOf(position.template.places, circuit), ...wantedOf(file, position) } }
}

/** A position must say what counts as working; of an amplifier the room of its transistor does. */
function workFaults(document: TextDocument, { want }: NetlistFile, { rooms, ends }: Template): readonly Fault[] {
  if (rooms.length > 0 || ends.length > 0 || want.ic !== undefined || want.vce !== undefined) return []
  return [documentFault(document, ['netlist'], 'has nothing that says when it works', 'Add clipping, ends or want.')]
}

/** A model without parameters names a published type. */
function typesOf(places: readonly TemplatePlace[], { components }: Circuit): Readonly<Record<string, WantedPart>> {
  const bare = places.filter((p) => p.device === undefined)
  return Object.fromEntries(
    bare.map(({ ref }) => {
      const { device } = components.find((c) => c.ref === ref) as DeviceComponent
      return [ref, { type: device.toUpperCase() }]
    }),
  )
}

/** Resistors in the place of those of the netlist, where the file gives them. */
function withValues(circuit: Circuit, { values }: NetlistFile): Circuit {
  const components = circuit.components.map((c) => {
    const given = c.kind === 'R' ? values[c.ref] : undefined
    return given === undefined ? c : ({ ...c, value: given.value } as Component)
  })
  return { ...circuit, components }
}

/** The circuit of a netlist; its faults are told by the lines of the file. */
function circuitOf(document: TextDocument, text: string): Circuit {
  try {
    return readNetlist(text)
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    throw new FaultError(
      error.faults.map((f) => inFile(document, f)),
      { cause: error },
    )
  }
}

function inFile(document: TextDocument, f: Fault): Fault {
  if (f.code !== 'bad-input' || f.place.line === undefined) return f
  return { ...f, place: lineOfNetlist(document, f.place.line) }
}

/** Where a line of the netlist stands: after a bar each has a line of its own in the file. */
function lineOfNetlist(document: TextDocument, line: number) {
  const { column: _, ...place } = placeOf(document, ['netlist'])
  const isBlock = document.find(['netlist'])?.text.startsWith('|') ?? false
  if (isBlock && place.line !== undefined) return { ...place, line: place.line + line }
  return { ...place, field: `netlist, line ${line}` }
}

/** Finds what the file names in the circuit, and gathers what is not there. */
class Names {
  readonly faults: Fault[] = []

  constructor(
    private readonly document: TextDocument,
    private readonly file: NetlistFile,
    private readonly circuit: Circuit,
  ) {
    this.checkNames()
    this.checkNodes()
  }

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
  private checkNames(): void {
    const own: readonly string[] = Object.values(probes)
    for (const { ref } of this.circuit.components)
      if (own.includes(ref))
        this.refuse(['netlist'], `has a source called ${ref}, which stands for something else here`, 'Rename it.')
    if (this.circuit.temperatureC !== undefined)
      this.refuse(['netlist'], 'asks for a temperature', 'Take .temp out: from and to say which are tried.')
  }

  private checkNodes(): void {
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
