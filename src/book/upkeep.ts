import { FaultError } from '#core/fault'
import type { Driver } from './book.ts'
import { testerRow } from './tester.ts'
import type { Work } from './transaction.ts'

/** Tables of the upkeep of testers; their rows can be taken away and put back. */
export type UpkeepTable = 'found' | 'check_standard'

const words: Readonly<Record<UpkeepTable, string>> = {
  found: 'record of a tester as found',
  check_standard: 'check standard',
}

/** Takes a row away or puts it back; gives the id of its tester. @throws {FaultError} `not-found` where it is so already; `usage` */
export function setUpkeepRemoved({ driver }: Work, what: UpkeepTable, row: number, removed: boolean): string {
  if (what === 'check_standard' && !removed) requireAlone(driver, row)
  const is = removed ? 1 : 0
  const tester = driver
    .prepare<[number, number, number], string>(
      `UPDATE ${what} SET removed = ? WHERE id = ? AND removed <> ? RETURNING tester`,
    )
    .pluck()
    .get(is, row, is)
  if (tester !== undefined) return tester
  throw new FaultError({ code: 'not-found', what: `${words[what]} in the book`, name: String(row), near: [] })
}

/** A check standard cannot come back beside one that was named in its place. */
function requireAlone(driver: Driver, row: number): void {
  const other = driver.prepare(
    `SELECT 1 FROM check_standard AS one JOIN check_standard AS other
       ON other.tester = one.tester AND other.part = one.part AND other.symbol = one.symbol AND other.removed = 0
     WHERE one.id = ?`,
  )
  if (other.get(row) !== undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'The check standard was named again since',
      mend: 'Take the later one away first.',
    })
}

/** Name of a tester of the book. @throws {FaultError} `not-found` */
export async function versionedTester({ db }: Work, id: string): Promise<string> {
  const { parsed } = await testerRow(db, id)
  return (JSON.parse(parsed) as { readonly name: string }).name
}
