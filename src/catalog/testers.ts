import { FaultError } from '#core/fault'
import { readTester, type Tester } from '#core/tester'
import { copperhill } from './testers/copperhill.ts'
import { larkfield } from './testers/larkfield.ts'
import { marlpit } from './testers/marlpit.ts'
import { tallow } from './testers/tallow.ts'

/** An invented tester to begin with: its description as a person would write it. */
export interface SampleTester {
  readonly id: string
  readonly name: string
  readonly kind: Tester['kind']
  /** The YAML text. */
  readonly text: string
}

/**
 * The sample testers. All are invented. Their YAML stands in template strings, so that page, command line and tests read
 * the very same text without a loader.
 */
export const sampleTesters: readonly SampleTester[] = [
  { id: 'larkfield', name: 'Larkfield bench tester', kind: 'needle', text: larkfield },
  { id: 'marlpit', name: 'Marlpit ring tester', kind: 'needle', text: marlpit },
  { id: 'tallow', name: 'Tallow pocket meter', kind: 'digital', text: tallow },
  { id: 'copperhill', name: 'Copperhill part checker', kind: 'display', text: copperhill },
]

/** A sample tester, read. Undefined where no sample has that id. */
export function sampleTester(id: string): Tester | undefined {
  const sample = sampleTesters.find((s) => s.id === id.trim().toLowerCase())
  if (sample === undefined) return undefined
  const read = readTester(sample.text, { file: `${sample.id}.yaml` })
  if (!read.ok) throw new FaultError(read.faults)
  return read.tester
}
