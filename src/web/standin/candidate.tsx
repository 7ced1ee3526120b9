import { Link } from '@tanstack/react-router'
import { type ReactNode, useState } from 'react'
import type { ResistorChange } from '#core/stage'
import type { Check, LeadWork, StandIn, Standing } from '#core/standin'
import { leadDrawing } from '#report/leads'
import type { Outcome } from '#report/typeset'
import { Plot } from '#web/plot'
import { LetterSymbol, OutcomeShape, Plain, Prose, plainText } from '#web/typeset'

/** Shapes of standings; each stands beside its word. */
export const standingShape: Readonly<Record<Standing, Outcome>> = {
  'stands in': 'conforms',
  'with care': 'undecided',
  'not known': 'not comparable',
  refused: 'does not conform',
}

const leadWords: Readonly<Record<LeadWork, string>> = {
  none: 'goes in as it is',
  turn: 'turned round',
  bend: 'leads bent',
  cross: 'two leads crossed',
  refit: 'fixed in another way',
  find: 'leads to be found',
}

const checkShape: Readonly<Record<Check['word'], Outcome>> = {
  enough: 'conforms',
  care: 'undecided',
  unknown: 'not comparable',
  short: 'does not conform',
}

interface Props {
  readonly candidate: StandIn
  /** Type it stands in for. */
  readonly wanted: string
  /** Stands above its reasons. */
  readonly about?: ((candidate: StandIn) => ReactNode) | undefined
}

/** One candidate: its margins in a line, and all it was held to when it is opened. */
export function Candidate({ candidate: c, wanted, about }: Props) {
  const [isOpen, setOpen] = useState(false)
  return (
    <li>
      <details className="candidate" onToggle={(e) => setOpen(e.currentTarget.open)}>
        <summary>
          <span className="candidate-head">
            <OutcomeShape of={standingShape[c.standing]} />
            <b className="candidate-name">{c.name}</b>
            <span className="soft">{aboutText(c)}</span>
          </span>
          <span className="candidate-margins">
            {c.checks.map((check) => (
              <Margin key={check.what} check={check} />
            ))}
          </span>
        </summary>
        {isOpen && <Held candidate={c} wanted={wanted} about={about} />}
      </details>
    </li>
  )
}

/** Standing, leads and where it is to be had, in words. */
function aboutText(c: StandIn): string {
  return [
    c.standing,
    c.isPart ? `this part, ${c.type}` : undefined,
    c.leads === undefined ? undefined : leadWords[c.leads.work],
    c.inDrawer === undefined ? undefined : `${c.inDrawer} in the drawer`,
    c.availability,
    c.play?.changes === undefined || c.play.changes.length === 0 ? undefined : `with ${changesText(c.play.changes)}`,
  ]
    .filter((s) => s !== undefined)
    .join(', ')
}

const changesText = (changes: readonly ResistorChange[]): string =>
  changes.map(({ ref, toOhm }) => `${ref} ${plainText(toOhm, 'ohm', 3)}`).join(' and ')

/** What a part has over what is needed; a question mark where nothing is known of it. */
function Margin({ check }: { readonly check: Check }) {
  const { symbol, ratio, word, what } = check
  if (symbol === undefined) return null
  const isPoor = word !== 'enough'
  return (
    <span className={isPoor ? 'candidate-margin poor' : 'candidate-margin'}>
      <LetterSymbol of={symbol} />
      {what.startsWith('highest') && ' most'} <span className="num">{ratioText(ratio)}</span>
      {word === 'unknown' && ratio !== undefined && '?'}
    </span>
  )
}

/** A margin with two digits. */
const ratioText = (ratio: number | undefined): string =>
  ratio === undefined ? '?' : ratio >= 100 ? '> 99' : String(Number(ratio.toPrecision(2)))

/** Every margin and every reason, and how the leads go. */
function Held({ candidate: c, wanted, about }: Props) {
  const drawing = c.leads === undefined ? undefined : leadDrawing({ wanted, offered: c.type, plan: c.leads })
  return (
    <div className="candidate-held">
      <div>
        <table>
          <caption className="vh">Margins of {c.name}</caption>
          <thead>
            <tr>
              <th>Held to</th>
              <th className="n">Needed</th>
              <th className="n">Has</th>
              <th className="n">Margin</th>
            </tr>
          </thead>
          <tbody>
            {c.checks
              .filter((x) => x.symbol !== undefined)
              .map((x) => (
                <tr key={x.what}>
                  <th scope="row">
                    <OutcomeShape of={checkShape[x.word]} /> {x.what}
                  </th>
                  <td className="n">
                    {x.needed !== undefined && <Plain value={x.needed} unit={x.unit!} digits={3} />}
                  </td>
                  <td className="n">
                    {x.offered === undefined ? 'unknown' : <Plain value={x.offered} unit={x.unit!} digits={3} />}
                  </td>
                  <td className="n">{x.ratio === undefined ? '' : ratioText(x.ratio)}</td>
                </tr>
              ))}
          </tbody>
        </table>
        {about?.(c)}
        <ul className="candidate-says">
          {[...c.checks.filter((x) => x.word !== 'enough'), ...c.checks.filter((x) => x.word === 'enough')].map((x) => (
            <li key={x.what} className={x.word === 'enough' ? 'soft' : undefined}>
              <b>{x.what}</b> <Prose text={x.says} />
            </li>
          ))}
        </ul>
        <p className="actions">
          {c.isPart ? (
            <Link to="/parts/$tag" params={{ tag: c.name }} className="word">
              Look at {c.name}
            </Link>
          ) : (
            <Link to="/types/$type" params={{ type: c.type }} className="word">
              Look at {c.type}
            </Link>
          )}
        </p>
      </div>
      {drawing !== undefined && (
        <div className="candidate-leads">
          <Plot draw={() => drawing} widest={300} />
        </div>
      )}
    </div>
  )
}
