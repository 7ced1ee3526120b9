import type { MatchOffers } from '#api'
import { wantedValue } from '#core/match'
import { parameterName } from '#report/model'
import { plainText } from '#web/typeset'
import { ValueField } from './value-field.tsx'
import { unitOf, type Wanted, type WithinKind, wantedFor, within, withinKind, withinValue } from './wish.ts'

interface Props {
  readonly wanted: Wanted
  readonly offers: MatchOffers
  /** Names it may be changed to. */
  readonly names: readonly string[]
  readonly widest: number
  readonly onWanted: (wanted: Wanted) => void
  readonly onRemove?: () => void
}

const kinds: readonly (readonly [WithinKind, string])[] = [
  ['none', 'none'],
  ['absolute', 'difference'],
  ['percent', 'percent'],
  ['ratio', 'ratio'],
]

/** A parameter by its everyday name. */
export function wantedName(name: string): string {
  const { of, log } = wantedValue(name)
  const [symbol, ...at] = of.split('@')
  const words = `${symbol!.replace('_', ' ')}${at.map((a) => ` at ${a}`).join('')}, ${parameterName(symbol!)}`
  return log === undefined ? words : `${words}, by ratio`
}

/** One parameter: which, what counts as one, and how far apart a set may be. */
export function ParameterRow({ wanted, offers, names, widest, onWanted, onRemove }: Props) {
  const unit = unitOf(wanted.name, offers)
  const kind = withinKind(wanted)
  const value = withinValue(wanted)
  const most =
    kind === 'absolute' ? Math.max(widest, value) : kind === 'percent' ? Math.max(100, value) : Math.max(3, value)
  const least = kind === 'ratio' ? 1 : 0
  const setWithin = (k: WithinKind, x: number): void => {
    const { within: _, ...rest } = wanted
    const limit = within(k, x)
    onWanted(limit === undefined ? rest : { ...rest, within: limit })
  }
  return (
    <li className="wish-parameter">
      <label className="field">
        <span className="field-label">Match by</span>
        <select className="select" value={wanted.name} onChange={(e) => onWanted(wantedFor(e.target.value, offers))}>
          {[...new Set([wanted.name, ...names])].map((n) => (
            <option key={n} value={n}>
              {wantedName(n)}
            </option>
          ))}
        </select>
      </label>
      <ValueField
        label="Counts as one"
        value={wanted.scale}
        unit={unit}
        onValue={(scale) => onWanted({ ...wanted, scale })}
        refuse={(x) => (x > 0 ? undefined : 'is not above 0. Give what counts as a difference of one.')}
      />
      <label className="field">
        <span className="field-label">Tolerance</span>
        <select
          className="select"
          value={kind}
          onChange={(e) => setWithin(e.target.value as WithinKind, firstLimit(e.target.value as WithinKind, wanted))}
        >
          {kinds.map(([k, text]) => (
            <option key={k} value={k}>
              {text}
            </option>
          ))}
        </select>
      </label>
      {kind !== 'none' && (
        <label className="field wish-slider">
          <span className="field-label">
            {kind === 'absolute'
              ? plainText(value, unit, 3)
              : kind === 'percent'
                ? `${digits(value)} %`
                : `× ${digits(value)}`}
          </span>
          <input
            type="range"
            min={0}
            max={1000}
            value={Math.round((1000 * (value - least)) / (most - least || 1))}
            aria-label={`How far apart: ${wantedName(wanted.name)}`}
            aria-valuetext={kind === 'absolute' ? plainText(value, unit, 3) : digits(value)}
            onChange={(e) => setWithin(kind, rounded(least + ((most - least) * Number(e.target.value)) / 1000))}
          />
        </label>
      )}
      {onRemove !== undefined && (
        <button
          type="button"
          className="word"
          aria-label={`Do not match by ${wantedName(wanted.name)}`}
          onClick={onRemove}
        >
          Leave out
        </button>
      )}
    </li>
  )
}

const digits = (x: number): string => Number(x.toPrecision(3)).toString()
const rounded = (x: number): number => Number(x.toPrecision(3))

const firstLimit = (kind: WithinKind, wanted: Wanted): number =>
  kind === 'absolute' ? 2 * wanted.scale : kind === 'percent' ? 10 : 1.2
