import { type Fault, FaultError } from '#core/fault'
import { checkWith, documentFault, type TextDocument, valueAt } from '#core/text'
import { notOf, type PositionRead, positionFrom, sharedFaults, wantedOf } from './position-pieces.ts'
import { type PositionFile, positionSchema } from './position-schema.ts'
import { readNetlistPosition } from './read-netlist-position.ts'
import type { Template } from './template.ts'
import { templateNamed } from './templates.ts'

/**
 * Reads a position from a JSON or YAML document, as docs/reference/stage.md describes: by a template, or by a netlist of
 * its own.
 *
 * @throws {FaultError} every fault of the document together
 */
export function readPosition(document: TextDocument): PositionRead {
  if (valueAt(document.data, ['netlist']) !== undefined) return readNetlistPosition(document)
  const checked = checkWith(positionSchema, document)
  if (!checked.ok) throw new FaultError(checked.faults)
  const file = checked.data
  const template = templateNamed(file.stage)
  const faults = [...valueFaults(document, file, template), ...sharedFaults(document, file, template)]
  if (faults.length > 0) throw new FaultError(faults)
  const position = positionFrom({
    file,
    template,
    polarity: file.polarity,
    supplyV: file.supply.value,
    ohm: Object.fromEntries(Object.entries(file.values).map(([ref, v]) => [ref, v.value])),
    place: file.place ?? template.main,
  })
  return { position, wanted: wantedOf(file, position) }
}

function valueFaults(document: TextDocument, file: PositionFile, t: Template): readonly Fault[] {
  const known = [...t.resistors, ...t.thermistors]
  const refs = known.map((r) => r.ref)
  const missing = known.filter((r) => r.absent === undefined && file.values[r.ref] === undefined)
  const unused = (file.rebias ?? []).filter((ref) => refs.includes(ref) && file.values[ref] === undefined)
  return [
    ...Object.keys(file.values).flatMap((ref) => notOf(document, ['values', ref], ref, 'resistor', refs)),
    ...Object.keys(file.beta).flatMap((ref) =>
      notOf(
        document,
        ['beta', ref],
        ref,
        'thermistor',
        t.thermistors.map((r) => r.ref),
      ),
    ),
    ...unused.map((ref) => documentFault(document, ['rebias'], `names ${ref}, which is left out`, 'Take it out.')),
    ...missing.map((r): Fault => {
      const problem = `The stage ${t.id} has no value for ${r.ref}, the ${r.role}`
      return { code: 'usage', problem, mend: `Add ${r.ref}: ${r.ohm} ohm under values.` }
    }),
  ]
}
