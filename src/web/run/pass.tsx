import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate } from '@tanstack/react-router'
import { useEffect, useMemo, useState } from 'react'
import { ApiFault, type RunDetail } from '#api'
import { currentStep, type RunSheet, type Session } from '#core/sheet'
import { api, queryKeys, useScreenTitle } from '#web/live'
import { Waiting } from '#web/shell'
import { NoSuchRun } from './no-such-run.tsx'
import { PartDone } from './part-done.tsx'
import { ReadList, SoFarList } from './rail.tsx'
import { sending } from './sending.ts'
import { StepView } from './step.tsx'
import { understood } from './typed.ts'
import { type RunState, useRun, useSending } from './use-run.ts'

/** A run that was begun. */
export function Pass({ id, tag }: { readonly id: number; readonly tag: string | undefined }) {
  const query = useQuery({ queryKey: queryKeys.run(id), queryFn: () => api.run(id) })
  const [first, setFirst] = useState<RunDetail>()
  useEffect(() => setFirst((was) => (was?.run.id === id ? was : query.data)), [id, query.data])
  if (query.error instanceof ApiFault && query.error.status === 404) return <NoSuchRun id={String(id)} />
  if (query.error !== null && query.data === undefined) throw query.error
  const detail = query.data
  if (detail === undefined || first?.run.id !== id) return <Waiting />
  if (detail.sheet === undefined || detail.run.state !== 'open') return <Ended detail={detail} />
  return <Open key={id} detail={detail} sheet={first.sheet ?? detail.sheet} tag={tag} />
}

interface OpenProps {
  readonly detail: RunDetail
  readonly sheet: RunSheet
  readonly tag: string | undefined
}

function Open({ detail, sheet, tag }: OpenProps) {
  const run = useRun(detail, sheet, tag)
  const { session } = run
  const step = session === undefined ? undefined : currentStep(session)
  const what = sheet.partType?.type ?? 'unmarked part'
  useScreenTitle(session === undefined ? `Run ${detail.run.id}` : `${session.part}, ${what}`)
  return (
    <div className="screen run">
      <p className="run-where">
        {session !== undefined && <b>{session.part}</b>}
        <span className="run-what">
          {what} on {sheet.tester.name}
        </span>
        {session !== undefined && step !== undefined && (
          <span className="run-count">
            <span className="run-count-word">step </span>
            {session.at + 1} of {sheet.steps.length}
          </span>
        )}
      </p>
      <Unsaved run={detail.run.id} />
      {session === undefined || step === undefined ? (
        <PartDone detail={detail} run={run} session={session} />
      ) : (
        <div className="run-page">
          <StepView run={run} session={session} step={step} />
          <Rail run={run} session={session} />
        </div>
      )}
    </div>
  )
}

function Rail({ run, session }: { readonly run: RunState; readonly session: Session }) {
  const typed = useTyped(run, session)
  return (
    <aside className="rail" aria-label="This part">
      <SoFarList session={session} typed={typed} />
      <ReadList run={run} session={session} />
    </aside>
  )
}

/** Readings with the one that is being typed. */
function useTyped(run: RunState, session: Session): Session['readings'] {
  const { draft, sheet } = run
  return useMemo(() => {
    const step = currentStep(session)
    if (step?.kind !== 'read' || draft?.step !== step.id) return session.readings
    const shown = understood(sheet, step, draft)
    if (!shown?.ok) return session.readings
    const range = draft.range ?? step.range
    const scale = sheet.tester.ranges.find((r) => r.id === range)?.scale
    return {
      ...session.readings,
      [step.id]: {
        part: session.part,
        ...(sheet.partType === undefined ? {} : { type: sheet.partType.type }),
        reads: step.reads,
        shown: shown.shown,
        seen: shown.seen,
        ...(range === undefined ? {} : { range }),
        ...(scale === undefined ? {} : { scale }),
        point: step.point,
        ...(step.supplyV === undefined ? {} : { supplyV: step.supplyV }),
        ambientC: sheet.wishes.ambientC,
        ambientU: sheet.wishes.ambientU,
      },
    }
  }, [draft, session, sheet])
}

/** What is not in the book yet, and why. */
function Unsaved({ run }: { readonly run: number }) {
  const { unsent, isReachable } = useSending()
  const own = unsent.filter((u) => u.run === run)
  const refused = own.filter((u) => u.refused !== undefined)
  const waiting = own.length - refused.length
  return (
    <div className="unsaved" role="status">
      {!isReachable && waiting > 0 && (
        <p className="said">
          The server does not answer. {waiting === 1 ? 'One reading waits' : `${waiting} readings wait`} in this browser
          and will be sent when it is back. Go on.{' '}
          <button type="button" className="word" onClick={sending.tryNow}>
            Try now
          </button>
        </p>
      )}
      {refused.map((u) => (
        <p className="said bad" key={u.body.clientId}>
          {u.body.part}, {u.reading.reads} {u.body.seen} was not taken: {u.refused}{' '}
          <button type="button" className="word" onClick={() => sending.again(u.body.clientId)}>
            Send again
          </button>{' '}
          <button type="button" className="word" onClick={() => sending.giveUp(u.body.clientId)}>
            Drop it
          </button>
        </p>
      ))}
    </div>
  )
}

function Ended({ detail }: { readonly detail: RunDetail }) {
  const navigate = useNavigate()
  const { run } = detail
  useScreenTitle(`Run ${run.id}`)
  const tags = [...new Set(detail.readings.map((r) => r.reading.part))]
  return (
    <div className="screen run">
      <header>
        <h1>Run {run.id} has ended</h1>
        <p className="lead">
          {run.title ?? run.testerName}. Its readings can still be corrected on the page of each part.
        </p>
      </header>
      <ul className="run-tags">
        {tags.map((t) => (
          <li key={t}>
            <Link to="/parts/$tag" params={{ tag: t }}>
              {t}
            </Link>
          </li>
        ))}
      </ul>
      <p className="actions run-next">
        <button type="button" className="button first" onClick={() => navigate({ to: '/run' })}>
          Begin another run
        </button>
      </p>
    </div>
  )
}
