import { useEffect, useMemo, useState, useSyncExternalStore } from 'react'
import type { KeptReading, RunDetail } from '#api'
import { explain, type Fault } from '#core/fault'
import {
  answer,
  answers,
  back,
  currentStep,
  goTo,
  type ReadStep,
  type RunSheet,
  type Session,
  startSession,
} from '#core/sheet'
import type { Reading } from '#core/tester'
import { type Draft, forgetPlace, keepPlace, placeIn, unsentIn } from './kept.ts'
import { sending } from './sending.ts'
import { meant, statesFor, unitsOf } from './typed.ts'

/** A reading of the run with its number in the book; a number is missing while it is on its way. */
export interface Known {
  readonly reading: Reading
  readonly id?: number
}

/** Where a run stands on this page, and what can be done with it. */
export interface RunState {
  readonly sheet: RunSheet
  /** Undefined between two parts. */
  readonly session: Session | undefined
  readonly draft: Draft | undefined
  /** Why what was typed was not taken; one sentence each. */
  readonly refused: readonly string[]
  /** Tags that were read in this run, in order. */
  readonly parts: readonly string[]
  readonly setDraft: (draft: Draft | undefined) => void
  /** Takes what stands in the field, or `text`, and goes on. */
  readonly enter: (text?: string) => void
  readonly back: () => void
  readonly goTo: (index: number) => void
  readonly beginPart: (tag: string) => void
}

const store = (): Storage => window.localStorage

const known = (detail: RunDetail): readonly Known[] => [
  ...detail.readings.map(({ reading, id }: KeptReading) => ({ reading, id })),
  ...unsentIn(store())
    .filter((u) => u.run === detail.run.id && u.refused === undefined)
    .map(({ reading }) => ({ reading })),
]

const readingsOf = (all: readonly Known[], part: string): readonly Reading[] =>
  all.filter((k) => k.reading.part === part).map((k) => k.reading)

/** Where the part stands: as it was left on this page, else after its last reading. */
function resumed(sheet: RunSheet, detail: RunDetail): Session | undefined {
  const all = known(detail)
  const place = placeIn(store(), detail.run.id)
  const part = place?.part ?? all.at(-1)?.reading.part
  if (part === undefined) return undefined
  const session = startSession(sheet, part, readingsOf(all, part))
  return place === undefined || session.stopped !== undefined ? session : goTo(session, place.at)
}

/** Takes a run on from where it stands. */
export function useRun(detail: RunDetail, sheet: RunSheet, firstTag: string | undefined): RunState {
  const run = detail.run.id
  const [session, setSession] = useState<Session | undefined>(
    () => resumed(sheet, detail) ?? (firstTag === undefined ? undefined : startSession(sheet, firstTag)),
  )
  const [draft, setDraft] = useState<Draft | undefined>(() => placeIn(store(), run)?.draft)
  const [refused, setRefused] = useState<readonly string[]>([])
  const [added, setAdded] = useState<readonly Known[]>([])
  useEffect(() => {
    if (session === undefined) return
    keepPlace(store(), run, { part: session.part, at: session.at, ...(draft === undefined ? {} : { draft }) })
  }, [run, session, draft])
  const all = useMemo(() => [...known(detail), ...added], [detail, added])
  const parts = useMemo(() => [...new Set(all.map((k) => k.reading.part))], [all])
  const move = (next: Session | undefined): void => {
    setRefused([])
    setDraft(undefined)
    setSession(next)
  }
  return {
    sheet,
    session,
    draft,
    refused,
    parts,
    setDraft: (next) => {
      setRefused([])
      setDraft(next)
    },
    enter: (text) => {
      if (session === undefined) return
      const taken = take(session, draft, text)
      if ('faults' in taken) return setRefused(taken.faults.map(sentence))
      const { reading, step } = taken
      if (reading !== undefined && step !== undefined) {
        const before = detail.readings.findLast(
          (k) => k.reading.part === reading.part && answers(sheet, k.reading, step),
        )
        sending.send({
          run,
          body: bodyOf(reading, step),
          reading,
          ...(before === undefined || before.reading.range === reading.range ? {} : { corrects: before.id }),
        })
        setAdded((list) => [...list, { reading }])
      }
      move(taken.session)
    },
    back: () => session !== undefined && move(stepBack(session)),
    goTo: (index) => session !== undefined && move(goTo(session, index)),
    beginPart: (tag) => {
      forgetPlace(store(), run)
      move(startSession(sheet, tag, readingsOf(all, tag)))
    },
  }
}

/** A fault's sentence; the one field there is needs no name. */
const sentence = (f: Fault): string => explain(f.code === 'bad-input' ? { ...f, place: {} } : f)

/** One step back; decisions are passed over, and an ended part opens at the reading that ended it. */
function stepBack(s: Session): Session {
  if (s.stopped !== undefined || currentStep(s) === undefined) return back(s)
  const before = s.sheet.steps.slice(0, s.at).findLastIndex((step) => step.kind !== 'decide')
  return goTo(s, Math.max(0, before))
}

type Taken =
  | { readonly session: Session; readonly reading?: Reading; readonly step?: ReadStep }
  | { readonly faults: readonly Fault[] }

function take(session: Session, draft: Draft | undefined, text: string | undefined): Taken {
  const step = currentStep(session)
  const { ambientC, ambientU } = session.sheet.wishes
  const now = { at: new Date().toISOString(), ambientC, ambientU }
  if (step?.kind !== 'read') {
    const got = answer(session, '', now)
    return got.kind === 'on' ? { session: got.session } : { faults: got.error.faults }
  }
  const own = draft?.step === step.id ? draft : undefined
  const range = own?.range ?? session.readings[step.id]?.range
  const units = unitsOf(session.sheet, step, range ?? step.range, own?.unit)
  const typed = meant(text ?? own?.text ?? '', units, statesFor(session.sheet, step))
  const got = answer(session, typed, range === undefined ? now : { ...now, range })
  if (got.kind === 'refused') return { faults: got.error.faults }
  return { session: got.session, step, ...(got.reading === undefined ? {} : { reading: got.reading }) }
}

const bodyOf = (r: Reading, step: ReadStep) => ({
  clientId: crypto.randomUUID(),
  part: r.part,
  step: step.id,
  seen: r.seen,
  ...(r.range === undefined || r.range === step.range ? {} : { range: r.range }),
  ...(r.scale === undefined || r.range === step.range ? {} : { scale: r.scale }),
  ...(r.at === undefined ? {} : { at: r.at }),
})

/** How the sending of readings stands. */
export const useSending = () => useSyncExternalStore(sending.watch, sending.state)
