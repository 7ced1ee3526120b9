import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { lazy, Suspense } from 'react'
import type { TesterEntry } from '#api'
import { healthQuery, testersQuery, useScreenTitle } from '#web/live'
import { Waiting } from '#web/shell'
import { bookText } from '#web/typeset'
import { ScaleFace } from './scale-face.tsx'
import { gainText, kindWords, rangesText } from './tester-words.ts'
import './testers.css'

const NewTester = lazy(() => import('./tester-editor.tsx').then((m) => ({ default: m.NewTester })))

/** Every tester one can plan a run with. */
export function TestersScreen() {
  const search = useSearch({ strict: false }) as Readonly<Record<string, string>>
  return search.new === undefined ? (
    <TesterList />
  ) : (
    <Suspense fallback={<Waiting />}>
      <NewTester />
    </Suspense>
  )
}

function TesterList() {
  useScreenTitle('Testers')
  const { data, error } = useQuery(testersQuery)
  if (error !== null) throw error
  const own = data?.filter((t) => t.from === 'book') ?? []
  const samples = data?.filter((t) => t.from === 'sample') ?? []
  return (
    <div className="screen">
      <header className="testers-head">
        <div>
          <h1>Testers</h1>
          <p className="lead">
            What a tester is made of decides what a reading is worth: its ranges, its movement, its shunts, its cells.
          </p>
        </div>
        <Link to="/testers" search={{ new: '1' }} className="button">
          Describe yours
        </Link>
      </header>
      {data !== undefined && (
        <>
          <section className="spread">
            <h2>In this book</h2>
            <div className="matter">{own.length === 0 ? <NoneYet /> : <Rows testers={own} />}</div>
          </section>
          {samples.length > 0 && (
            <section className="spread">
              <h2>
                Samples <span className="soft">invented, to copy from</span>
              </h2>
              <div className="matter">
                <Rows testers={samples} />
              </div>
            </section>
          )}
        </>
      )}
    </div>
  )
}

function NoneYet() {
  return (
    <p>
      Yours is not described yet.{' '}
      <Link to="/testers" search={{ new: '1' }}>
        Describe it
      </Link>{' '}
      from its manual and its printed scales, or open the sample that is most like it and write over that one. Ten
      minutes once, and every reading knows its doubt.
    </p>
  )
}

function Rows({ testers }: { readonly testers: readonly TesterEntry[] }) {
  return (
    <ul className="testers">
      {testers.map((t) => (
        <li key={t.id}>
          <TesterRow entry={t} />
        </li>
      ))}
    </ul>
  )
}

function TesterRow({ entry }: { readonly entry: TesterEntry }) {
  const t = entry.tester
  const first = t.ranges[0]
  return (
    <Link to="/testers/$id" params={{ id: entry.id }} className="tester-row">
      <span className="tester-face" aria-hidden="true">
        {first !== undefined && <ScaleFace tester={t} range={first} />}
      </span>
      <span className="tester-says">
        <span className="tester-name">{entry.name}</span>
        <span className="soft">
          {kindWords[t.kind]}
          {entry.version !== undefined && `, version ${entry.version}`}
        </span>
        <span>{rangesText(t)}</span>
        <span>Gain: {gainText(t.gain).replace(/^./, (c) => c.toLowerCase())}</span>
        {entry.from === 'book' && <HealthLine entry={entry} />}
      </span>
    </Link>
  )
}

/** What the tester is worth today: by its calibrations, its parts as found, and its check standards. */
function HealthLine({ entry: { id, name } }: { readonly entry: TesterEntry }) {
  const { data } = useQuery(healthQuery)
  const own = data?.find((t) => t.tester === id)
  if (own === undefined) return null
  return (
    <span>
      Health: <b>{own.word}</b>, {bookText(own.say.slice(`${name}: `.length))}
    </span>
  )
}
