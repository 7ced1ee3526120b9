import { type Fault, FaultError } from '#core/fault'
import { type PositionRead, readPosition } from '#core/stage'
import { checkWith, documentFault, type Path, readYaml, type TextDocument, valueAt, writeYaml } from '#core/text'
import { type JobPosition, type NewJob, settled } from './job.ts'
import { type JobFile, jobSchema } from './job-schema.ts'

/**
 * Reads a job from YAML or JSON, as docs/reference/jobs.md describes: the job, its positions, their circuits.
 *
 * @param file name shown in faults
 * @throws {FaultError} every fault of the text together, those of the circuits as well
 */
export function readJob(text: string, file?: string): NewJob {
  const read = readYaml(text, file === undefined ? {} : { file })
  if (!read.ok) throw new FaultError(read.faults)
  const checked = checkWith(jobSchema, read.document)
  if (!checked.ok) throw new FaultError(checked.faults)
  const faults = [...circuitFaults(read.document, checked.data), ...reservedFaults(read.document, checked.data)]
  if (faults.length > 0) throw new FaultError(faults)
  return jobOf(checked.data)
}

/**
 * Reads the circuit of a position from its text.
 *
 * @throws {FaultError} every fault of it
 */
export function readCircuitOf(text: string, file?: string): PositionRead {
  const read = readYaml(text, file === undefined ? {} : { file })
  if (!read.ok) throw new FaultError(read.faults)
  return readPosition(read.document)
}

function jobOf({ job, begun, finished, positions, ...rest }: JobFile): NewJob {
  const list = Object.entries(positions).map(([ref, { circuit, ...position }]): JobPosition => {
    const text = typeof circuit === 'object' ? writeYaml(circuit) : circuit
    return settled({ ref, ...withoutGaps({ ...position, circuit: text }) })
  })
  return { name: job, ...withoutGaps({ ...rest, begunOn: begun, finishedOn: finished }), positions: list }
}

type Whole<T> = { [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined> } & {
  [K in keyof T as undefined extends T[K] ? never : K]: T[K]
}

/** Without the keys that hold nothing. */
const withoutGaps = <T extends object>(all: T): Whole<T> =>
  Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as Whole<T>

const circuitFaults = (document: TextDocument, { positions }: JobFile): readonly Fault[] =>
  Object.keys(positions).flatMap((ref) => faultsOfCircuit(document, ['positions', ref, 'circuit']))

function faultsOfCircuit(document: TextDocument, path: Path): readonly Fault[] {
  const circuit = valueAt(document.data, path)
  if (circuit === undefined) return []
  try {
    if (typeof circuit === 'string') readCircuitOf(circuit)
    else readPosition({ ...document, data: circuit, find: (inner, what) => document.find([...path, ...inner], what) })
    return []
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    const isOwnText = typeof circuit === 'string'
    return error.faults.map((fault) => placedIn(fault, document, path, isOwnText))
  }
}

/** A fault of a circuit as one of the whole file; where the circuit is a text, its lines are not those of the file. */
function placedIn(fault: Fault, document: TextDocument, path: Path, isOwnText: boolean): Fault {
  const head = path.map(String).join('.')
  if (fault.code !== 'bad-input') {
    if (fault.code !== 'usage') return fault
    return { ...documentFault(document, path, lowered(fault.problem), fault.mend), value: String(path[1]) } as Fault
  }
  const { field, line, column, ...place } = fault.place
  const lines = isOwnText ? document.find(path, 'key') : { line, column }
  return {
    ...fault,
    place: {
      ...place,
      ...(document.file === undefined ? {} : { file: document.file }),
      ...(lines?.line === undefined ? {} : { line: lines.line }),
      ...(lines?.column === undefined ? {} : { column: lines.column }),
      field: field === undefined ? head : `${head}.${field}`,
    },
  }
}

const lowered = (sentence: string): string => `cannot be used: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`

/** A part can be put aside once. */
function reservedFaults(document: TextDocument, { reserved, positions }: JobFile): readonly Fault[] {
  const seen = new Set<string>()
  const lists: readonly (readonly [Path, readonly string[]])[] = [
    [['reserved'], reserved],
    ...Object.entries(positions).map(([ref, one]) => [['positions', ref, 'reserved'], one.reserved] as const),
  ]
  return lists.flatMap(([path, tags]) =>
    tags.flatMap((tag): readonly Fault[] => {
      if (!seen.has(tag)) {
        seen.add(tag)
        return []
      }
      const fault = documentFault(document, path, 'is put aside twice', 'Leave one of them out.')
      return [{ ...fault, value: tag } as Fault]
    }),
  )
}
