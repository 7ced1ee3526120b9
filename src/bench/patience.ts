import { FaultError } from '#core/fault'
import { type Bench, bookOf } from './bench.ts'

/** How long a write waits for another program or thread that is writing, ms, and how long between two tries. */
const patienceDefaults = { waitMs: 10_000, pauseMs: 40 } as const

/**
 * Does something to the book, and again while another program or thread is writing to it. Nothing is kept of a try that
 * was refused, so that a further one is safe. Other work goes on in the pauses, unlike in the database's own waiting.
 *
 * @throws {FaultError} `book` where the other did not finish in time
 */
export async function patiently<T>(write: () => Promise<T>): Promise<T> {
  const end = performance.now() + patienceDefaults.waitMs
  for (;;) {
    try {
      return await write()
    } catch (error) {
      if (!isLocked(error) || performance.now() > end) throw error
    }
    await new Promise((keep) => setTimeout(keep, patienceDefaults.pauseMs))
  }
}

/** Makes the database say at once that another is writing, where `patiently` does the waiting. */
export function waitOutside(bench: Bench): void {
  bookOf(bench).driver.pragma('busy_timeout = 20')
}

function isLocked(error: unknown): boolean {
  if (!(error instanceof FaultError) || !(error.cause instanceof Error) || !('code' in error.cause)) return false
  return /^SQLITE_(BUSY|LOCKED)/.test(String(error.cause.code))
}
