import { type KeyboardEvent, useId, useMemo, useState } from 'react'
import { findType, type PartType, searchTypes } from '#core/device'

interface Props {
  readonly types: readonly PartType[]
  readonly value: string
  readonly onChange: (text: string) => void
  readonly autoFocus?: boolean
}

/** What is known of a type in a few words. */
export const typeWords = (t: PartType): string =>
  [t.material === 'Ge' ? 'germanium' : t.material === 'Si' ? 'silicon' : undefined, t.polarity, t.outline]
    .filter((w) => w !== undefined)
    .join(' ')

/** Most suggestions shown. */
const most = 8

/** A type number with suggestions as one types. Arrows choose, Enter takes. */
export function TypeField({ types, value, onChange, autoFocus = false }: Props) {
  const id = useId()
  const [isOpen, setOpen] = useState(false)
  const [chosen, setChosen] = useState(-1)
  const list = useMemo(() => suggestions(types, value), [types, value])
  const shows = isOpen && list.length > 0
  const take = (t: PartType): void => {
    onChange(t.type)
    setOpen(false)
    setChosen(-1)
  }
  const onKey = (e: KeyboardEvent): void => {
    if (e.key === 'ArrowDown' || e.key === 'ArrowUp') {
      e.preventDefault()
      setOpen(true)
      setChosen((c) => Math.max(-1, Math.min(list.length - 1, c + (e.key === 'ArrowDown' ? 1 : -1))))
    } else if (e.key === 'Enter' && shows && chosen >= 0) {
      e.preventDefault()
      take(list[chosen]!)
    } else if (e.key === 'Escape') setOpen(false)
  }
  return (
    <div className="field type-field">
      <label className="field-label" htmlFor={id}>
        Part type
      </label>
      <input
        id={id}
        className="input"
        role="combobox"
        aria-expanded={shows}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={shows && chosen >= 0 ? `${id}-${chosen}` : undefined}
        autoComplete="off"
        spellCheck={false}
        maxLength={60}
        // biome-ignore lint/a11y/noAutofocus: the first thing asked on a screen that asks
        autoFocus={autoFocus}
        placeholder="2N1305; empty if it is unmarked"
        value={value}
        onChange={(e) => {
          onChange(e.target.value)
          setOpen(true)
          setChosen(-1)
        }}
        onFocus={() => setOpen(value !== '')}
        onBlur={() => setOpen(false)}
        onKeyDown={onKey}
      />
      <div className="type-offers" id={`${id}-list`} role="listbox" aria-label="Part types" hidden={!shows}>
        {shows &&
          list.map((t, i) => (
            // biome-ignore lint/a11y/useFocusableInteractive: the focus stays in the field, as in every combobox
            // biome-ignore lint/a11y/useKeyWithClickEvents: the field takes the keys
            <div
              key={t.type}
              id={`${id}-${i}`}
              role="option"
              aria-selected={i === chosen}
              className="type-option"
              onMouseDown={(e) => e.preventDefault()}
              onClick={() => take(t)}
            >
              <b>{t.type}</b> <span className="soft">{typeWords(t)}</span>
            </div>
          ))}
      </div>
    </div>
  )
}

function suggestions(types: readonly PartType[], text: string): readonly PartType[] {
  const typed = text.trim()
  if (typed === '') return []
  const found = searchTypes(types, { text: typed })
  if (found.length === 1 && found[0]?.type.toLowerCase() === typed.toLowerCase()) return []
  const near = found.length > 0 ? [] : findType(types, typed).near
  const low = typed.toLowerCase()
  const first = (t: PartType): number => (t.type.toLowerCase().startsWith(low) ? 0 : 1)
  return [...found, ...types.filter((t) => near.includes(t.type))].sort((a, b) => first(a) - first(b)).slice(0, most)
}
