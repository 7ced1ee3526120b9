import { Link } from '@tanstack/react-router'
import { type FormEvent, useState } from 'react'
import type { JobDetail, JobPositionEntry, PartOfPosition } from '#api'
import { Field } from '#web/field'
import { api } from '#web/live'
import { Prose } from '#web/typeset'
import { keepPosition, kept, useTried } from './edits.ts'
import { WordShown } from './words.tsx'

interface Props {
  readonly job: JobDetail['job']
  readonly position: JobPositionEntry
}

/** Parts of a position with what they do there, and the way to bring one from the drawer. */
export function PositionParts({ job, position }: Props) {
  const { ref, parts } = position
  const { fault, tried } = useTried()
  const putIn = (tag: string): void =>
    tried(() => keepPosition(job.id, ref, `${tag} fitted in ${ref}.`, { fittedPart: tag }))
  const release = (tag: string): void => tried(() => kept(api.release(tag), `${tag} released.`))
  const takeOut = (): void => tried(() => keepPosition(job.id, ref, `Nothing is fitted in ${ref}.`, { fittedPart: '' }))
  return (
    <>
      {parts.length > 0 && (
        <ul className="position-parts">
          {parts.map((part) => (
            <li key={`${part.tag} ${part.as}`}>
              <Said part={part} />
              <p className="actions">
                {part.as === 'reserved' && (
                  <>
                    <button type="button" className="word" onClick={() => putIn(part.tag)}>
                      Fit {part.tag}
                    </button>
                    <button type="button" className="word" onClick={() => release(part.tag)}>
                      Release {part.tag}
                    </button>
                  </>
                )}
                {part.as === 'fitted' && (
                  <button type="button" className="word" onClick={takeOut}>
                    Take {part.tag} out
                  </button>
                )}
              </p>
            </li>
          ))}
        </ul>
      )}
      <FromDrawer job={job} position={position} onFit={putIn} />
      {fault !== undefined && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
    </>
  )
}

const Said = ({ part: { tag, type, as, verdict, why } }: { readonly part: PartOfPosition }) => (
  <p>
    <Link to="/parts/$tag" params={{ tag }}>
      <bdi>{tag}</bdi>
    </Link>{' '}
    <span className="soft">{[type, as].filter(Boolean).join(', ')}:</span>{' '}
    {verdict === undefined ? (
      <span>not tried, since {why}.</span>
    ) : (
      <>
        <b>
          <WordShown word={verdict.word} />
        </b>
        . <Prose text={verdict.why} />
      </>
    )}
  </p>
)

/** A part of the drawer by its tag: put aside for the position, or fitted at once. */
function FromDrawer({ job, position: { ref }, onFit }: Props & { readonly onFit: (tag: string) => void }) {
  const [tag, setTag] = useState('')
  const { fault, tried } = useTried()
  const reserve = (e: FormEvent): void => {
    e.preventDefault()
    const wanted = tag.trim()
    if (wanted === '') return
    tried(async () => {
      await kept(api.reserve(job.id, wanted, ref), `${wanted} reserved for ${ref}.`)
      setTag('')
    })
  }
  const fit = (): void => {
    onFit(tag.trim())
    setTag('')
  }
  return (
    <form className="job-add" onSubmit={reserve}>
      <Field label="Part of the drawer, by its tag" example="OP-6" value={tag} onText={setTag} />
      <button type="submit" className="button" disabled={tag.trim() === ''}>
        Reserve
      </button>
      <button type="button" className="button" disabled={tag.trim() === ''} onClick={fit}>
        Fit
      </button>
      {fault !== undefined && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
    </form>
  )
}
