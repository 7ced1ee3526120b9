import { useQuery } from '@tanstack/react-query'
import { Link, useNavigate } from '@tanstack/react-router'
import { type FormEvent, useState } from 'react'
import type { JobInShort } from '#api'
import { boardColumns } from '#core/job'
import { Field, FileButton } from '#web/field'
import { api, bookQuery, jobsQuery, queryClient, useScreenTitle } from '#web/live'
import { Waiting } from '#web/shell'
import { dayText } from '#web/typeset'
import { kept, useTried } from './edits.ts'
import './jobs.css'

/** Jobs in hand, how far each is, and the way to begin another. */
export function JobsScreen() {
  useScreenTitle('Jobs')
  const { data, error } = useQuery(jobsQuery)
  if (data === undefined && error !== null) throw error
  if (data === undefined) return <Waiting />
  return (
    <div className="screen jobs">
      <header>
        <h1>Jobs</h1>
        <p className="lead">
          Equipment you mend, position by position: what stood there, what stays, what goes in, and whether it will work
          there.
        </p>
      </header>
      {data.length === 0 ? <NoJobs /> : <JobList jobs={data} />}
      <section className="spread">
        <h2>Begin a job</h2>
        <div className="matter">
          <NewJob />
        </div>
      </section>
    </div>
  )
}

function NoJobs() {
  const { data } = useQuery(bookQuery)
  const { fault, tried } = useTried()
  const demo = async (): Promise<void> => {
    await api.makeDemo()
    await queryClient.invalidateQueries()
  }
  return (
    <div className="jobs-none">
      <p>
        There is no job in this book yet. Name the equipment on your bench below, then write down its positions: their
        names, the part type wanted, and what you found.
      </p>
      {data?.isEmpty === true && (
        <p>
          Or look at one first:{' '}
          <button type="button" className="word" onClick={() => tried(demo)}>
            put the demo into this book
          </button>
          . It is the job of a tide recorder with seven germanium transistors.
        </p>
      )}
      {fault !== undefined && <p className="field-fault">{fault}</p>}
    </div>
  )
}

const JobList = ({ jobs }: { readonly jobs: readonly JobInShort[] }) => (
  <ul className="jobs-list">
    {jobs.map((job) => (
      <li key={job.id}>
        <h2>
          <Link to="/jobs/$id" params={{ id: String(job.id) }}>
            {job.name}
          </Link>
        </h2>
        <p className="soft">{[job.equipment, stateText(job)].filter(Boolean).join('; ')}</p>
        <Progress of={job.progress} />
      </li>
    ))}
  </ul>
)

function stateText({ state, begunOn, finishedOn }: JobInShort): string {
  if (state === 'done') return finishedOn === undefined ? 'done' : `done on ${dayText(finishedOn)}`
  const begun = begunOn === undefined ? '' : `begun ${dayText(begunOn)}`
  return [state === 'waiting' ? 'waiting' : '', begun].filter(Boolean).join(', ')
}

/** How many positions stand in each column of the board. */
const Progress = ({ of }: { readonly of: JobInShort['progress'] }) => (
  <p className="jobs-progress">
    {boardColumns.map((column) => (
      <span key={column} className={of[column] === 0 ? 'soft' : undefined}>
        <b>{of[column]}</b> {column}
      </span>
    ))}
  </p>
)

function NewJob() {
  const [name, setName] = useState('')
  const [equipment, setEquipment] = useState('')
  const { fault, tried } = useTried()
  const navigate = useNavigate()
  const go = (job: number) => navigate({ to: '/jobs/$id', params: { id: String(job) } })
  const add = async (): Promise<void> => {
    const about = { name: name.trim(), ...(equipment.trim() === '' ? {} : { equipment: equipment.trim() }) }
    const { job } = await kept(api.addJob(about), `Job ${about.name} added.`)
    await go(job)
  }
  const send = (e: FormEvent): void => {
    e.preventDefault()
    if (name.trim() !== '') tried(add)
  }
  const onFile = (chosen: File): void =>
    tried(async () => {
      const done = await kept(api.addJobText(await chosen.text(), chosen.name), `Job of ${chosen.name} added.`)
      await go(done.job)
    })
  return (
    <form onSubmit={send}>
      <div className="job-fields">
        <Field label="Name" example="Hut intercom" value={name} onText={setName} />
        <Field
          label="Equipment"
          example="intercom of two stations, four transistors"
          value={equipment}
          longest={2000}
          onText={setEquipment}
        />
      </div>
      <p className="actions jobs-begin">
        <button type="submit" className="button first" disabled={name.trim() === ''}>
          Begin
        </button>
        <FileButton says="Take it from a file" accept=".yaml,.yml,.json" onFile={onFile} />
        <span className="soft small">
          YAML or JSON; <code>germane job --example</code> prints one.
        </span>
      </p>
      {fault?.split('\n').map((line) => (
        <p key={line} className="field-fault" role="alert">
          {line}
        </p>
      ))}
    </form>
  )
}
