import { type GainRanks, type Limit, letterSymbols } from '#core/device'
import { ConditionList, LetterSymbol, Plain, Prose } from '#web/typeset'

/** Published limits, each with its conditions; one symbol's limits stand together. */
export function LimitsTable({ limits }: { readonly limits: readonly Limit[] }) {
  if (limits.length === 0)
    return <p className="soft">No limits are on record. Parts of this type can be read, but not judged.</p>
  return (
    <table className="limits" aria-label="Published limits">
      <thead>
        <tr>
          <th scope="col">Symbol</th>
          <th scope="col" className="n">
            At least
          </th>
          <th scope="col" className="n">
            Typical
          </th>
          <th scope="col" className="n">
            At most
          </th>
          <th scope="col">At</th>
        </tr>
      </thead>
      <tbody>
        {limits.map((l, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a symbol may have many limits, and they never change places
          <LimitRow key={i} limit={l} isSame={limits[i - 1]?.symbol === l.symbol} />
        ))}
      </tbody>
    </table>
  )
}

function LimitRow({ limit: l, isSame }: { readonly limit: Limit; readonly isSame: boolean }) {
  return (
    <tr>
      <th scope="row" className={isSame ? 'limits-same' : undefined}>
        <LetterSymbol of={l.symbol} />
        {!isSame && <span className="limits-name">{letterSymbols[l.symbol]?.name}</span>}
      </th>
      <Bound word="at least" value={l.min} unit={l.unit} />
      <Bound word="typical" value={l.typ} unit={l.unit} isTypical />
      <Bound word="at most" value={l.max} unit={l.unit} />
      <td className="limits-at quiet">
        <ConditionList at={l.at} />
        {l.note !== undefined && (
          <span className="limits-note">
            <Prose text={l.note} />
          </span>
        )}
      </td>
    </tr>
  )
}

interface BoundProps {
  readonly word: string
  readonly value: number | undefined
  readonly unit: string
  readonly isTypical?: boolean
}

function Bound({ word, value, unit, isTypical = false }: BoundProps) {
  if (value === undefined) return <td className="n none" />
  return (
    <td className={isTypical ? 'n soft' : 'n limits-bound'} data-word={word}>
      <Plain value={value} unit={unit} />
    </td>
  )
}

/** Narrower gain ranges, by the suffix that marks them. */
export function GainRanksTable({ ranks, type }: { readonly ranks: GainRanks; readonly type: string }) {
  return (
    <div className="ranks">
      <h3>
        Gain ranks{' '}
        <span className="soft quiet">
          <LetterSymbol of={ranks.symbol} /> at <ConditionList at={ranks.at} />
        </span>
      </h3>
      <dl>
        {ranks.ranks.map((r) => (
          <div key={r.suffix}>
            <dt>
              {type}
              <b>{/^\d/.test(r.suffix) ? `-${r.suffix}` : r.suffix}</b>
            </dt>
            <dd>
              {r.min} to {r.max}
            </dd>
          </div>
        ))}
      </dl>
    </div>
  )
}
