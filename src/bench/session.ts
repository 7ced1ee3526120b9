import { FaultError } from '#core/fault'
import type { RunSheet, Step } from '#core/sheet'
import { parseShown, type Reading } from '#core/tester'

/** One part on its way through a run sheet. Plain data: every answer makes a new session. */
export interface Session {
  readonly sheet: RunSheet
  readonly part: string
  /** Index of the step that is asked next. */
  readonly at: number
  /** Readings by step id. */
  readonly readings: Readonly<Record<string, Reading>>
  /** Why it ended before the last step. */
  readonly stopped?: string
}

export type Answer =
  | { readonly kind: 'on'; readonly session: Session; readonly reading?: Reading; readonly echo?: string }
  | { readonly kind: 'refused'; readonly error: FaultError }

export type ReadStep = Extract<Step, { kind: 'read' }>

/** Begins a part, or goes on with one whose readings are known. */
export function startSession(sheet: RunSheet, part: string, known: readonly Reading[] = []): Session {
  const readings: Record<string, Reading> = {}
  for (const step of sheet.steps) {
    if (step.kind !== 'read') continue
    const found = known.findLast((r) => r.part === part && answers(r, step))
    if (found !== undefined) readings[step.id] = found
  }
  const fresh: Session = { sheet, part, at: 0, readings }
  const lastRead = sheet.steps.findLastIndex((s) => s.id in readings)
  return settle({ ...fresh, at: lastRead + 1 })
}

const answers = (r: Reading, step: ReadStep): boolean =>
  r.reads === step.reads && r.point === step.point && (step.range === undefined || r.range === step.range)

/** The step that is asked now; undefined at the end. */
export const currentStep = (s: Session): Step | undefined => (s.stopped === undefined ? s.sheet.steps[s.at] : undefined)

/** What a session needs beside what was typed. */
export interface Now {
  readonly at: string
  readonly ambientC: number
  readonly ambientU: number
}

/**
 * Takes what was typed for the current step. A set or wait step takes anything as "done"; a read step takes a reading,
 * or nothing to leave it out.
 */
export function answer(s: Session, typed: string, now: Now): Answer {
  const step = currentStep(s)
  if (step === undefined || step.kind !== 'read' || typed.trim() === '')
    return { kind: 'on', session: settle({ ...s, at: s.at + 1 }) }
  const parsed = parseShown(typed, step.reads, s.sheet.tester, step.range)
  if (!parsed.ok) return { kind: 'refused', error: new FaultError(parsed.faults) }
  const reading: Reading = {
    part: s.part,
    ...(s.sheet.partType === undefined ? {} : { type: s.sheet.partType.type }),
    reads: step.reads,
    shown: parsed.shown,
    seen: parsed.seen,
    ...(step.range === undefined ? {} : { range: step.range }),
    ...(step.scale === undefined ? {} : { scale: step.scale }),
    point: step.point,
    ...(step.supplyV === undefined ? {} : { supplyV: step.supplyV }),
    ...now,
  }
  const readings = { ...s.readings, [step.id]: reading }
  return { kind: 'on', session: settle({ ...s, readings, at: s.at + 1 }), reading, echo: parsed.echo }
}

/** Goes back to the last read step before the current one. */
export function back(s: Session): Session {
  const before = s.sheet.steps.slice(0, s.at).findLastIndex((step) => step.kind === 'read')
  const { stopped: _, ...open } = s
  return before < 0 ? { ...open, at: 0 } : { ...open, at: before }
}

/** Passes over decisions: a short ends the part, anything else goes on. */
function settle(s: Session): Session {
  const step = s.sheet.steps[s.at]
  if (step?.kind !== 'decide') return s
  const shown = s.readings[step.after]?.shown
  const isShort = shown?.kind === 'state' && shown.state === 'short'
  return isShort ? { ...s, stopped: step.stopWhen } : settle({ ...s, at: s.at + 1 })
}
