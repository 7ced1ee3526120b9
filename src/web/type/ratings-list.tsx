import { type PowerRating, type RatingSymbol, type Ratings, ratingUnits } from '#core/device'
import type { Unit } from '#core/quantity'
import { LetterSymbol, Plain, Prose } from '#web/typeset'
import { ratingNames } from './rating-names.ts'

const unitByLetter = (symbol: string): Unit => {
  const units: Readonly<Record<string, Unit>> = { V: 'V', I: 'A', P: 'W', T: 'degC', R: 'ohm' }
  return symbol.startsWith('R_th') ? 'K/W' : (units[symbol.charAt(0)] ?? '1')
}

interface Line {
  readonly symbol: string
  readonly value: number
  readonly unit: Unit
  readonly name: string
}

function linesOf(r: Ratings): readonly Line[] {
  const own = (Object.keys(ratingUnits) as RatingSymbol[]).flatMap((symbol): readonly Line[] => {
    const value = r[symbol]
    return value === undefined ? [] : [{ symbol, value, unit: ratingUnits[symbol], name: ratingNames[symbol] }]
  })
  const other = Object.entries(r.other ?? {}).map(([symbol, value]) => ({
    symbol,
    value,
    unit: unitByLetter(symbol),
    name: '',
  }))
  return [...own, ...other]
}

/** Absolute maximum ratings, as magnitudes. */
export function RatingsList({ ratings }: { readonly ratings: Ratings }) {
  const lines = linesOf(ratings)
  if (lines.length === 0 && ratings.power.length === 0) return <p className="soft">No ratings are on record.</p>
  return (
    <dl className="ratings">
      {lines.map((l) => (
        <div key={l.symbol}>
          <dt>
            <LetterSymbol of={l.symbol} />
          </dt>
          <dd className="ratings-value">
            <Plain value={l.value} unit={l.unit} />
          </dd>
          <dd className="soft">
            <Prose text={l.name} />
          </dd>
        </div>
      ))}
      {ratings.power.map((p) => (
        <PowerLine key={`${p.of}${p.atC}${p.powerW}`} power={p} />
      ))}
    </dl>
  )
}

function PowerLine({ power: p }: { readonly power: PowerRating }) {
  return (
    <div>
      <dt>
        <LetterSymbol of="P_tot" />
      </dt>
      <dd className="ratings-value">
        <Plain value={p.powerW} unit="W" />
      </dd>
      <dd className="soft">
        {p.of === 'ambient' ? 'with the air at ' : 'with the case at '}
        <span className="quiet">
          <Plain value={p.atC} unit="degC" />
        </span>
        {p.deratingWPerK !== undefined &&
          `, less ${Number((p.deratingWPerK * 1000).toPrecision(3))} mW for each kelvin above`}
        {p.note !== undefined && (
          <>
            {'; '}
            <Prose text={p.note} />
          </>
        )}
      </dd>
    </div>
  )
}
