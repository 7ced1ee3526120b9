import { Link, useNavigate } from '@tanstack/react-router'
import type { PartStory } from '#api'
import { useShortcut } from '#web/keys'
import { OutcomeWord, Prose } from '#web/typeset'
import type { Told } from './story.ts'

/** What a part is and how it came out, and the ways on from it. */
export function Head({ story, told }: { readonly story: PartStory; readonly told: Told | undefined }) {
  const { part, partType, before, after } = story
  const navigate = useNavigate()
  const go = (tag: string | undefined): void => {
    if (tag !== undefined) void navigate({ to: '/parts/$tag', params: { tag } })
  }
  useShortcut({ keys: 'n', says: 'Go to the next part.', group: 'Part' }, () => go(after))
  useShortcut({ keys: 'p', says: 'Go to the part before.', group: 'Part' }, () => go(before))
  const toldType = told?.section.type === 'unknown' ? undefined : told?.section.type
  const type = part.type ?? toldType
  return (
    <header className="part-head">
      <div className="part-title">
        <h1>
          <bdi>{part.tag}</bdi>
        </h1>
        <nav aria-label="Parts before and after" className="part-nav">
          {before !== undefined && (
            <Link to="/parts/$tag" params={{ tag: before }}>
              ← {before}
            </Link>
          )}
          {after !== undefined && (
            <Link to="/parts/$tag" params={{ tag: after }}>
              {after} →
            </Link>
          )}
        </nav>
      </div>
      {told !== undefined && (
        <p className="lead">
          <b>
            <OutcomeWord of={told.section.outcome} />
          </b>{' '}
          <Prose text={told.section.lead} />
        </p>
      )}
      <p className="part-kind soft">
        {partType === undefined ? (
          (type ?? 'unmarked part')
        ) : (
          <Link to="/types/$type" params={{ type: partType.type }}>
            {partType.type}
          </Link>
        )}
        {type !== undefined && told !== undefined && told.section.kind !== '' && `, ${told.section.kind}`}
        {story.typeNote !== undefined && <>. {story.typeNote}</>}
      </p>
      <p className="part-acts">
        <Link to="/report" search={{ part: part.tag }}>
          Report
        </Link>
        <Link to="/stage" search={{ part: part.tag }}>
          In a circuit
        </Link>
        <Link to="/run" search={{ tag: part.tag, ...(type === undefined ? {} : { type }) }}>
          Run it again
        </Link>
      </p>
    </header>
  )
}
