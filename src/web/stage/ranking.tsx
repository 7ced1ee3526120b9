import { Link } from '@tanstack/react-router'
import { useEffect, useRef, useState } from 'react'
import { betterRanked, type RankedPart, type Ranking } from '#core/stage'
import { announce, api } from '#web/live'
import { LetterSymbol, Plain, Prose } from '#web/typeset'
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

/** How much longer than sorting takes what was found is left unsorted, so that a large drawer is not sorted for ever. */
const sortingShare = 10

/** Asks the book for its parts, some at a time, and has them tried in a thread. Gives back the way to stop. */
function tryDrawer({ position, own, nearA }: Question, tell: (progress: Progress) => void): () => void {
  let thread: Worker | undefined = startThread()
  const ranked: RankedPart[] = []
  const leftOut: { readonly name: string; readonly why: string }[] = []
  let of = 0
  let rested = 0
  const say = (state: Progress['state'], fault?: string): void => {
    if (thread === undefined) return
    const begun = performance.now()
    if (state === 'running' && begun < rested) return
    const sorted = ranked.toSorted(betterRanked)
    rested = performance.now() + sortingShare * (performance.now() - begun)
    const done = ranked.length + leftOut.length
    tell({ ranked: sorted, leftOut: [...leftOut], done, of, state, ...(fault === undefined ? {} : { fault }) })
  }
  const end = (): void => {
    thread?.terminate()
    thread = undefined
  }
  const tryPage = (task: Task): Promise<void> =>
    new Promise((keep, lose) => {
      if (thread === undefined) return keep()
      thread.onmessage = ({ data }: MessageEvent<Told>) => {
        if (data.kind === 'ranked') {
          ranked.push(...data.ranked)
          leftOut.push(...data.leftOut)
          say('running')
        }
        if (data.kind === 'done') keep()
        if (data.kind === 'fault') lose(new Error(data.faults.join(' ')))
      }
      thread.postMessage(task)
    })
  const all = async (): Promise<void> => {
    for (let from = 0; thread !== undefined && (from === 0 || from < of); from += page) {
      const found = await api.stageParts({ near: nearA, from, count: page })
      of = found.of
      leftOut.push(...found.leftOut)
      await tryPage({ kind: 'rank', position, others: own, drawer: found.parts })
    }
    say('done')
    announce(`${ranked.length} parts were tried.`)
    end()
  }
  say('running')
  all().catch((e: unknown) => {
    say('failed', e instanceof Error ? e.message : String(e))
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
      <div className="stage-drawer">
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
      </div>
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
        <td colSpan={7}>
          <p className="soft small">
            <Prose text={verdict.why} />
          </p>
        </td>
      </tr>
    </>
  )
}

/** What one would not have guessed: a leaky part that is fine here, and one that looks as good as those and is not. */
function Surprises({ ranked }: { readonly ranked: readonly RankedPart[] }) {
  const fine = ranked.filter((r) => r.verdict.word === 'works')
  const leaky = most(fine, leakage)
  const good = most(
    ranked.filter((r) => r.verdict.word === 'will not' && leaky !== undefined && leakage(r) <= leakage(leaky)),
    (r) => -leakage(r),
  )
  const usual = ranked.map(leakage).sort((a, b) => a - b)[Math.floor(ranked.length / 2)] ?? 0
  return (
    <p role="status">
      {fine.length} of {ranked.length} work here.{' '}
      {leaky !== undefined && leakage(leaky) > muchMore * usual && (
        <>
          {leaky.part.name} leaks <Plain value={leakage(leaky)} unit="A" digits={2} />, and is still fine:{' '}
          <Prose text={clause(leaky.verdict.why)} />{' '}
        </>
      )}
      {good !== undefined && (
        <>
          {good.part.name} looks as good as those that work, with a leakage of{' '}
          <Plain value={leakage(good)} unit="A" digits={2} />, and will not: <Prose text={clause(good.verdict.why)} />
        </>
      )}
    </p>
  )
}

/** A part leaks much where it leaks so many times what the middle one of the drawer does. */
const muchMore = 3

const leakage = ({ part }: RankedPart): number => part.leakageA.usual

const most = (all: readonly RankedPart[], of: (r: RankedPart) => number): RankedPart | undefined =>
  all.reduce<RankedPart | undefined>((a, b) => (a === undefined || of(b) > of(a) ? b : a), undefined)

const clause = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1)

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
