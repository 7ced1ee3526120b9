import type { Quantity } from '#core/quantity'
import { calibrationAt, corrected, covers, distrustOf, type InForce } from './calibration.ts'
import type { Reading } from './reading.ts'
import { type Readout, readoutName } from './readout.ts'
import type { Seen } from './seen-at-part.ts'
import type { Calibration, Tester } from './tester.ts'

export type Read = Extract<Seen, { ok: true }>

/** What a range or span shows by its print, in its unit. */
export interface Printed {
  readonly value: number
  /** The same as a quantity, as a calibration takes it. */
  readonly quantity: (head: Calibration) => Quantity
}

/**
 * A reading by the calibration in force: as it is printed, corrected. As described where there is none, where it found
 * the readout bad, and beyond what was calibrated; the last two are said.
 *
 * @param described the reading as the description understands it
 */
export function calibrated(tester: Tester, of: Readout, r: Reading, described: Read, printed: Printed): Read {
  const known = calibrationAt(tester, of, r.at)
  if (known === undefined) return described
  const seen =
    known.range.trust === 'not trusted' ? described : withCorrection(tester, of, r, described, printed, known)
  const distrust = distrustOf(known, r.at)
  return distrust === undefined ? seen : { ...seen, distrust }
}

function withCorrection(
  tester: Tester,
  of: Readout,
  r: Reading,
  described: Read,
  printed: Printed,
  known: InForce,
): Read {
  const { date } = known.head
  if (!covers(known.range, of, printed.value)) {
    const note = `The calibration of ${date} does not reach ${r.seen} on ${readoutName(of)}: it was read as described.`
    return { ...described, notes: [...described.notes, note] }
  }
  const notes = described.notes.filter((n) => !n.startsWith('Nobody states how accurate'))
  const quantity = corrected(tester, of, r, printed.quantity(known.head), known)
  return { ...described, quantity, notes: [...notes, `Corrected by the calibration of ${date}.`] }
}
