import { keepPreviousData, useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { StandInsAnswer, StandInUse } from '#api'
import type { Availability } from '#core/standin'
import { api, queryKeys, sayDone } from '#web/live'
import { OutcomeShape, Plain, Prose } from '#web/typeset'
import { Candidate, standingShape } from './stand-in.tsx'
import { UseForm } from './stand-in-use.tsx'
import './stand-ins.css'

/** Candidates shown at first, and how many more at a time. */
const shownFirst = 6
const shownMore = 20
/** Refused ones that are named. */
const refusedShown = 8

/** What stands in for a type that is dead or no longer made, with every margin and reason. */
export function StandIns({ type }: { readonly type: string }) {
  const [use, setUse] = useState<StandInUse>({})
  const { data } = useQuery({
    queryKey: [...queryKeys.standIns, type, use],
    queryFn: () => api.standIns(type, use),
    placeholderData: keepPreviousData,
  })
  return (
    <section className="spread stand-ins" aria-labelledby="stand-ins">
      <h2 id="stand-ins">
        Stand-ins <span className="soft">where it is dead, or no longer made</span>
      </h2>
      <div className="matter">
        {data !== undefined && data.for === type && <Found key={type} found={data} use={use} onUse={setUse} />}
      </div>
    </section>
  )
}

interface Props {
  readonly found: StandInsAnswer
  readonly use: StandInUse
  readonly onUse: (use: StandInUse) => void
}

function Found({ found, use, onUse }: Props) {
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
        <Mark type={found.for} mark={found.availability} />
      </details>
      {taken.length > 0 && (
        <>
          <p className="soft small">
            Margins: what it has over what is needed. 1 is just enough; a question mark is not known.
          </p>
          <ul className="candidates">
            {taken.slice(0, shown).map((c) => (
              <Candidate key={`${c.isPart} ${c.name}`} candidate={c} wanted={found.for} />
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

function AskedTable({ found: { asked, notAsked, for: type } }: { readonly found: StandInsAnswer }) {
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
          <Prose text={`Not asked for, as it is not published of ${type}: ${notAsked.join(', ')}.`} />
        </p>
      )}
    </>
  )
}

const words: readonly Availability[] = ['plenty', 'available', 'scarce', 'gone']

/** How well the type itself can be had; it stands beside it where it stands in for others. */
function Mark({ type, mark }: { readonly type: string; readonly mark: Availability | undefined }) {
  const [fault, setFault] = useState<string>()
  const keep = (word: string): void => {
    const chosen = words.find((w) => w === word)
    setFault(undefined)
    const say = chosen === undefined ? `${type} lost its mark.` : `${type} was marked as ${chosen}.`
    api.markType(type, chosen).then(
      ({ edit }) => edit !== undefined && sayDone({ say, edit }),
      (e: unknown) => setFault(e instanceof Error ? e.message : String(e)),
    )
  }
  return (
    <label className="field stand-ins-mark">
      <span className="field-label">How {type} itself can be had</span>
      <select className="select" value={mark ?? ''} onChange={(e) => keep(e.target.value)}>
        <option value="">not marked</option>
        {words.map((w) => (
          <option key={w} value={w}>
            {w}
          </option>
        ))}
      </select>
      {fault !== undefined && <span className="field-fault">{fault}</span>}
    </label>
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
