import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate, useParams, useSearch } from '@tanstack/react-router'
import { ApiFault, type JobDetail } from '#api'
import { api, jobQuery, queryKeys, sayDone, useScreenTitle } from '#web/live'
import { Photos } from '#web/photos'
import { NotThere, Waiting } from '#web/shell'
import { JobAbout } from './about.tsx'
import { AddPosition } from './add-position.tsx'
import { Board } from './board.tsx'
import { kept } from './edits.ts'
import { PositionPanel } from './position-panel.tsx'
import './jobs.css'

/** One job: its board, the position that is looked at, and what is said of the whole. */
export function JobScreen() {
  const { id = '' } = useParams({ strict: false }) as { id?: string }
  const isNumber = /^\d+$/.test(id)
  const { data, error } = useQuery({ ...jobQuery(Number(id)), enabled: isNumber })
  useScreenTitle(data?.job.name)
  if (!isNumber || (error instanceof ApiFault && error.status === 404)) return <NoSuchJob id={id} />
  if (data === undefined && error !== null) throw error
  return data === undefined ? <Waiting /> : <OneJob detail={data} />
}

const NoSuchJob = ({ id }: { readonly id: string }) => (
  <NotThere title="No such job" say={`No job of this book has the number ${id}. It may have been taken away.`}>
    <Link to="/jobs" className="button">
      See the jobs there are
    </Link>
  </NotThere>
)

function OneJob({ detail }: { readonly detail: JobDetail }) {
  const { job, positions, photos, reserved } = detail
  const { ref } = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const chosen = positions.find((one) => one.ref === ref)
  return (
    <div className="screen job">
      <Head detail={detail} />
      <Cautions detail={detail} />
      <section className="job-board" aria-label="Board">
        {positions.length === 0 ? (
          <p>
            No position is written down yet. Add the first: its name as the circuit or the board gives it, such as TR1.
          </p>
        ) : (
          <Board job={job} positions={positions} chosen={chosen?.ref} />
        )}
        <AddPosition job={job.id} name={job.name} />
      </section>
      {chosen !== undefined && <PositionPanel key={chosen.ref} job={job} position={chosen} />}
      {reserved.length > 0 && (
        <section className="spread">
          <h2>Reserved for the job</h2>
          <ul className="matter">
            {reserved.map(({ tag, type }) => (
              <li key={tag}>
                <Link to="/parts/$tag" params={{ tag }}>
                  <bdi>{tag}</bdi>
                </Link>{' '}
                <span className="soft">{type}</span>{' '}
                <button
                  type="button"
                  className="word"
                  onClick={() => void kept(api.release(tag), `${tag} released.`)}
                  aria-label={`Release ${tag}`}
                >
                  Release
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section className="spread">
        <h2>About the job</h2>
        <div className="matter">
          <JobAbout job={job} />
        </div>
      </section>
      <section className="spread">
        <h2>Photos</h2>
        <div className="matter">
          <Photos
            of={job.name}
            photos={photos}
            queryKey={queryKeys.job(job.id)}
            onAdd={(picture, name) => api.addJobPhoto(job.id, picture, name)}
          />
        </div>
      </section>
    </div>
  )
}

function Head({ detail: { job } }: { readonly detail: JobDetail }) {
  const navigate = useNavigate()
  // the list comes first, so that nobody asks for a job that is gone
  const remove = async (): Promise<void> => {
    await navigate({ to: '/jobs' })
    await kept(api.removeJob(job.id), `Job ${job.name} taken away.`).catch((e: Error) => sayDone({ say: e.message }))
  }
  return (
    <header>
      <p className="soft">
        <Link to="/jobs">Jobs</Link>
      </p>
      <h1>{job.name}</h1>
      {job.equipment !== undefined && <p className="lead">{job.equipment}</p>}
      {job.note !== undefined && <p className="job-note">{job.note}</p>}
      <p className="actions">
        <a href={api.jobReportUrl(job.id)} target="_blank" rel="noreferrer">
          Report
        </a>
        <a href={api.jobReportUrl(job.id, true)}>Save the report</a>
        <button type="button" className="word" onClick={() => void remove()}>
          Take the job away
        </button>
      </p>
    </header>
  )
}

/** What to mind before it is opened: the hazards in one line, the whole behind it. */
function Cautions({ detail: { cautions, job } }: { readonly detail: JobDetail }) {
  const hazards = cautions.map((c) => c.hazard)
  return (
    <details className="job-cautions">
      <summary>
        Before you open it: {hazards.slice(0, -1).join(', ')}, and {hazards.at(-1)}
      </summary>
      {job.power === undefined && (
        <p className="soft">Nobody has said what it runs from, so it is taken to be on the mains.</p>
      )}
      <dl>
        {cautions.map((c) => (
          <div key={c.hazard}>
            <dt>{c.hazard}</dt>
            <dd>
              {c.caution} {c.source !== undefined && <span className="soft small">{c.source}</span>}
            </dd>
          </div>
        ))}
      </dl>
    </details>
  )
}
