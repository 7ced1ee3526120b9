import { Link, useNavigate } from '@tanstack/react-router'
import { type FormEvent, useEffect, useMemo, useRef, useState } from 'react'
import type { RunDetail } from '#api'
import { judgePart } from '#core/judge'
import { nextTag, type Session } from '#core/sheet'
import { tagProblem } from '#core/tester'
import { announce, api, queryClient, queryKeys, sayDone } from '#web/live'
import { OutcomeWord, Prose } from '#web/typeset'
import { ReadList, SoFarList } from './rail.tsx'
import { soFar } from './so-far.ts'
import type { RunState } from './use-run.ts'
import { useSending } from './use-run.ts'

interface Props {
  readonly detail: RunDetail
  readonly run: RunState
  readonly session: Session | undefined
}

/** Between two parts: how the last one came out, and the tag of the next. Enter goes on. */
export function PartDone({ detail, run, session }: Props) {
  const last = session?.part ?? run.parts.at(-1)
  const [tag, setTag] = useState(() => (last === undefined ? '' : nextTag(last)))
  const field = useRef<HTMLInputElement>(null)
  const { unsent } = useSending()
  const waits = unsent.some((u) => u.run === detail.run.id && u.refused === undefined)
  useEffect(() => {
    field.current?.focus()
    field.current?.select()
  }, [])
  useSettled(detail.run.id, session?.part, waits)
  const wanted = tag.trim()
  const bad = wanted === '' ? undefined : tagProblem(wanted)
  const isThere = run.parts.includes(wanted)
  const onSubmit = (e: FormEvent): void => {
    e.preventDefault()
    if (wanted !== '' && bad === undefined) run.beginPart(wanted)
  }
  return (
    <div className="run-page">
      <div className="step">
        <div className="step-head">
          {session === undefined ? (
            <h1 className="step-say">Which part is next?</h1>
          ) : (
            <HowItCameOut session={session} />
          )}
        </div>
        <form className="next-part" onSubmit={onSubmit}>
          <div className="entry-line">
            <label className="entry-label" htmlFor="next-tag">
              Next part
            </label>
            <input
              id="next-tag"
              ref={field}
              className="entry-field"
              autoComplete="off"
              spellCheck={false}
              enterKeyHint="go"
              maxLength={200}
              value={tag}
              onChange={(e) => setTag(e.target.value)}
              aria-describedby="next-note"
            />
          </div>
          <p className="soft small echo" id="next-note">
            {bad !== undefined
              ? `"${wanted}" ${bad.problem}. ${bad.mend}`
              : isThere
                ? `${wanted} was read in this run already: its readings stand, and each can be corrected.`
                : 'The tag is free to choose. Enter begins it.'}
          </p>
          <p className="step-actions">
            <button type="submit" className="button first step-go" disabled={wanted === '' || bad !== undefined}>
              Begin {wanted === '' ? 'it' : wanted} <kbd>Enter</kbd>
            </button>
            {session !== undefined && (
              <button type="button" className="word" onClick={run.back}>
                Back to {session.part}
              </button>
            )}
            <EndRun run={detail.run.id} waits={waits} />
          </p>
        </form>
      </div>
      {session !== undefined && (
        <aside className="rail" aria-label="This part">
          <SoFarList session={session} typed={session.readings} />
          <ReadList run={run} session={session} />
        </aside>
      )}
    </div>
  )
}

/** Has the results of a part that is done kept in the book, once all its readings are there. */
function useSettled(run: number, part: string | undefined, waits: boolean): void {
  useEffect(() => {
    if (part === undefined || waits) return
    api.settleRun(run, part).then(
      () => queryClient.invalidateQueries({ queryKey: queryKeys.drawer }),
      () => undefined,
    )
  }, [run, part, waits])
}

function HowItCameOut({ session }: { readonly session: Session }) {
  const found = useMemo(() => soFar(session.sheet, Object.values(session.readings)), [session])
  const verdict =
    found === undefined || session.sheet.partType === undefined
      ? undefined
      : judgePart(found.result, session.sheet.partType)
  const isShort = session.stopped !== undefined
  const isUnjudged = verdict !== undefined && !verdict.verdicts.some((v) => v.verdict !== 'not comparable')
  useEffect(
    () => announce(isShort ? `${session.part} is shorted.` : `${session.part} is done.`),
    [isShort, session.part],
  )
  if (isShort)
    return (
      <>
        <h1 className="step-say">{session.part} is shorted. Take it out and mark it.</h1>
        <p className="step-why">Nothing is read after a short. If it was a slip, go back and correct it.</p>
        <p>
          <MarkBad tag={session.part} />
        </p>
      </>
    )
  return (
    <>
      <h1 className="step-say">{session.part} is done. Take it out.</h1>
      {verdict !== undefined && found?.result.state === 'measured' && (
        <p className="done-verdict">
          <OutcomeWord of={isUnjudged ? 'not judged' : verdict.word} />
          <span className="done-why">
            <Prose text={verdict.why} />
          </span>
        </p>
      )}
      <p className="step-why">
        <Link to="/parts/$tag" params={{ tag: session.part }}>
          See all of {session.part}
        </Link>
      </p>
    </>
  )
}

function MarkBad({ tag }: { readonly tag: string }) {
  const [isMarked, setMarked] = useState(false)
  const mark = async (): Promise<void> => {
    const { edit } = await api.changeParts([tag], { status: 'bad' })
    setMarked(true)
    sayDone({ say: `${tag} is marked bad.`, ...(edit === undefined ? {} : { edit }) })
  }
  if (isMarked) return <span className="soft">Marked bad in the book.</span>
  return (
    <button type="button" className="word" onClick={() => void mark().catch(() => setMarked(false))}>
      Mark {tag} bad in the book
    </button>
  )
}

function EndRun({ run, waits }: { readonly run: number; readonly waits: boolean }) {
  const navigate = useNavigate()
  const [fault, setFault] = useState<string>()
  const end = (): void => {
    api.finishRun(run).then(
      () => {
        void queryClient.invalidateQueries({ queryKey: queryKeys.runs })
        void navigate({ to: '/drawer' })
      },
      (e: unknown) => setFault(e instanceof Error ? e.message : String(e)),
    )
  }
  return (
    <>
      <button type="button" className="word" onClick={end} disabled={waits}>
        End the run
      </button>
      {fault !== undefined && (
        <span className="field-fault" role="alert">
          {fault}
        </span>
      )}
    </>
  )
}
