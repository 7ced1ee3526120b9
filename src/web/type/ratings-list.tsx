import { type PowerRating, type RatingSymbol, type Ratings, ratingUnits } from '#core/device'
import type { Unit } from '#core/quantity'
import { LetterSymbol, Plain, Prose } from '#web/typeset'

const ratingNames: Readonly<Record<RatingSymbol, string>> = {
  V_CBO: 'collector to base, emitter open',
  V_CEO: 'collector to emitter, base open',
  V_CES: 'collector to emitter, base shorted to emitter',
  V_CER: 'collector to emitter, resistor at the base',
  V_EBO: 'emitter to base, collector open',
  V_PT: 'punch-through, a limit on V_CE',
  I_C: 'collector current',
  I_CM: 'peak collector current',
  I_B: 'base current',
  V_R: 'reverse voltage',
  V_RRM: 'repetitive peak reverse voltage',
  I_F: 'forward current',
  'I_F(AV)': 'mean forward current',
  I_FRM: 'repetitive peak forward current',
  I_FSM: 'surge forward current',
  T_Jmax: 'junction temperature',
  R_thJA: 'thermal resistance, junction to air',
  R_thJC: 'thermal resistance, junction to case',
}

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
