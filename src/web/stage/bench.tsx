import { useQuery } from '@tanstack/react-query'
import { type ReactNode, useMemo, useRef, useState } from 'react'
import type { PartType } from '#core/device'
import type { Power } from '#core/job'
import type { ResistorChange } from '#core/stage'
import { typesQuery } from '#web/live'
import { Prose, plainText } from '#web/typeset'
import { type Draft, draftText, otherFaults, readDraft, withText } from './draft.ts'
import type { Form } from './field.tsx'
import { Keep, OpenFile } from './keep.tsx'
import { Live } from './live.tsx'
import { Over } from './over.tsx'
import { PartChoice } from './part-choice.tsx'
import { type Look, type Question, useQuestion } from './question.ts'
import { Drawer } from './ranking.tsx'
import { ReBiasPart } from './re-bias.tsx'
import { StandInsHere } from './stand-ins-here.tsx'
import { type LookedAt, useLookedAt } from './use-looked-at.ts'
import { StageChoice, ValueForm } from './value-form.tsx'
import { Verdict } from './verdict.tsx'
import { Leakage, Limits, Runaway, Stability } from './working.tsx'

const noTypes: readonly PartType[] = []
const none: readonly string[] = []

interface Props {
  readonly draft: Draft
  readonly onDraft: (draft: Draft) => void
  /** What the equipment runs from, where that is known. */
  readonly power?: Power | undefined
  /** Tag of the part that is looked at first. */
  readonly part?: string | undefined
  /** Tags that are offered before one types. */
  readonly tags?: readonly string[]
}

/** A position, all that can be said of it, and what to change. */
export function Bench({ draft, onDraft, power, part, tags }: Props) {
  const [look, setLook] = useState<Look>(() => (part === undefined ? { by: 'position' } : { by: 'part', tag: part }))
  const [opened, setOpened] = useState<readonly string[]>([])
  const types = useQuery(typesQuery).data?.types ?? noTypes
  const read = useMemo(() => readDraft(draft), [draft])
  const text = useMemo(() => draftText(draft), [draft])
  const shown = useRef<HTMLDivElement>(null)
  const asked = useQuestion(read.ok ? read.read : undefined, look)
  const { question, faults } = asked
  const seen = useLastSound(asked.seen, read.ok)
  const at = useLookedAt(seen)
  const form: Form = { draft, faults: read.ok ? [] : read.faults, onDraft }
  const said = [...opened, ...(read.ok ? faults : otherFaults(read.faults, fieldsOf(draft)))]
  return (
    <>
      <div className="stage-begin">
        <StageChoice form={form} />
        <OpenFile
          onFaults={setOpened}
          onDraft={(next) => {
            setLook({ by: 'position' })
            onDraft(next)
          }}
        />
      </div>
      {said.map((f) => (
        <p key={f} className="field-fault" role="alert">
          {f}
        </p>
      ))}
      <div className="stage-bench">
        <div className="stage-seen" ref={shown} tabIndex={-1}>
          {seen === undefined ? (
            <p className="soft">
              The stage is drawn as soon as all its values can be read and its parts can stand there.
            </p>
          ) : (
            <Seen key={seen.position.template.id} question={seen} at={at} />
          )}
        </div>
        <div className="stage-said">
          <PartChoice
            look={look}
            types={types}
            tags={tags ?? none}
            isLeftOut={asked.isLeftOut}
            onLook={setLook}
            {...namedIn(question)}
          />
          <ValueForm form={form} types={types} position={seen?.position} />
        </div>
      </div>
      {seen !== undefined && at.answered !== undefined && <Answers question={at.question ?? seen} at={at} />}
      {question !== undefined && (
        <Spread title="The drawer here">
          <Drawer question={question} />
        </Spread>
      )}
      {read.ok && (
        <Spread title="What could stand in here">
          <StandInsHere
            key={text}
            read={read.read}
            text={text}
            onLook={(candidate) => {
              setLook(candidate)
              shown.current?.focus()
            }}
          />
        </Spread>
      )}
      {question !== undefined && (
        <Spread title="Another part, other resistors">
          <ReBiasPart question={question} power={power} onChanges={(changes) => onDraft(changed(draft, changes))} />
        </Spread>
      )}
      <Spread title="Keep it">
        <Keep draft={draft} onDraft={onDraft} />
      </Spread>
    </>
  )
}

/** What can be computed; while a value cannot be read, what could be before. */
function useLastSound(seen: Question | undefined, isRead: boolean): Question | undefined {
  const last = useRef(seen)
  if (isRead) last.current = seen
  return last.current
}

/** What is looked at, for people: which kind stands in the place, and what the position names there. */
const namedIn = (question: Question | undefined) => {
  const position = question?.position
  const place = position?.template.places.find((p) => p.ref === position.place)
  return {
    kind: place?.kind ?? 'Q',
    named: position === undefined ? '' : (question?.own[position.place]?.name ?? ''),
  } as const
}

/** The drawn stage with its sliders, and the verdict. */
function Seen({ question, at }: { readonly question: Question; readonly at: LookedAt }) {
  const { position, own, parts } = question
  return (
    <>
      <Live question={question} state={at.state!} onState={at.onState} onSupply={at.onSupply} />
      {at.share !== 1 && (
        <p className="soft small">The verdict is for a supply of {plainText(position.supplyV * at.share, 'V', 3)}.</p>
      )}
      <Verdict
        answered={at.answered}
        isBusy={at.isBusy}
        part={parts[position.place]?.name ?? ''}
        first={own[position.place]?.name}
      />
    </>
  )
}

/** What tells the verdict. */
function Answers({ question, at }: { readonly question: Question; readonly at: LookedAt }) {
  const answered = at.answered!
  const { answer } = answered
  const notes = answer.parts[answer.position.place]?.notes ?? []
  return (
    <>
      <Spread title="Over temperature">
        <Over question={question} answered={answered} state={at.state!} />
      </Spread>
      <Spread title="What is spare">
        <Limits answer={answer} />
      </Spread>
      <Spread title="What its leakage does">
        <Leakage answer={answer} />
      </Spread>
      <Spread title="Stability">
        <Stability answer={answer} />
      </Spread>
      <Spread title="Thermal runaway">
        <Runaway answer={answer} />
      </Spread>
      {notes.length > 0 && (
        <Spread title="Taken where nothing is known">
          <ul>
            {notes.map((n) => (
              <li key={n}>
                <Prose text={n} />
              </li>
            ))}
          </ul>
        </Spread>
      )}
    </>
  )
}

const Spread = ({ title, children }: { readonly title: string; readonly children: ReactNode }) => (
  <section className="spread" aria-label={title}>
    <h2>{title}</h2>
    <div className="matter">{children}</div>
  </section>
)

/** The position with resistors changed. */
const changed = (draft: Draft, changes: readonly ResistorChange[]): Draft =>
  changes.reduce((d, { ref, toOhm }) => withText(d, ['values', ref], plainText(toOhm, 'ohm', 3)), draft)

const lone = ['supply', 'tolerance', 'from', 'to', 'sag', 'ageing', 'swing', 'drift', 'supplyResistance', 'heatSink']

/** Paths that have a field of their own. */
const fieldsOf = (draft: Draft): readonly (readonly string[])[] => [
  ...lone.map((f) => [f]),
  ...['values', 'parts', 'beta'].flatMap((group) =>
    Object.entries((draft[group] ?? {}) as Draft).flatMap(([ref, given]) => [
      [group, ref],
      ...(typeof given === 'object' && given !== null ? Object.keys(given).map((k) => [group, ref, k]) : []),
    ]),
  ),
]
