import { Link } from '@tanstack/react-router'
import { useEffect, useRef, useState } from 'react'
import { betterRanked, type RankedPart, type Ranking } from '#core/stage'
import { announce, api } from '#web/live'
import { LetterSymbol, Plain } from '#web/typeset'
import type { Question } from './question.ts'
import { startThread, type Task, type Told } from './task.ts'
import { StageWordShown } from './verdict.tsx'
import { percent, Table } from './working.tsx'

/** Parts asked of the book at a time, and rows shown before more are asked for. */
const page = 400
const rows = 25

interface Progress extends Ranking {
  readonly done: number
  readonly of: number
  readonly state: 'running' | 'done' | 'stopped' | 'failed'
  readonly fault?: string
}

/** The whole drawer, tried in this position, best first. */
export function Drawer({ question }: { readonly question: Question }) {
  const [progress, setProgress] = useState<Progress>()
  const ending = useRef<() => void>(undefined)
  // biome-ignore lint/correctness/useExhaustiveDependencies: what was tried in another position does not hold
  useEffect(() => {
    setProgress(undefined)
    return () => ending.current?.()
  }, [question.position, question.own])
  const begin = (): void => {
    ending.current = tryDrawer(question, setProgress)
  }
  const stop = (): void => {
    ending.current?.()
    setProgress((p) => (p === undefined ? undefined : { ...p, state: 'stopped' }))
  }
  if (progress === undefined)
    return (
      <p className="actions">
        <button type="button" className="button" onClick={begin}>
          Try the whole drawer here
        </button>
      </p>
    )
  return (
    <>
      {progress.state === 'running' && (
        <p className="actions">
          <progress max={Math.max(1, progress.of)} value={progress.done} aria-label="Parts tried" />
          <span className="soft">
            {progress.done} of {progress.of}
          </span>
          <button type="button" className="button" onClick={stop}>
            Stop
          </button>
        </p>
      )}
      {progress.state === 'failed' && <p className="field-fault">{progress.fault}</p>}
      {progress.state === 'stopped' && (
        <p className="soft">
          Stopped: {progress.done} of {progress.of} parts were tried.
        </p>
      )}
      <Ranked ranking={progress} isDone={progress.state !== 'running'} />
    </>
  )
}

/** Asks the book for its parts, some at a time, and has them tried in a thread. Gives back the way to stop. */
function tryDrawer({ position, own, nearA }: Question, tell: (progress: Progress) => void): () => void {
  let thread: Worker | undefined = startThread()
  let now: Progress = { ranked: [], leftOut: [], done: 0, of: 0, state: 'running' }
  const say = (more: Partial<Progress>): void => {
    if (thread === undefined) return
    now = { ...now, ...more }
    tell(now)
  }
  const end = (): void => {
    thread?.terminate()
    thread = undefined
  }
  const tryPage = (task: Task): Promise<void> =>
    new Promise((keep, lose) => {
      if (thread === undefined) return keep()
      thread.onmessage = ({ data }: MessageEvent<Told>) => {
        if (data.kind === 'ranked')
          say({
            ranked: [...now.ranked, ...data.ranked].sort(betterRanked),
            leftOut: [...now.leftOut, ...data.leftOut],
            done: now.done + data.ranked.length + data.leftOut.length,
          })
        if (data.kind === 'done') keep()
        if (data.kind === 'fault') lose(new Error(data.faults.join(' ')))
      }
      thread.postMessage(task)
    })
  const all = async (): Promise<void> => {
    for (let from = 0; thread !== undefined && (from === 0 || from < now.of); from += page) {
      const found = await api.stageParts({ near: nearA, from, count: page })
      say({ of: found.of, leftOut: [...now.leftOut, ...found.leftOut], done: now.done + found.leftOut.length })
      await tryPage({ kind: 'rank', position, others: own, drawer: found.parts })
    }
    say({ state: 'done' })
    announce(`${now.ranked.length} parts were tried.`)
    end()
  }
  tell(now)
  all().catch((e: unknown) => {
    say({ state: 'failed', fault: e instanceof Error ? e.message : String(e) })
    end()
  })
  return end
}

function Ranked({ ranking: { ranked, leftOut }, isDone }: { readonly ranking: Ranking; readonly isDone: boolean }) {
  const [shown, setShown] = useState(rows)
  if (ranked.length === 0) {
    if (!isDone) return null
    return (
      <>
        <p>No part of the book could be tried here.</p>
        <LeftOut all={leftOut} />
      </>
    )
  }
  return (
    <>
      {isDone && <Surprises ranked={ranked} />}
      <Table
        name="Parts, best first"
        head={[
          'Part',
          'Verdict',
          'Spare',
          'Gain',
          'Leakage',
          <LetterSymbol key="i" of="I_C" />,
          <LetterSymbol key="v" of="V_CE" />,
        ]}
      >
        {ranked.slice(0, shown).map((r) => (
          <Row key={r.part.name} ranked={r} />
        ))}
      </Table>
      {ranked.length > shown && (
        <p>
          <button type="button" className="word" onClick={() => setShown(shown + 4 * rows)}>
            Show more of the {ranked.length}
          </button>
        </p>
      )}
      <LeftOut all={leftOut} />
    </>
  )
}

function Row({ ranked: { part, verdict, point } }: { readonly ranked: RankedPart }) {
  return (
    <>
      <tr className="stage-ranked">
        <th scope="row">
          <Link to="/parts/$tag" params={{ tag: part.name }}>
            {part.name}
          </Link>
        </th>
        <td className="n">
          <StageWordShown word={verdict.word} />
        </td>
        <td className="n">{percent(verdict.margin)}</td>
        <td className="n">{part.kind === 'bipolar' && <Plain value={part.gain.usual} unit="1" digits={3} />}</td>
        <td className="n">
          <Plain value={part.leakageA.usual} unit="A" digits={2} />
        </td>
        <td className="n">{point !== undefined && <Plain value={point.ic} unit="A" digits={3} />}</td>
        <td className="n">{point !== undefined && <Plain value={point.vce} unit="V" digits={3} />}</td>
      </tr>
      <tr className="stage-why">
        <td colSpan={7} className="soft small">
          {verdict.why}
        </td>
      </tr>
    </>
  )
}

/** What one would not have guessed: the leakiest part that is fine here, and the tightest one that is not. */
function Surprises({ ranked }: { readonly ranked: readonly RankedPart[] }) {
  const fine = ranked.filter((r) => r.verdict.word === 'works')
  const bad = ranked.filter((r) => r.verdict.word === 'will not')
  const leak = (r: RankedPart): number => r.part.leakageA.usual
  const leaky = fine.reduce<RankedPart | undefined>((a, b) => (a === undefined || leak(b) > leak(a) ? b : a), undefined)
  const tight = bad.reduce<RankedPart | undefined>((a, b) => (a === undefined || leak(b) < leak(a) ? b : a), undefined)
  return (
    <p role="status">
      {fine.length} of {ranked.length} work here.{' '}
      {leaky !== undefined && fine.length > 1 && (
        <>
          {leaky.part.name} leaks most of them, <Plain value={leak(leaky)} unit="A" digits={2} />, and is still fine:{' '}
          {leaky.verdict.why}{' '}
        </>
      )}
      {tight !== undefined && (
        <>
          {tight.part.name} leaks only <Plain value={leak(tight)} unit="A" digits={2} />, and will not:{' '}
          {tight.verdict.why}
        </>
      )}
    </p>
  )
}

function LeftOut({ all }: { readonly all: Ranking['leftOut'] }) {
  if (all.length === 0) return null
  return (
    <details>
      <summary>{all.length === 1 ? 'One part was not tried' : `${all.length} parts were not tried`}</summary>
      <ul className="stage-left">
        {all.slice(0, 200).map((l) => (
          <li key={l.name}>
            <b>{l.name}</b> <span className="soft">{l.why}</span>
          </li>
        ))}
      </ul>
    </details>
  )
}
