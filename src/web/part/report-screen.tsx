import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { useEffect, useRef, useState } from 'react'
import type { ReportAddress, Work } from '#api'
import { api, bookQuery, chosenTags, useChanges, useScreenTitle } from '#web/live'
import './report.css'

type Workings = NonNullable<ReportAddress['workings']>

/** Parts that fit into an address. */
const mostInAddress = 60

/** A report to read, print or save: of a part, of a lot, or of what was chosen in the drawer. */
export function ReportScreen() {
  const search = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const tags = search.part !== undefined ? [search.part] : search.chosen !== undefined ? chosenTags() : undefined
  const title = search.part ?? search.lot ?? (tags && countOf(tags.length))
  useScreenTitle(title === undefined ? 'Report' : `Report of ${title}`)
  if (title === undefined) return <ReportOfWhat />
  return <Report tags={tags} lot={search.lot} title={title} />
}

const countOf = (n: number): string => (n === 1 ? '1 chosen part' : `${n.toLocaleString('en')} chosen parts`)

/** Nothing named yet: the lots there are, and how to choose parts. */
function ReportOfWhat() {
  const { data } = useQuery(bookQuery)
  return (
    <div className="screen">
      <header>
        <h1>Report</h1>
        <p className="lead">A report says what was measured, how it came out and how each number was worked out.</p>
      </header>
      <section className="spread">
        <h2>Of a lot</h2>
        <ul className="matter report-lots">
          {(data?.lots ?? []).map((l) => (
            <li key={l.name}>
              <Link to="/report" search={{ lot: l.name }}>
                {l.name}
              </Link>{' '}
              <span className="soft">{l.parts === 1 ? '1 part' : `${l.parts.toLocaleString('en')} parts`}</span>
            </li>
          ))}
          {data?.lots.length === 0 && <li className="soft">No lot is in the book yet.</li>}
        </ul>
      </section>
      <section className="spread">
        <h2>Of parts</h2>
        <p className="matter">
          Choose them in the <Link to="/drawer">drawer</Link> and press Report, or open one part.
        </p>
      </section>
    </div>
  )
}

interface ReportProps {
  readonly tags: readonly string[] | undefined
  readonly lot: string | undefined
  readonly title: string
}

function Report({ tags, lot, title }: ReportProps) {
  const [workings, setWorkings] = useState<Workings>(tags?.length === 1 ? 'open' : 'folded')
  const frame = useRef<HTMLIFrameElement>(null)
  const isLong = (tags?.length ?? 0) > mostInAddress
  const made = useMade(isLong ? tags : undefined, workings)
  const address: ReportAddress = {
    ...(tags === undefined ? {} : { tags }),
    ...(lot === undefined ? {} : { lot }),
    workings,
  }
  const url = isLong ? made.work?.made?.url : api.reportUrl(address)
  const print = (): void => {
    frame.current?.contentWindow?.focus()
    frame.current?.contentWindow?.print()
  }
  return (
    <div className="screen report">
      <div className="report-bar">
        <h1>Report of {title}</h1>
        <fieldset className="choice">
          <legend className="vh">Workings</legend>
          <span className="report-word soft" aria-hidden="true">
            Workings
          </span>
          {(['open', 'folded', 'none'] as const).map((w) => (
            <label key={w}>
              <input type="radio" name="workings" checked={workings === w} onChange={() => setWorkings(w)} />
              {w}
            </label>
          ))}
        </fieldset>
        <p className="actions">
          <button type="button" className="button first" onClick={print} disabled={url === undefined}>
            Print
          </button>
          {url !== undefined && (
            <a
              className="button"
              href={isLong ? url : api.reportUrl({ ...address, save: true })}
              download="report.html"
            >
              Save
            </a>
          )}
        </p>
      </div>
      {url === undefined ? (
        <HowFar {...made} />
      ) : (
        <iframe ref={frame} className="report-page" title={`Report of ${title}`} src={url} />
      )}
    </div>
  )
}

interface Making {
  readonly work?: Work
  /** Why it could not be begun. */
  readonly fault?: string
}

const isOver = (work: Work | undefined): boolean => work !== undefined && work.state !== 'running'

/** A report that takes long is made in a thread of its own; its progress is told, and it is stopped when one leaves. */
function useMade(tags: readonly string[] | undefined, workings: Workings): Making {
  const [making, setMaking] = useState<Making>({})
  const id = useRef<string>(undefined)
  const take = (work: Work): void => {
    // Answers and events may overtake each other: what has ended stays so.
    if (work.id === id.current) setMaking((was) => (isOver(was.work) ? was : { work }))
  }
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is read anew at every drawing; its length and ends tell two selections apart
  useEffect(() => {
    if (tags === undefined) return
    let isLeft = false
    setMaking({})
    const make = async (): Promise<void> => {
      const begun = await api.startWork({ kind: 'report', tags: [...tags], workings })
      if (isLeft) return void api.cancelWork(begun.id)
      id.current = begun.id
      take(begun)
      take(await api.work(begun.id))
    }
    make().catch((error: Error) => isLeft || setMaking({ fault: error.message }))
    return () => {
      isLeft = true
      if (id.current !== undefined) api.cancelWork(id.current).catch(() => undefined)
      id.current = undefined
    }
  }, [tags?.length, tags?.[0], tags?.at(-1), workings])
  useChanges((event) => {
    if (event.kind === 'work') take(event.work)
  })
  return making
}

function HowFar({ work, fault }: Making) {
  if (fault !== undefined) return <p className="said bad">{fault}</p>
  if (work?.state === 'failed')
    return <p className="said bad">{(work.faults ?? []).map((f) => f.sentence).join(' ')}</p>
  if (work?.state === 'cancelled')
    return <p className="said">Stopped. Choose how its workings stand to make it again.</p>
  return (
    <div className="report-making" role="status">
      <p>{work?.say ?? 'The report is being made.'}</p>
      <progress
        max={work === undefined || work.of === 0 ? undefined : work.of}
        value={work?.of === 0 ? undefined : work?.done}
        aria-label="How far the report is"
      />
      {work?.state === 'running' && (
        <button type="button" className="word" onClick={() => void api.cancelWork(work.id)}>
          Stop
        </button>
      )}
    </div>
  )
}
