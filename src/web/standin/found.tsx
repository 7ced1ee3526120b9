import { type ReactNode, useState } from 'react'
import type { StandInsAnswer, StandInUse } from '#api'
import type { StandIn } from '#core/standin'
import { OutcomeShape, Plain, Prose } from '#web/typeset'
import { Candidate, standingShape } from './candidate.tsx'
import { UseForm } from './use-form.tsx'
import './stand-ins.css'

/** Candidates shown at first, and how many more at a time. */
const shownFirst = 6
const shownMore = 20
/** Refused ones that are named. */
const refusedShown = 8

interface Props {
  readonly found: StandInsAnswer
  readonly use: StandInUse
  readonly onUse: (use: StandInUse) => void
  /** Stands below what is asked for. */
  readonly beside?: ReactNode
  /** Stands in each candidate that is opened, above the reasons. */
  readonly about?: (candidate: StandIn) => ReactNode
}

/** Stand-ins that were found: how many, what was asked for, each with its margins, and what will not do. */
export function Found({ found, use, onUse, beside, about }: Props) {
  const [shown, setShown] = useState(shownFirst)
  const { taken } = found
  const more = taken.length - shown
  return (
    <>
      <p aria-live="polite" className="stand-ins-count">
        <Count found={found} />
      </p>
      <details className="stand-ins-asked">
        <summary>What is asked for, and how it is used</summary>
        <UseForm use={use} onUse={onUse} />
        <AskedTable found={found} />
        {beside}
      </details>
      {taken.length > 0 && (
        <>
          <p className="soft small">
            Margins: what it has over what is needed. 1 is just enough; a question mark is not known.
          </p>
          <ul className="candidates">
            {taken.slice(0, shown).map((c) => (
              <Candidate key={`${c.isPart} ${c.name}`} candidate={c} wanted={found.for} about={about} />
            ))}
          </ul>
        </>
      )}
      {more > 0 && (
        <button type="button" className="word" onClick={() => setShown(shown + shownMore)}>
          Show {more <= shownMore ? `the other ${more}` : `${shownMore} more of ${more}`}
        </button>
      )}
      <Rest found={found} />
    </>
  )
}

/** How many of each standing; or the nearest, where there is none. */
function Count({ found: { taken, notKnown, refused, nearest } }: { readonly found: StandInsAnswer }) {
  if (nearest !== undefined)
    return (
      <>
        <b>No candidate.</b> <Prose text={nearest.says} />
      </>
    )
  const whole = taken.filter((c) => c.standing === 'stands in').length
  const counts = [
    ['stands in', whole, whole === 1 ? 'stands in' : 'stand in'],
    ['with care', taken.length - whole, 'with care'],
    ['not known', notKnown.length, 'not known'],
    ['refused', refused.length, 'refused'],
  ] as const
  return counts.map(([standing, count, word]) => (
    <span key={standing} className="stand-ins-number">
      <OutcomeShape of={standingShape[standing]} /> <b className="num">{count}</b> {word}
    </span>
  ))
}

function AskedTable({ found: { asked, notAsked, for: type, own } }: { readonly found: StandInsAnswer }) {
  return (
    <>
      <table className="stand-ins-table">
        <caption className="vh">What a stand-in for {type} must have</caption>
        <tbody>
          {asked.map((a) => (
            <tr key={a.what}>
              <th scope="row">{a.what}</th>
              <td>
                {a.bound} <Plain value={a.value} unit={a.unit} digits={3} />
              </td>
              <td className="soft">
                <Prose text={a.why} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {notAsked.length > 0 && (
        <p className="soft">
          <Prose
            text={`Not asked for${own === undefined ? `, as it is not published of ${type}` : ''}: ${notAsked.join(', ')}.`}
          />
        </p>
      )}
    </>
  )
}

/** Those nobody can say anything of, and the nearest of those that will not do. */
function Rest({ found: { notKnown, refused, notLookedAt } }: { readonly found: StandInsAnswer }) {
  return (
    <>
      {notLookedAt !== undefined && (
        <p className="soft">
          {notLookedAt} parts of the drawer were not looked at one by one; the command line does that.
        </p>
      )}
      {notKnown.length > 0 && (
        <details className="stand-ins-rest">
          <summary>{notKnown.length} not known, as a rating is not published</summary>
          <p>{notKnown.map((c) => c.name).join(', ')}</p>
        </details>
      )}
      {refused.length > 0 && (
        <details className="stand-ins-rest">
          <summary>{refused.length} refused</summary>
          <ul>
            {refused.slice(0, refusedShown).map((c) => (
              <li key={c.name}>
                <b>{c.name}</b> <Prose text={c.says} />
              </li>
            ))}
          </ul>
          {refused.length > refusedShown && <p className="soft">And {refused.length - refusedShown} further away.</p>}
        </details>
      )}
    </>
  )
}
