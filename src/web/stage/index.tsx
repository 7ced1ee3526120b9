import { useSearch } from '@tanstack/react-router'
import { useRemembered, useScreenTitle } from '#web/live'
import { Bench } from './bench.tsx'
import { type Draft, firstDraft } from './draft.ts'
import { PositionOfJob } from './of-job.tsx'
import './stage.css'

/** A part in its place in a circuit: whether it will work there, why, and what to change. */
export function StageScreen() {
  useScreenTitle('Positions')
  const search = useSearch({ strict: false }) as Readonly<Record<string, string>>
  const job = Number(search.job)
  return (
    <div className="screen stage">
      <header>
        <h1>Will it work there?</h1>
        <p className="lead">
          A part in its place in a circuit: where it stands, how it drifts, what fails first, and what to change around
          it.
        </p>
      </header>
      {Number.isInteger(job) && job > 0 && search.ref !== undefined ? (
        <PositionOfJob key={`${job} ${search.ref}`} job={job} position={search.ref} part={search.part} />
      ) : (
        <FreePosition part={search.part} />
      )}
    </div>
  )
}

/** A position of no job; this browser remembers it. */
function FreePosition({ part }: { readonly part: string | undefined }) {
  const [draft, setDraft] = useRemembered<Draft>('stage', firstDraft)
  return <Bench draft={draft} onDraft={setDraft} part={part} />
}
