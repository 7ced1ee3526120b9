import { queryOptions, useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { type BookSummary, type DrawerBlock, type RunEntry, rowsPerBlock } from '#api'
import { outcomes } from '#report/typeset'
import { api, editsQuery, jobsQuery, openRunsQuery, queryKeys, undo } from '#web/live'
import { dayText, LetterSymbol, Measured, OutcomeShape, OutcomeWord, whenText } from '#web/typeset'
import { newestParts, outcomeCounts } from './newest.ts'

interface Props {
  readonly book: BookSummary
}

/** A book in use: runs to go on with, what came of the newest parts, and how the book is. */
export function UsedStart({ book }: Props) {
  return (
    <div className="screen start">
      <header className="start-head">
        <div>
          <h1>{book.isDemo ? 'The demo book' : book.file.replace(/\.germane$/, '')}</h1>
          <Summary book={book} />
        </div>
        <p className="actions">
          <Link to="/identify" className="button">
            What is this part?
          </Link>
          <Link to="/run" className="button first">
            New run
          </Link>
        </p>
      </header>
      <OpenRuns />
      <JobsInHand />
      <NewestParts book={book} />
      <Edits />
      <TheFile book={book} />
    </div>
  )
}

/** A book of more parts than this is not fetched whole for the start; its drawer is a screen of its own. */
const small = 3000

const wholeDrawer = queryOptions({ queryKey: [...queryKeys.drawer, 'start'], queryFn: () => api.drawer() })

function Summary({ book }: Props) {
  const { data } = useQuery({ ...wholeDrawer, enabled: book.parts <= small })
  const counts = data === undefined ? undefined : outcomeCounts(data.blocks)
  return (
    <>
      <p className="lead">
        {amount(book.parts, 'part')}
        {book.lots.length > 0 && ` in ${amount(book.lots.length, 'lot')}`}, {amount(book.readings, 'reading')} in{' '}
        {amount(book.runs, 'run')}.
      </p>
      {counts !== undefined && (
        <ul className="start-counts">
          {outcomes
            .filter((o) => (counts.get(o) ?? 0) > 0)
            .map((o) => (
              <li key={o}>
                <Link to="/drawer" search={{ verdict: o }} className="plain">
                  <b>{counts.get(o)}</b> <OutcomeWord of={o} />
                </Link>
              </li>
            ))}
        </ul>
      )}
    </>
  )
}

const amount = (n: number, thing: string): string => `${n.toLocaleString('en')} ${n === 1 ? thing : `${thing}s`}`

function OpenRuns() {
  const { data } = useQuery(openRunsQuery)
  if (data === undefined || data.length === 0) return null
  return (
    <section className="spread">
      <h2>
        Go on with <span className="soft">{data.length === 1 ? 'one open run' : `${data.length} open runs`}</span>
      </h2>
      <ul className="matter start-runs">
        {data.map((r) => (
          <li key={r.id}>
            <Link to="/run/$id" params={{ id: String(r.id) }}>
              <b>{r.type ?? 'Unmarked part'}</b> on {r.testerName}
            </Link>
            <span className="soft">{runStand(r)}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** Jobs that are not done. */
function JobsInHand() {
  const { data } = useQuery(jobsQuery)
  const open = data?.filter((job) => job.state !== 'done') ?? []
  if (open.length === 0) return null
  return (
    <section className="spread">
      <h2>
        On the bench <span className="soft">{amount(open.length, 'job')}</span>
      </h2>
      <ul className="matter start-runs">
        {open.map(({ id, name, positions, progress }) => (
          <li key={id}>
            <Link to="/jobs/$id" params={{ id: String(id) }}>
              <b>{name}</b>
            </Link>
            <span className="soft">
              {positions === 0 ? 'no position yet' : `${progress.done} of ${amount(positions, 'position')} done`}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}

function runStand(r: RunEntry): string {
  const begun = `begun ${whenText(r.startedAt)}`
  if (r.readings === 0) return `${begun}; no reading yet`
  const last = r.lastPart === undefined ? '' : `, ${r.lastPart} last`
  return `${begun}; ${amount(r.readings, 'reading')} of ${amount(r.parts, 'part')}${last}`
}

/** Parts shown. */
const most = 12

/** The end of the drawer, where the newest parts are; of a small book the whole of it, which the counts want as well. */
function useBlocks(book: BookSummary): readonly DrawerBlock[] | undefined {
  const isSmall = book.parts <= small
  const from = Math.floor(Math.max(0, book.parts - most) / rowsPerBlock)
  const whole = useQuery({ ...wholeDrawer, enabled: isSmall })
  const end = useQuery({
    queryKey: [...queryKeys.drawer, 'end', from],
    queryFn: () => api.drawer(from),
    enabled: !isSmall,
  })
  return (isSmall ? whole : end).data?.blocks
}

function NewestParts({ book }: Props) {
  const blocks = useBlocks(book)
  if (blocks === undefined) return null
  const parts = newestParts(blocks, most)
  return (
    <section className="spread">
      <h2>
        Newest parts{' '}
        <span className="soft">
          <Link to="/drawer">all in the drawer</Link>
        </span>
      </h2>
      <div className="matter">
        {parts.length === 0 ? (
          <p>
            No part has been read yet. <Link to="/run">Begin a run</Link>: the part gets its tag there.
          </p>
        ) : (
          <ul className="newest">
            {parts.map((p) => (
              <li key={p.tag}>
                <Link to="/parts/$tag" params={{ tag: p.tag }} className="newest-row">
                  <span className="newest-mark">
                    <OutcomeShape of={p.outcome} />
                  </span>
                  <span className="newest-tag">{p.tag}</span>
                  <span>{p.type ?? <span className="soft">no type</span>}</span>
                  <span className="n">
                    {p.gain !== undefined && (
                      <>
                        <span className="soft newest-symbol">
                          <LetterSymbol of={p.gain.symbol} />
                        </span>{' '}
                        <Measured value={p.gain.value} half={2 * p.gain.u} unit="1" />
                      </>
                    )}
                  </span>
                  <span className="newest-word">{p.outcome}</span>
                  <span className="soft newest-place">{p.place}</span>
                </Link>
              </li>
            ))}
          </ul>
        )}
      </div>
    </section>
  )
}

function TheFile({ book }: Props) {
  return (
    <section className="spread">
      <h2>The book</h2>
      <div className="matter">
        <p>
          <span className="mono">{book.file}</span>
          {book.madeAt !== undefined && <span className="soft">, begun {dayText(book.madeAt)}</span>}. One file holds
          everything; copy it with <code>germane book backup</code>.
        </p>
        {book.isDemo && (
          <p className="soft">
            All in it is invented. Begin a book of your own with <code>germane serve --book mine.germane</code>.
          </p>
        )}
      </div>
    </section>
  )
}

/** What was changed last, each with the way back. */
function Edits() {
  const { data } = useQuery(editsQuery)
  const last = data?.filter((e) => e.undoneBy === undefined && e.undoes === undefined).slice(0, 5) ?? []
  if (last.length === 0) return null
  return (
    <section className="spread">
      <h2>Changed last</h2>
      <div className="matter">
        <ul className="start-edits">
          {last.map((e) => (
            <li key={e.id}>
              <span>{e.say}</span>
              <button type="button" className="word" onClick={() => undo(e.id)}>
                Undo<span className="vh">: {e.say}</span>
              </button>
            </li>
          ))}
        </ul>
      </div>
    </section>
  )
}
