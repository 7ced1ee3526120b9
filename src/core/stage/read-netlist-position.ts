import { type Circuit, type Component, type DeviceComponent, readNetlist } from '#core/circuit'
import { type Fault, FaultError } from '#core/fault'
import { checkWith, documentFault, placeOf, type TextDocument } from '#core/text'
import { NetlistNames } from './netlist-names.ts'
import { netlistStage } from './netlist-template.ts'
import { type PositionRead, positionFrom, sharedFaults, type WantedPart, wantedOf } from './position-pieces.ts'
import { type NetlistFile, netlistSchema } from './position-schema.ts'
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
  const found = new NetlistNames(document, file, circuit)
  found.checkNames()
  found.checkNodes()
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
