import type { Bounds, Condition, DoubtLine, PartSection, Result, VerdictLine } from '#report/model'
import { FigureOf, LetterSymbol, OutcomeWord, Prose } from '#web/typeset'
import { StepsOf, WorkingOf } from './working.tsx'

interface Props {
  readonly section: PartSection
  /** Values brought to 25 degC in place of those read, where there are such. */
  readonly at25: boolean
}

/** Every parameter: value, verdicts, and the working behind it. */
export function Results({ section, at25 }: Props) {
  const symbols = [...new Set(section.results.map((r) => r.symbol))]
  return (
    <>
      {symbols.map((symbol) => (
        <Group key={symbol} results={section.results.filter((r) => r.symbol === symbol)} at25={at25} />
      ))}
      {section.shared.length > 0 && (
        <details className="shared">
          <summary>Worked once for all of them</summary>
          <div className="working">
            <StepsOf steps={section.shared} />
          </div>
        </details>
      )}
    </>
  )
}

function Group({ results, at25 }: { readonly results: readonly Result[]; readonly at25: boolean }) {
  const first = results[0]!
  const measured = results.filter((r) => r.standing === 'measured')
  const brought = results.filter((r) => r.standing !== 'measured')
  const isBrought = at25 && brought.length > 0
  const shown = isBrought ? brought : measured
  return (
    <section className="result" aria-labelledby={`h-${first.id}`}>
      <h3 id={`h-${first.id}`}>
        <span className="result-symbol">
          <LetterSymbol of={first.symbol} />
        </span>
        <span className="result-name">{first.name}</span>
      </h3>
      <div>
        {shown.map((r, i) => (
          <One
            key={r.id}
            result={r}
            verdicts={isBrought ? (measured[i] ?? measured[0])?.verdicts : r.verdicts}
            at25={at25}
          />
        ))}
      </div>
    </section>
  )
}

interface OneProps {
  readonly result: Result
  readonly verdicts: readonly VerdictLine[] | undefined
  readonly at25: boolean
}

function One({ result: r, verdicts = [], at25 }: OneProps) {
  const isMeasured = r.standing === 'measured'
  return (
    <div className="one" id={r.id}>
      <p className="result-value">
        <FigureOf figure={r.figure} />
      </p>
      <p className="soft result-where">
        {isMeasured ? 'read' : 'brought to 25 °C'}
        {r.conditions.length > 0 && ' at '}
        <Conditions list={r.conditions} />
        {isMeasured && (
          <>
            , room at <FigureOf figure={r.temperature} />
          </>
        )}
        {at25 && isMeasured && '; nothing is known that brings it to 25 °C'}
      </p>
      {verdicts.length > 0 && (
        <ul className="held">
          {verdicts.map((v) => (
            <VerdictOf key={`${v.why}${v.source}`} verdict={v} />
          ))}
        </ul>
      )}
      {r.doubts.map((d) => (
        <DoubtOf key={d.say} doubt={d} />
      ))}
      {r.working !== undefined && (
        <details>
          <summary>
            Working<span className="vh"> of {r.symbol}</span>
          </summary>
          <WorkingOf working={r.working} />
        </details>
      )}
    </div>
  )
}

/** A verdict: outcome, limit and odds in a line; then why, what would settle it, and where the limit comes from. */
function VerdictOf({ verdict: v }: { readonly verdict: VerdictLine }) {
  return (
    <li>
      <p>
        <b>
          <OutcomeWord of={v.outcome} />
        </b>
        : limit <BoundsOf bounds={v.bounds} />
        {v.conditions.length > 0 && ' at '}
        <Conditions list={v.conditions} />
        {v.probability !== undefined && `, ${v.probability} likely to be met`}
      </p>
      <details className="why">
        <summary>Why</summary>
        <p>
          <Prose text={v.why} />
        </p>
        {v.settle !== undefined && (
          <p>
            <b>{v.outcome === 'undecided' ? 'To settle it:' : 'To compare it:'}</b> <Prose text={v.settle} />
          </p>
        )}
        <p className="soft small">
          Limit {v.source.startsWith('from memory') ? '' : 'from '}
          {v.source}
        </p>
      </details>
    </li>
  )
}

function BoundsOf({ bounds: { min, max } }: { readonly bounds: Bounds }) {
  if (min !== undefined && max !== undefined)
    return (
      <>
        <FigureOf figure={min} /> to <FigureOf figure={max} />
      </>
    )
  if (min !== undefined)
    return (
      <>
        at least <FigureOf figure={min} />
      </>
    )
  return max === undefined ? (
    'none'
  ) : (
    <>
      at most <FigureOf figure={max} />
    </>
  )
}

function Conditions({ list }: { readonly list: readonly Condition[] }) {
  return list.map((c, i) => (
    <span key={c.symbol} className="quiet">
      {i > 0 && ', '}
      {c.symbol !== 'T' && (
        <>
          <LetterSymbol of={c.symbol} />{' '}
        </>
      )}
      <FigureOf figure={c.figure} />
    </span>
  ))
}

/** Something odd that the numbers themselves show. */
export function DoubtOf({ doubt }: { readonly doubt: DoubtLine }) {
  return (
    <p className="said doubt">
      <b>{doubt.weight === 'nonsense' ? 'Not usable.' : 'Note.'}</b> <Prose text={doubt.say} />
    </p>
  )
}
