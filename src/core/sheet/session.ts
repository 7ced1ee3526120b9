import { FaultError } from '#core/fault'
import { parseShown, type Reading } from '#core/tester'
import type { RunSheet, Step } from './sheet.ts'

/** One part on its way through a run sheet. Plain data: every answer makes a new session. */
export interface Session {
  readonly sheet: RunSheet
  readonly part: string
  /** Index of the step that is asked next. */
  readonly at: number
  /** Readings by step id. */
  readonly readings: Readonly<Record<string, Reading>>
  /** Ids of the read steps that were left out; they stay so until a reading is typed there. */
  readonly leftOut: readonly string[]
  /** Why it ended before the last step. */
  readonly stopped?: string
}

export type Answer =
  | { readonly kind: 'on'; readonly session: Session; readonly reading?: Reading; readonly echo?: string }
  | { readonly kind: 'refused'; readonly error: FaultError }

export type ReadStep = Extract<Step, { kind: 'read' }>

/** Begins a part, or goes on with one whose readings are known, after the last step that was read or left out. */
export function startSession(
  sheet: RunSheet,
  part: string,
  known: readonly Reading[] = [],
  left: readonly string[] = [],
): Session {
  const readings: Record<string, Reading> = {}
  for (const step of sheet.steps) {
    if (step.kind !== 'read') continue
    const found = known.findLast((r) => r.part === part && answers(sheet, r, step))
    if (found !== undefined) readings[step.id] = found
  }
  const leftOut = left.filter((id) => !(id in readings))
  const last = sheet.steps.findLastIndex((s) => s.id in readings || leftOut.includes(s.id))
  return settle({ sheet, part, at: last + 1, readings, leftOut })
}

/** Goes back to what has to be set for the first reading that was left out, and asks for all of them again. */
export function askAgain(s: Session): Session {
  const first = s.sheet.steps.findIndex((step) => s.leftOut.includes(step.id))
  if (first < 0) return s
  const before = s.sheet.steps.slice(0, first).findLastIndex((step) => step.kind === 'read')
  return goTo({ ...s, leftOut: [] }, before + 1)
}

/** Whether a reading is the answer to a step. The range counts only where it tells two steps apart. */
export function answers(sheet: RunSheet, r: Reading, step: ReadStep): boolean {
  const fits = (s: Step): boolean => s.kind === 'read' && s.reads === r.reads && s.point === r.point
  if (!fits(step)) return false
  return step.range === undefined || r.range === step.range || sheet.steps.filter(fits).length === 1
}

/** The step that is asked now; undefined at the end. */
export const currentStep = (s: Session): Step | undefined => (s.stopped === undefined ? s.sheet.steps[s.at] : undefined)

/** What a session needs beside what was typed. */
export interface Now {
  readonly at: string
  readonly ambientC: number
  readonly ambientU: number
  /** Range or gain span it was read on, where that is not the one of the step. */
  readonly range?: string
}

/** Whether a decision hangs on a step, so that it can't be left out. */
export const mustAnswer = (sheet: RunSheet, step: ReadStep): boolean =>
  sheet.steps.some((s) => s.kind === 'decide' && s.after === step.id)

/**
 * Takes what was typed for the current step. A set or wait step takes anything as "done"; a read step takes a reading,
 * or nothing to leave it out. The short check can't be left out: what comes after it is only safe for a part that
 * passed it.
 */
export function answer(s: Session, typed: string, now: Now): Answer {
  const step = currentStep(s)
  if (step === undefined || step.kind !== 'read') return { kind: 'on', session: settle({ ...s, at: s.at + 1 }) }
  if (typed.trim() === '') return leftOut(s, step)
  const { range: other, ...seenAt } = now
  const on = rangeOf(s.sheet, step, other)
  const parsed = parseShown(typed, step.reads, s.sheet.tester, on.range)
  if (!parsed.ok) return { kind: 'refused', error: new FaultError(parsed.faults) }
  const reading: Reading = {
    part: s.part,
    ...(s.sheet.partType === undefined ? {} : { type: s.sheet.partType.type }),
    reads: step.reads,
    shown: parsed.shown,
    seen: parsed.seen,
    ...on,
    point: step.point,
    ...(step.supplyV === undefined ? {} : { supplyV: step.supplyV }),
    ...seenAt,
  }
  const readings = { ...s.readings, [step.id]: reading }
  const left = s.leftOut.filter((id) => id !== step.id)
  return { kind: 'on', session: settle({ ...s, readings, leftOut: left, at: s.at + 1 }), reading, echo: parsed.echo }
}

/** Range and scale of a reading: those of the step, or of the range that was taken in its place. */
function rangeOf(sheet: RunSheet, step: ReadStep, other: string | undefined): Pick<Reading, 'range' | 'scale'> {
  if (other === undefined || other === step.range)
    return {
      ...(step.range === undefined ? {} : { range: step.range }),
      ...(step.scale === undefined ? {} : { scale: step.scale }),
    }
  const scale = sheet.tester.ranges.find((r) => r.id === other)?.scale
  return { range: other, ...(scale === undefined ? {} : { scale }) }
}

/** Leaves a reading out, or keeps the one that is there. */
function leftOut(s: Session, step: ReadStep): Answer {
  if (step.id in s.readings) return { kind: 'on', session: settle({ ...s, at: s.at + 1 }) }
  if (!mustAnswer(s.sheet, step)) {
    const left = [...s.leftOut.filter((id) => id !== step.id), step.id]
    return { kind: 'on', session: settle({ ...s, leftOut: left, at: s.at + 1 }) }
  }
  return {
    kind: 'refused',
    error: new FaultError({
      code: 'bad-input',
      place: { field: step.reads },
      value: '',
      problem: 'leaves open whether the part is shorted',
      mend: 'Make the short check first, and say clear, short or open.',
    }),
  }
}

/** Goes back to the last read step before the current one. */
export function back(s: Session): Session {
  const before = s.sheet.steps.slice(0, s.at).findLastIndex((step) => step.kind === 'read')
  const { stopped: _, ...open } = s
  return before < 0 ? { ...open, at: 0 } : { ...open, at: before }
}

/**
 * Goes to a step: any one before the first decision that is not made yet, and none after a short but those up to the
 * check that found it.
 */
export function goTo(s: Session, index: number): Session {
  const { stopped: _, ...open } = s
  const barrier = s.sheet.steps.findIndex(
    (step) => step.kind === 'decide' && (!(step.after in s.readings) || foundShort(s, step.after)),
  )
  const end = barrier < 0 ? s.sheet.steps.length : barrier
  return settle({ ...open, at: Math.max(0, Math.min(index, end - 1)) })
}

const foundShort = (s: Session, step: string): boolean => {
  const shown = s.readings[step]?.shown
  return shown?.kind === 'state' && shown.state === 'short'
}

/** Passes over decisions: a short ends the part, anything else goes on. */
function settle(s: Session): Session {
  const step = s.sheet.steps[s.at]
  if (step?.kind !== 'decide') return s
  return foundShort(s, step.after) ? { ...s, stopped: step.stopWhen } : settle({ ...s, at: s.at + 1 })
}

/**
 * The tag that counts on from another: the last number in it, one higher, with as many digits.
 *
 * @example nextTag('OP-7') // 'OP-8'
 * @example nextTag('A009b') // 'A010b'
 */
export function nextTag(tag: string): string {
  const m = /^(.*?)(\d+)(\D*)$/s.exec(tag)
  if (m === null) return tag.trim() === '' ? '' : `${tag}-2`
  const digits = m[2]!
  return `${m[1]}${String(BigInt(digits) + 1n).padStart(digits.length, '0')}${m[3]}`
}
