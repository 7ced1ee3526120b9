import { useQuery } from '@tanstack/react-query'
import { useSearch } from '@tanstack/react-router'
import { type ReactNode, useMemo, useState } from 'react'
import type { PartType } from '#core/device'
import type { ResistorChange } from '#core/stage'
import { typesQuery, useRemembered, useScreenTitle } from '#web/live'
import { plainText } from '#web/typeset'
import { type Draft, firstDraft, otherFaults, readDraft, withText } from './draft.ts'
import type { Form } from './field.tsx'
import { Keep, OpenFile } from './keep.tsx'
import { Live } from './live.tsx'
import { Over } from './over.tsx'
import { PartChoice } from './part-choice.tsx'
import { type Look, type Question, useQuestion } from './question.ts'
import { Drawer } from './ranking.tsx'
import { ReBiasPart } from './re-bias.tsx'
import { type LookedAt, useLookedAt } from './use-looked-at.ts'
import { StageChoice, ValueForm } from './value-form.tsx'
import { Verdict } from './verdict.tsx'
import { Leakage, Limits, Runaway, Stability } from './working.tsx'
import './stage.css'

const noTypes: readonly PartType[] = []

/** A part in its place in a circuit: whether it will work there, why, and what to change. */
export function StageScreen() {
  useScreenTitle('Positions')
  const search = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const [draft, setDraft] = useRemembered<Draft>('stage', firstDraft)
  const [look, setLook] = useState<Look>(() =>
    search.part === undefined ? { by: 'position' } : { by: 'part', tag: search.part },
  )
  const [opened, setOpened] = useState<readonly string[]>([])
  const types = useQuery(typesQuery).data?.types ?? noTypes
  const read = useMemo(() => readDraft(draft), [draft])
  const { question, faults } = useQuestion(read.ok ? read.read : undefined, look)
  const sound = faults.length === 0 ? question : undefined
  const at = useLookedAt(sound)
  const form: Form = { draft, faults: read.ok ? [] : read.faults, onDraft: setDraft }
  const said = [...opened, ...(read.ok ? faults : otherFaults(read.faults, fieldsOf(draft)))]
  return (
    <div className="screen stage">
      <header>
        <h1>Will it work there?</h1>
        <p className="lead">
          A part in its place in a circuit: where it stands, how it drifts, what fails first, and what to change around
          it.
        </p>
      </header>
      <div className="stage-begin">
        <StageChoice form={form} />
        <OpenFile
          onFaults={setOpened}
          onDraft={(next) => {
            setLook({ by: 'position' })
            setDraft(next)
          }}
        />
      </div>
      {said.map((f) => (
        <p key={f} className="field-fault" role="alert">
          {f}
        </p>
      ))}
      <div className="stage-bench">
        <div className="stage-seen">
          {sound === undefined ? (
            <p className="soft">The stage is drawn when all its values can be read and its parts can stand there.</p>
          ) : (
            <Seen key={sound.position.template.id} question={sound} at={at} />
          )}
        </div>
        <div className="stage-said">
          <PartChoice look={look} types={types} onLook={setLook} {...namedIn(question)} />
          <ValueForm form={form} types={types} />
        </div>
      </div>
      {sound !== undefined && at.answered !== undefined && <Answers question={at.question ?? sound} at={at} />}
      {question !== undefined && (
        <Spread title="The drawer here">
          <Drawer question={question} />
        </Spread>
      )}
      {question !== undefined && (
        <Spread title="Another part, other resistors">
          <ReBiasPart
            question={question}
            power={undefined}
            onChanges={(changes) => setDraft(changed(draft, changes))}
          />
        </Spread>
      )}
      <Spread title="Keep it">
        <Keep draft={draft} onDraft={setDraft} />
      </Spread>
    </div>
  )
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
              <li key={n}>{n}</li>
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
