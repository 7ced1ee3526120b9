import { Link, useNavigate } from '@tanstack/react-router'
import { useEffect, useRef } from 'react'
import type { JobDetail, JobPositionEntry, PositionChanges } from '#api'
import { decisions } from '#core/job'
import { KeptArea, KeptChoice, KeptLine } from '#web/field'
import { api } from '#web/live'
import { Plain, Prose } from '#web/typeset'
import { keepPosition, kept, useTried } from './edits.ts'
import { PositionParts } from './position-parts.tsx'
import { countingPart, WordShown } from './words.tsx'

interface Props {
  readonly job: JobDetail['job']
  readonly position: JobPositionEntry
}

const names = {
  ref: 'Position',
  type: 'Type wanted',
  role: 'Role',
  found: 'Found, in words',
  foundPart: 'Part found',
  fitted: 'Fitted, in words',
  fittedPart: 'Part fitted',
  note: 'Note',
  circuit: 'Circuit as text',
} as const

type Field = keyof typeof names

/** The position that is looked at: its parts, and what is said of it. */
export function PositionPanel({ job, position }: Props) {
  const { ref, role, decision, done } = position
  const heading = useRef<HTMLHeadingElement>(null)
  const navigate = useNavigate()
  useEffect(() => {
    heading.current?.scrollIntoView({ block: 'nearest' })
  }, [])
  const keep = async (changes: PositionChanges, say: string): Promise<void> => {
    await keepPosition(job.id, ref, say, changes)
  }
  const field = (name: Field) => ({
    label: names[name],
    value: position[name] ?? '',
    onKeep: async (text: string): Promise<void> => {
      await keep({ [name]: text }, `${names[name]} of ${ref} changed.`)
      if (name === 'ref') await navigate({ to: '.', search: { ref: text }, replace: true, resetScroll: false })
    },
  })
  return (
    <section className="position" aria-labelledby="position-title">
      <h2 id="position-title" ref={heading}>
        <bdi>{ref}</bdi>
        {role !== undefined && <span className="soft">, {role}</span>}
      </h2>
      <section className="spread">
        <h3>In its circuit</h3>
        <div className="matter">
          <InCircuit job={job.id} position={position} />
          <PositionParts job={job} position={position} />
        </div>
      </section>
      <section className="spread">
        <h3>What is said of it</h3>
        <div className="matter">
          <div className="job-fields">
            <KeptChoice
              label="Decision"
              value={decision}
              words={decisions}
              onKeep={(text) => keep({ decision: text as JobPositionEntry['decision'] }, `Decision of ${ref} changed.`)}
            />
            <KeptChoice
              label="Done"
              value={done ? 'yes' : 'no'}
              words={['no', 'yes']}
              onKeep={(text) => keep({ done: text === 'yes' }, `${ref} is ${text === 'yes' ? 'done' : 'open again'}.`)}
            />
            <KeptLine {...field('foundPart')} hint="its tag, where it has one" />
            <KeptLine {...field('found')} longest={2000} hint="no marking, one lead broken" />
            <KeptLine {...field('fittedPart')} hint="its tag" />
            <KeptLine {...field('fitted')} longest={2000} hint="where it has no tag" />
            <KeptLine {...field('ref')} longest={40} />
            <KeptLine {...field('type')} />
            <KeptLine {...field('role')} longest={2000} hint="first audio stage" />
            <KeptArea {...field('note')} className="job-wide" hint="What you saw, heard or smelled" />
            <details className="job-wide">
              <summary>Circuit as text</summary>
              <KeptArea {...field('circuit')} longest={100_000} hint="stage: divider …" className="job-circuit" />
            </details>
          </div>
          <TakeOut job={job} position={position} />
        </div>
      </section>
    </section>
  )
}

/** The part that is looked at first in the circuit: one that was tried, and is not used there already. */
function lookedAt(position: JobPositionEntry): string | undefined {
  const part = countingPart(position)
  return part?.verdict === undefined || part.as === 'fitted' ? undefined : part.tag
}

function InCircuit({ job, position }: { readonly job: number; readonly position: JobPositionEntry }) {
  const { ref, stage, fault, wanted } = position
  const part = lookedAt(position)
  const link = (
    <Link to="/stage" search={{ job: String(job), ref, ...(part === undefined ? {} : { part }) }}>
      {stage === undefined ? 'Write down its circuit' : 'Look at it in its circuit'}
    </Link>
  )
  if (fault !== undefined)
    return (
      <>
        {fault.split('\n').map((line) => (
          <p key={line} className="field-fault">
            {line}
          </p>
        ))}
        <p>{link}</p>
      </>
    )
  if (stage === undefined) return <p>Its circuit is not known, so nothing can be said of its parts. {link}.</p>
  return (
    <>
      <p>
        {stage.title}: {stage.stage}, {stage.polarity}, <Plain value={stage.supply} unit="V" />. {link}.
      </p>
      {wanted !== undefined && (
        <p className="soft">
          {wanted.part} as published: <WordShown word={wanted.verdict.word} />. <Prose text={wanted.verdict.why} />
        </p>
      )}
    </>
  )
}

function TakeOut({ job, position: { ref } }: Props) {
  const navigate = useNavigate()
  const { fault, tried } = useTried()
  const take = async (): Promise<void> => {
    await kept(api.removePosition(job.id, ref), `${ref} taken out of ${job.name}.`)
    await navigate({ to: '.', search: {}, replace: true, resetScroll: false })
  }
  return (
    <p className="actions">
      <button type="button" className="word" onClick={() => tried(take)}>
        Take {ref} out of the job
      </button>
      {fault !== undefined && <span className="field-fault">{fault}</span>}
    </p>
  )
}
