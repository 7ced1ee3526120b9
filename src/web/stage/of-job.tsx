import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useEffect, useMemo, useState } from 'react'
import type { JobDetail, JobPositionEntry } from '#api'
import { explain } from '#core/fault'
import { api, jobQuery, queryClient, queryKeys, sayDone } from '#web/live'
import { Bench } from './bench.tsx'
import { type Draft, draftOf, draftOfText, draftText, firstDraft, withText } from './draft.ts'

interface Props {
  readonly job: number
  /** Its name in the job. */
  readonly position: string
  /** Tag of the part that is looked at first. */
  readonly part?: string | undefined
}

/** A position of a job: read from the book, and kept there again. */
export function PositionOfJob({ job, position: ref, part }: Props) {
  const { data, error } = useQuery(jobQuery(job))
  if (error !== null) throw error
  if (data === undefined) return <p className="soft">One moment …</p>
  const position = data.positions.find((p) => p.ref === ref)
  if (position === undefined)
    return (
      <p className="field-fault">
        {data.job.name} has no position {ref}.
      </p>
    )
  return <OfJob job={data.job} position={position} part={part} />
}

interface OfJobProps {
  readonly job: JobDetail['job']
  readonly position: JobPositionEntry
  readonly part: string | undefined
}

function OfJob({ job, position, part }: OfJobProps) {
  const { ref, circuit } = position
  const kept = useMemo(() => keptDraft(position), [position])
  const [draft, setDraft] = useState(kept.draft)
  const [fault, setFault] = useState<string>()
  // what the book holds comes in when it changes there: by undo, or in another window
  // biome-ignore lint/correctness/useExhaustiveDependencies: only the text of the circuit counts
  useEffect(() => setDraft(kept.draft), [circuit])
  const text = useMemo(() => draftText(draft), [draft])
  const isKept = circuit !== undefined && text === draftText(kept.draft)
  const keep = async (): Promise<void> => {
    setFault(undefined)
    try {
      const { edit } = await api.changePosition(job.id, ref, { circuit: text })
      await queryClient.invalidateQueries({ queryKey: queryKeys.jobs })
      sayDone({ say: `Circuit of ${ref} kept.`, ...(edit === undefined ? {} : { edit }) })
    } catch (e) {
      setFault(e instanceof Error ? e.message : String(e))
    }
  }
  return (
    <>
      <p className="stage-job">
        {ref}
        {position.role !== undefined && `, ${position.role}`}, of{' '}
        <Link to="/jobs/$id" params={{ id: String(job.id) }}>
          {job.name}
        </Link>
      </p>
      <p className="actions">
        <button type="button" className="button" disabled={isKept} onClick={() => void keep()}>
          Keep the circuit in the job
        </button>
        <span className="soft small" role="status">
          {isKept
            ? 'The job holds it as it is here.'
            : circuit === undefined
              ? 'The job holds no circuit of it yet.'
              : 'Changed since it was kept.'}
        </span>
      </p>
      {[...kept.faults, ...(fault === undefined ? [] : [fault])].map((f) => (
        <p key={f} className="field-fault" role="alert">
          {f}
        </p>
      ))}
      <Bench draft={draft} onDraft={setDraft} power={job.power} part={part} tags={tagsOf(position)} />
    </>
  )
}

/** Tags of the parts that may stand there, without doubles. */
const tagsOf = ({ parts }: JobPositionEntry): readonly string[] => [...new Set(parts.map((p) => p.tag))]

/** The circuit the job holds; where it holds none, the usual stage with the wanted type. */
function keptDraft({ ref, circuit, type, role }: JobPositionEntry): {
  readonly draft: Draft
  readonly faults: readonly string[]
} {
  const begun = beginning(`${ref}${role === undefined ? '' : `, ${role}`}`, type)
  if (circuit === undefined) return { draft: begun, faults: [] }
  const read = draftOfText(circuit)
  return read.ok ? { draft: read.draft, faults: [] } : { draft: begun, faults: read.faults.map(explain) }
}

function beginning(title: string, type: string | undefined): Draft {
  const draft = { ...draftOf('divider', firstDraft()), title }
  return type === undefined ? draft : withText(draft, ['parts', 'Q1'], type)
}
