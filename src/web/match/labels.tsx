import type { MatchOffers } from '#api'
import type { MatchAnswer, MatchPart, MatchRequest } from '#core/match'
import { plainText } from '#web/typeset'
import { NameOf } from './set-table.tsx'
import { unitOf } from './wish.ts'

interface Props {
  readonly answer: MatchAnswer
  readonly parts: readonly MatchPart[]
  readonly request: MatchRequest
  readonly offers: MatchOffers
}

/** A label for each set, to be cut out and laid beside it. Only paper shows them. */
export function Labels({ answer, parts, request, offers }: Props) {
  const byTag = new Map(parts.map((p) => [p.tag, p]))
  return (
    <section className="match-labels" aria-hidden="true">
      {answer.sets.slice(0, 500).map((set, i) => (
        <div key={set.tags.join(' ')} className="match-label">
          <b>Set {i + 1}</b>
          {set.tags.map((tag, k) => (
            <div key={tag}>
              {request.places === undefined ? '' : `${request.places[k]!.name}: `}
              <b>{tag}</b>{' '}
              {request.by.map(({ name }) => {
                const x = byTag.get(tag)?.values[name]
                return (
                  <span key={name} className="match-label-value">
                    <NameOf name={name} /> {x === undefined ? '–' : plainText(x, unitOf(name, offers), 4)}
                  </span>
                )
              })}
            </div>
          ))}
        </div>
      ))}
    </section>
  )
}
