import type { MatchOffers } from '#api'
import { matchWants, type objectives, wantedValue } from '#core/match'
import { LetterSymbol } from '#web/typeset'
import { ParameterRow } from './parameter-row.tsx'
import { changed, namesOffered, notMeasured, type Wish, wantedFor, wantNamed, wishFor } from './wish.ts'

interface Props {
  readonly wish: Wish
  readonly offers: MatchOffers
  readonly onWish: (wish: Wish) => void
  /** Widest difference there is in each parameter, for the sliders. */
  readonly widest: ReadonlyMap<string, number>
}

const sizes = [2, 3, 4, 5, 6, 8, 10, 12] as const

const objectiveNames: Readonly<Record<keyof typeof objectives, string>> = {
  'pair-distance': 'all distances',
  'largest-distance': 'largest distance',
  'squared-deviations': 'squared deviations',
  'sum-of-ranges': 'sum of ranges',
}

/** What is asked for. */
export function WishForm({ wish, offers, onWish, widest }: Props) {
  const { request } = wish
  const set = (change: Parameters<typeof changed>[1]): void => onWish({ ...wish, request: changed(request, change) })
  const want = wish.want === undefined ? undefined : wantNamed(wish.want)
  const names = namesOffered(offers)
  const missing = notMeasured(wish, offers)
  return (
    <form className="wish" aria-label="What is wanted" onSubmit={(e) => e.preventDefault()}>
      <div className="wish-line">
        <Choice
          label="Start from"
          value={wish.want ?? ''}
          options={[['', 'what you say'], ...matchWants.map((w) => [w.name, w.title] as const)]}
          onChange={(name) => {
            const chosen = wantNamed(name)
            onWish(chosen === undefined ? { ...wish, want: '' } : wishFor(chosen, wish))
          }}
        />
        <Choice
          label="Parts in a set"
          value={String(request.size)}
          options={sizes.map((n) => [String(n), n === 2 ? '2, a pair' : n === 4 ? '4, a quad' : String(n)] as const)}
          onChange={(n) =>
            set({ size: Number(n), together: [], places: undefined, ...(n === '2' ? {} : { across: undefined }) })
          }
        />
        <label className="field">
          <span className="field-label">How many sets</span>
          <input
            className="input"
            type="number"
            min={1}
            step={1}
            value={request.sets ?? ''}
            placeholder="as many as can be"
            onChange={(e) => set({ sets: wholeAbove0(e.target.value) })}
          />
        </label>
        <Choice
          label="Least in total"
          value={request.objective}
          options={Object.entries(objectiveNames)}
          onChange={(objective) => set({ objective })}
        />
      </div>
      {want !== undefined && <p className="soft small">{want.why}</p>}
      <div className="wish-line">
        <Choice
          label="Type"
          value={wish.type ?? ''}
          options={[['', 'any'], ...offers.types.map((t) => [t, t] as const)]}
          onChange={(type) => onWish(without(wish, 'type', type))}
        />
        <Choice
          label="Lot"
          value={wish.lot ?? ''}
          options={[['', 'any'], ...offers.lots.map((l) => [l, l] as const)]}
          onChange={(lot) => onWish(without(wish, 'lot', lot))}
        />
        <label className="check">
          <input
            type="checkbox"
            checked={request.same.includes('type')}
            onChange={(e) => set({ same: e.target.checked ? ['type'] : [] })}
          />{' '}
          of one type in each set
        </label>
        {request.size === 2 && (
          <label className="check">
            <input
              type="checkbox"
              checked={request.across === 'polarity'}
              onChange={(e) => set({ across: e.target.checked ? 'polarity' : undefined })}
            />{' '}
            one NPN and one PNP
          </label>
        )}
      </div>
      <ul className="wish-parameters" aria-label="Matched by">
        {request.by.map((one, i) => (
          <ParameterRow
            key={one.name}
            wanted={one}
            offers={offers}
            names={names.filter((n) => n === one.name || request.by.every((other) => other.name !== n))}
            widest={widest.get(one.name) ?? 0}
            onWanted={(next) => set({ by: request.by.map((other, k) => (k === i ? next : other)) })}
            {...(request.by.length < 2 ? {} : { onRemove: () => set({ by: request.by.filter((_, k) => k !== i) }) })}
          />
        ))}
      </ul>
      {names.length > request.by.length && (
        <p>
          <button
            type="button"
            className="word"
            onClick={() => {
              const free = names.find((n) => request.by.every((one) => wantedValue(one.name).of !== wantedValue(n).of))
              const next = free ?? names.find((n) => request.by.every((one) => one.name !== n))
              if (next !== undefined) set({ by: [...request.by, wantedFor(next, offers)] })
            }}
          >
            Match by one parameter more
          </button>
        </p>
      )}
      {missing.map((symbol) => (
        <p key={symbol} className="field-fault">
          No part of this book has <LetterSymbol of={symbol} />: read it in a run, or match by another parameter.
        </p>
      ))}
      {request.places !== undefined && (
        <ul className="wish-places" aria-label="Places in a set">
          {request.places.map((place, i) => (
            <li key={place.name}>
              <b>{place.name}</b>
              {Object.entries(place.aim).map(([name, aim]) => (
                <label key={name} className="field">
                  <span className="field-label">
                    wants <LetterSymbol of={name} />
                  </span>
                  <input
                    className="input"
                    type="number"
                    value={aim}
                    onChange={(e) => {
                      const value = Number(e.target.value)
                      if (e.target.value === '' || !Number.isFinite(value)) return
                      const places = request.places!.map((p, k) =>
                        k === i ? { ...p, aim: { ...p.aim, [name]: value } } : p,
                      )
                      set({ places })
                    }}
                  />
                </label>
              ))}
            </li>
          ))}
        </ul>
      )}
    </form>
  )
}

const wholeAbove0 = (text: string): number | undefined => {
  const n = Number(text)
  return text !== '' && Number.isInteger(n) && n > 0 ? n : undefined
}

function without(wish: Wish, key: 'type' | 'lot', value: string): Wish {
  const { [key]: _, ...rest } = wish
  return value === '' ? rest : { ...rest, [key]: value }
}

interface ChoiceProps {
  readonly label: string
  readonly value: string
  readonly options: readonly (readonly [value: string, text: string])[]
  readonly onChange: (value: string) => void
}

function Choice({ label, value, options, onChange }: ChoiceProps) {
  return (
    <label className="field">
      <span className="field-label">{label}</span>
      <select className="select" value={value} onChange={(e) => onChange(e.target.value)}>
        {options.map(([v, text]) => (
          <option key={v} value={v}>
            {text}
          </option>
        ))}
      </select>
    </label>
  )
}
