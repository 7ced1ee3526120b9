import { z } from 'zod'
import type { Fault } from '#core/fault'
import { checkWith, type ReadOptions, readYaml } from '#core/text'
import { testerFaults } from './check-tester.ts'
import { testerFile } from './schema.ts'
import type { Tester } from './tester.ts'

export type TesterRead =
  | { readonly ok: true; readonly tester: Tester }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * Reads a tester's description, YAML or JSON. First its form is checked, then whether it makes sense as a whole: names
 * that refer to something, ranges that its own network makes. All faults of a stage come together, each with line, path,
 * value and mend.
 *
 * @example const read = readTester(text, { file: 'bench.yaml' })
 */
export function readTester(text: string, options: ReadOptions = {}): TesterRead {
  const read = readYaml(text, options)
  if (!read.ok) return read
  const checked = checkWith(testerFile, read.document)
  if (!checked.ok) return checked
  const tester: Tester = checked.data
  const faults = testerFaults(tester, read.document)
  return faults.length > 0 ? { ok: false, faults } : { ok: true, tester }
}

/** JSON Schema (2020-12) of the description, for editors that complete and check as you type. */
export const testerSchema = (): Readonly<Record<string, unknown>> =>
  z.toJSONSchema(testerFile, { io: 'input' }) as Readonly<Record<string, unknown>>
