import { FaultError } from '#core/fault'
import type { RunSheet } from '#core/sheet'
import { ErrorDraw } from './error-draw.ts'
import { Hands } from './hands.ts'
import { realTester } from './real-tester.ts'
import { type KnownPart, type Rehearsal, type RehearsalOptions, rehearsalDefaults } from './rehearsal.ts'

/**
 * Plays a run sheet with a part whose model is known: every set and read step in order, on a tester that fits its
 * description and has one draw of every error its budget names. The needle is moved by the solved circuit of supply,
 * resistors, meter and part, and read to the nearest part of a division that can be read.
 *
 * A person's hands are in it: the collector current is set to a mark of the scale as well as the scale can be read; a
 * range is changed where the needle goes over or stands low. The base control holds the base current, and makes up for
 * what a voltmeter at the base draws. The part stays at room temperature.
 *
 * @param sheet run sheet of this tester for the part
 * @returns readings as they would have been written down, and the truth behind each
 * @throws {FaultError} `usage` where the run sheet is for another kind of part; `out-of-domain` where the model of the part
 *   has no operating point in a test
 * @example rehearse(planSheet(larkfield, ac128), { part: 'V1', device }, { seed: 7 }).readings
 */
export function rehearse(sheet: RunSheet, part: KnownPart, options: Partial<RehearsalOptions> = {}): Rehearsal {
  requireKind(sheet, part)
  const { ambientC, seed } = { ...rehearsalDefaults, ...options }
  const hands = new Hands(sheet, part, realTester(sheet.tester, new ErrorDraw(seed)), ambientC)
  sheet.steps.forEach((step, i) => {
    if (step.kind === 'set') hands.set(step, nextSupply(sheet, i))
    if (step.kind === 'read') hands.read(step)
  })
  return { readings: hands.readings, truths: hands.truths, leftOut: hands.leftOut }
}

/** Readings that only a diode gives. */
const diodeReads = ['I_R', 'I_F', 'V_F']

function requireKind(sheet: RunSheet, { device }: KnownPart): void {
  const reads = sheet.steps.flatMap((s) => (s.kind === 'read' && s.reads !== 'short' ? [s.reads] : []))
  const wanted = reads.some((r) => diodeReads.includes(r)) ? 'diode' : 'bipolar'
  if (reads.length === 0 || device.kind === wanted) return
  throw new FaultError({
    code: 'usage',
    problem: `The run sheet is for a ${words[wanted]}, and the model is that of a ${words[device.kind]}`,
    mend: 'Name a part type of the same kind as the model.',
  })
}

const words = {
  diode: 'diode',
  bipolar: 'bipolar transistor',
  jfet: 'junction field-effect transistor',
  mosfet: 'MOS field-effect transistor',
} as const

/** The supply of the next reading that is fed. */
const nextSupply = (sheet: RunSheet, from: number): string | undefined => {
  const next = sheet.steps.find((s, i) => i > from && s.kind === 'read' && s.supplyV !== undefined)
  return next?.kind === 'read' ? next.supply : undefined
}
