import { z } from 'zod'
import { type Fault, FaultError } from '#core/fault'
import {
  checkWith,
  dataDocument,
  documentFault,
  type Path,
  type ReadOptions,
  readYaml,
  type TextDocument,
} from '#core/text'
import type { PartType } from './part-type.ts'
import { plainTypeName } from './type-name.ts'
import { partTypeInput } from './type-schema.ts'

const list = z.array(partTypeInput)
const underTypes = z.strictObject({ types: list })

/**
 * Reads a file of part types, YAML or JSON: one type, a list, or a list under `types`. Values have their unit
 * ("12 mA", "5 uA"); bare numbers are SI.
 *
 * @throws {FaultError} all faults of the file together, each with line, path, value and mend
 * @example readPartTypes('type: GX-17\nfamily: bjt\npolarity: PNP', { file: 'own.yaml' })
 */
export function readPartTypes(text: string, options: ReadOptions = {}): readonly PartType[] {
  const read = readYaml(text, options)
  if (!read.ok) throw new FaultError(read.faults)
  return typesOf(read.document)
}

/**
 * The same from data that was read already, such as a record of a book.
 *
 * @throws {FaultError} all faults together
 */
export const partTypesFromData = (data: unknown, options: ReadOptions = {}): readonly PartType[] =>
  typesOf(dataDocument(data, options))

function typesOf(document: TextDocument): readonly PartType[] {
  const { types, base } = checked(document)
  const faults = repeated(types, base, document)
  if (faults.length > 0) throw new FaultError(faults)
  return types
}

interface Checked {
  readonly types: readonly PartType[]
  /** Path of the type at a position. */
  readonly base: (index: number) => Path
}

function checked(document: TextDocument): Checked {
  const { data } = document
  if (Array.isArray(data)) return { types: demand(checkWith(list, document)), base: (i) => [i] }
  if (typeof data === 'object' && data !== null && 'types' in data)
    return { types: demand(checkWith(underTypes, document)).types, base: (i) => ['types', i] }
  return { types: [demand(checkWith(partTypeInput, document))], base: () => [] }
}

function demand<T>(
  result: { readonly ok: true; readonly data: T } | { readonly ok: false; readonly faults: readonly Fault[] },
): T {
  if (!result.ok) throw new FaultError([...result.faults].sort(byPlace))
  return result.data
}

/** In the order of the text, so that a person mends it from the top. */
function byPlace(a: Fault, b: Fault): number {
  if (a.code !== 'bad-input' || b.code !== 'bad-input') return 0
  return (a.place.line ?? 0) - (b.place.line ?? 0) || (a.place.column ?? 0) - (b.place.column ?? 0)
}

function repeated(types: readonly PartType[], base: Checked['base'], document: TextDocument): readonly Fault[] {
  const seen = new Set<string>()
  return types.flatMap((t, i) => {
    const name = plainTypeName(t.type)
    if (!seen.has(name)) {
      seen.add(name)
      return []
    }
    return [documentFault(document, [...base(i), 'type'], 'is given twice', 'Keep one of the two records.')]
  })
}
