import { useMediaQuery } from '@mantine/hooks'
import { type FormEvent, useEffect, useRef, useState } from 'react'
import { explain } from '#core/fault'
import { mustAnswer, type ReadStep, type Session, type Step, windowText } from '#core/sheet'
import type { ShownParsed } from '#core/tester'
import { useShortcut } from '#web/keys'
import { announce } from '#web/live'
import { bookText, Prose } from '#web/typeset'
import { Arc } from './arc.tsx'
import { Countdown } from './countdown.tsx'
import { Entry, type EntryProps, RangeSelect, States } from './entry.tsx'
import { againstWindow, faceOf, placeOf } from './face.ts'
import type { Draft } from './kept.ts'
import { Setting } from './setting.tsx'
import { isBegun, understood } from './typed.ts'
import type { RunState } from './use-run.ts'
import { firstSentence } from './words.ts'

interface Props {
  readonly run: RunState
  readonly session: Session
  readonly step: Step
}

/** One step of a run, and nothing else: what to set, why, where the needle should stand, one field. */
export function StepView({ run, session, step }: Props) {
  const [isAdviceOpen, setAdvice] = useState(false)
  const [asksToLeaveOut, setAsks] = useState(false)
  const field = useRef<HTMLInputElement>(null)
  const go = useRef<HTMLButtonElement>(null)
  useEffect(() => {
    setAdvice(false)
    setAsks(false)
    const at = field.current ?? go.current
    at?.focus({ preventScroll: true })
    if (at === field.current) field.current?.select()
    else announce(step.say)
  }, [step])
  const toggleAdvice = (): void => setAdvice((open) => !open)
  useShortcut({ keys: 'b', says: 'Go a step back (in the field: ↑).', group: 'Run' }, run.back)
  useShortcut({ keys: 'ArrowUp', says: 'Go a step back.', group: 'Run' }, run.back)
  useShortcut({ keys: 'a', says: 'What if something is odd? (in the field: ?)', group: 'Run' }, toggleAdvice)
  const draft = draftFor(run, session, step)
  const isUnchanged = draft.text === session.readings[step.id]?.seen && draft.range === session.readings[step.id]?.range
  const enter = (text?: string): void => {
    const leavesOut = step.kind === 'read' && text === undefined && draft.text.trim() === ''
    if (leavesOut && !asksToLeaveOut && !mustAnswer(session.sheet, step) && !(step.id in session.readings)) {
      setAsks(true)
      return
    }
    run.enter(isUnchanged && text === undefined ? '' : text)
    field.current?.focus({ preventScroll: true })
  }
  const onSubmit = (e: FormEvent): void => {
    e.preventDefault()
    enter()
  }
  const shown = step.kind === 'read' ? understood(session.sheet, step, draft) : undefined
  const entry: EntryProps | undefined =
    step.kind !== 'read'
      ? undefined
      : {
          sheet: session.sheet,
          step,
          draft,
          onDraft: (d) => {
            setAsks(false)
            run.setDraft(d)
          },
          onEnter: enter,
          onBack: run.back,
          onAdvice: toggleAdvice,
          field,
          sayId: 'step-say',
          echoId: 'step-echo',
          isWrong: run.refused.length > 0,
        }
  const [first, rest] = firstSentence(step.say)
  return (
    <form className="step" onSubmit={onSubmit} noValidate>
      <div className="step-head">
        <h1 className="step-say" id="step-say">
          <Prose text={first} />
        </h1>
        {rest !== '' && (
          <p className="step-more">
            <Prose text={rest} />
          </p>
        )}
        <p className="step-why">
          <Prose text={step.why} />
        </p>
      </div>
      <Look session={session} step={step} entry={entry} shown={shown} />
      <div className="step-hand">
        {entry !== undefined && <Entry {...entry} />}
        {step.kind === 'read' && (
          <Echo refused={run.refused} shown={shown} text={draft.text} asks={asksToLeaveOut} reads={step.reads} />
        )}
        <p className="step-actions">
          <button type="submit" className="button first step-go" ref={go}>
            {step.kind === 'read' ? 'Take it' : 'Done'} <kbd>Enter</kbd>
          </button>
          <button type="button" className="word" onClick={run.back} disabled={session.at === 0}>
            Back
          </button>
          {step.kind === 'read' && step.odd.length > 0 && (
            <button type="button" className="word" aria-expanded={isAdviceOpen} onClick={toggleAdvice}>
              Something odd?
            </button>
          )}
          {entry !== undefined && !mustAnswer(entry.sheet, entry.step) && <States {...entry} className="word" />}
        </p>
      </div>
      {step.kind === 'read' && isAdviceOpen && <AdviceList step={step} />}
    </form>
  )
}

/** What stands in the field: what was begun, else what was read before. */
function draftFor(run: RunState, session: Session, step: Step): Draft {
  if (run.draft?.step === step.id) return run.draft
  const before = session.readings[step.id]
  if (before === undefined) return { step: step.id, text: '' }
  return { step: step.id, text: before.seen, ...(before.range === undefined ? {} : { range: before.range }) }
}

interface LookProps {
  readonly session: Session
  readonly step: Step
  /** The field's, where the step has one. */
  readonly entry: EntryProps | undefined
  readonly shown: ShownParsed | undefined
}

/** What is looked at: a setting in large type, a wait, or the arc with its window and needle. */
function Look({ session, step, entry, shown }: LookProps) {
  const isNarrow = useMediaQuery('(max-width: 48rem)', false, { getInitialValueInEffect: false }) ?? false
  if (step.kind === 'set')
    return (
      <div className="step-look">
        <Setting step={step} />
      </div>
    )
  if (step.kind === 'wait')
    return (
      <div className="step-look">
        <Countdown key={`${session.part} ${step.id}`} seconds={step.seconds} kind="wait" />
      </div>
    )
  if (step.kind !== 'read' || entry === undefined) return <div className="step-look" />
  if (mustAnswer(session.sheet, step))
    return (
      <div className="step-look">
        <States {...entry} className="button" />
      </div>
    )
  return (
    <div className="step-look">
      <Scale entry={entry} shown={shown} isNarrow={isNarrow} />
      {step.safeSeconds !== undefined && (
        <Countdown key={`${session.part} ${step.id}`} seconds={Math.floor(step.safeSeconds)} kind="safe" />
      )}
    </div>
  )
}

interface ScaleProps {
  readonly entry: EntryProps
  readonly shown: ShownParsed | undefined
  readonly isNarrow: boolean
}

function Scale({ entry, shown, isNarrow }: ScaleProps) {
  const { sheet, step, draft } = entry
  const face = faceOf(sheet, step, draft.range ?? step.range)
  if (face === undefined) return null
  const at = shown?.ok ? placeOf(sheet, step, face, draft.range, shown.shown) : undefined
  const where = at === undefined ? undefined : againstWindow(face, at)
  const expected = step.window === undefined ? 'Nothing is known of where it should stand' : expectText(step)
  const stands =
    at === undefined
      ? ''
      : ` The needle stands at ${Number(at.toPrecision(3))} ${face.says}${where === undefined ? '' : `, ${where}`}.`
  return (
    <figure className="scale-figure">
      <Arc
        face={face}
        at={at}
        isNarrow={isNarrow}
        says={`Scale from ${face.low} to ${face.high} ${face.says}. ${expected}.${stands}`}
      />
      <figcaption className="scale-caption">
        <span className="scale-expect">
          <Prose text={expected} />
          {step.window !== undefined && (
            <span className="soft scale-from">
              <Prose text={step.window.from} />
            </span>
          )}
        </span>
        <span className="scale-right">
          <span className={where === 'as expected' || where === undefined ? 'scale-where' : 'scale-where odd'}>
            {where ?? ''}
          </span>
          <RangeSelect {...entry} />
        </span>
      </figcaption>
    </figure>
  )
}

const expectText = (step: ReadStep): string =>
  step.window === undefined ? '' : `Expect ${bookText(windowText(step.window))}`

interface EchoProps {
  readonly refused: readonly string[]
  readonly shown: ShownParsed | undefined
  readonly text: string
  readonly asks: boolean
  readonly reads: string
}

/** How it was understood, at once; or why it was not. */
function Echo({ refused, shown, text, asks, reads }: EchoProps) {
  const isFault = refused.length > 0
  return (
    <div className={isFault ? 'echo refused' : 'echo'} id="step-echo" aria-live="polite">
      {isFault &&
        refused.map((r) => (
          <p key={r}>
            <Prose text={r} />
          </p>
        ))}
      {!isFault && asks && (
        <p>
          <Prose text={`Nothing is typed. Press Enter again to leave ${reads} out.`} />
        </p>
      )}
      {!isFault && !asks && shown?.ok && (
        <p className="echo-good">
          <Prose text={shown.echo} />
        </p>
      )}
      {!isFault && !asks && shown !== undefined && !shown.ok && !isBegun(text) && (
        <p className="soft">
          <Prose text={shown.faults.map(explain).join(' ')} />
        </p>
      )}
    </div>
  )
}

function AdviceList({ step }: { readonly step: ReadStep }) {
  return (
    <section className="advice" aria-label="If something is odd">
      <dl>
        {step.odd.map((o) => (
          <div key={o.symptom}>
            <dt>
              <Prose text={`${o.symptom.charAt(0).toUpperCase()}${o.symptom.slice(1)}?`} />
            </dt>
            <dd>
              <Prose text={o.advice} />
            </dd>
          </div>
        ))}
      </dl>
    </section>
  )
}
