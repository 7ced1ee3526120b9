import { useQuery } from '@tanstack/react-query'
import { useNavigate } from '@tanstack/react-router'
import { type KeyboardEvent, useDeferredValue, useEffect, useId, useMemo, useRef, useState } from 'react'
import { useShortcut } from '#web/keys'
import { api, testersQuery, typesQuery } from '#web/live'
import { goalOf, kindNames, merged, type Place, placeKey, placesHere } from './hits.ts'
import './find.css'

/** How long typing must rest before the book is asked, ms; what is known here stands at once. */
const rest = 90

function useRested(text: string): string {
  const [rested, setRested] = useState(text)
  useEffect(() => {
    const wait = setTimeout(() => setRested(text), rest)
    return () => clearTimeout(wait)
  }, [text])
  return rested
}

function usePlaces(typed: string, isOpen: boolean): { readonly places: readonly Place[]; readonly isAsking: boolean } {
  const q = useDeferredValue(typed.trim())
  const asked = useRested(q)
  const types = useQuery({ ...typesQuery, enabled: isOpen })
  const testers = useQuery({ ...testersQuery, enabled: isOpen })
  const found = useQuery({
    queryKey: ['search', asked],
    queryFn: () => api.search(asked, 24),
    enabled: isOpen && asked !== '',
    staleTime: 10_000,
  })
  const hits = found.data !== undefined && found.data.query === q ? found.data.hits : none
  const places = useMemo(
    () => merged(q, placesHere(q, types.data?.types ?? [], testers.data ?? []), hits),
    [q, types.data, testers.data, hits],
  )
  return { places, isAsking: q !== '' && (asked !== q || found.isFetching) }
}

const none: readonly never[] = []

/** One field over everything: tags, types, testers, lots, runs, notes. Arrows choose, Enter goes. */
export function Find() {
  const [typed, setTyped] = useState('')
  const [isOpen, setOpen] = useState(false)
  const [at, setAt] = useState(0)
  const field = useRef<HTMLInputElement>(null)
  const navigate = useNavigate()
  const id = useId()
  const { places, isAsking } = usePlaces(typed, isOpen)
  const isShown = isOpen && typed.trim() !== ''
  const chosen = Math.min(at, Math.max(0, places.length - 1))
  useShortcut({ keys: '/', says: 'Find anything: a tag, a type, a tester, a lot, a note.' }, () =>
    field.current?.select(),
  )
  const go = (place: Place): void => {
    setOpen(false)
    setTyped('')
    field.current?.blur()
    void navigate(goalOf(place))
  }
  const onKeyDown = (e: KeyboardEvent): void => {
    const step = e.key === 'ArrowDown' ? 1 : e.key === 'ArrowUp' ? -1 : 0
    const place = places[chosen]
    if (step !== 0 && places.length > 0) {
      e.preventDefault()
      setAt((chosen + step + places.length) % places.length)
    } else if (e.key === 'Enter' && isShown && place !== undefined) {
      e.preventDefault()
      go(place)
    } else if (e.key === 'Escape') {
      setTyped('')
      field.current?.blur()
    }
  }
  return (
    <search className="find" onBlur={(e) => !e.currentTarget.contains(e.relatedTarget) && setOpen(false)}>
      <input
        ref={field}
        type="search"
        className="input find-field"
        role="combobox"
        aria-label="Find anything"
        aria-expanded={isShown}
        aria-controls={`${id}-list`}
        aria-autocomplete="list"
        aria-activedescendant={isShown && places.length > 0 ? `${id}-${chosen}` : undefined}
        placeholder="Find anything"
        value={typed}
        onFocus={() => setOpen(true)}
        onChange={(e) => {
          setTyped(e.currentTarget.value)
          setAt(0)
          setOpen(true)
        }}
        onKeyDown={onKeyDown}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
      />
      <span className="find-key">/</span>
      <div className="find-list" hidden={!isShown}>
        <PlaceList id={id} places={isShown ? places : none} chosen={chosen} onGo={go} onPoint={setAt} />
        {places.length === 0 && (
          <p className="soft">{isAsking ? 'Looking …' : `Nothing is called "${typed.trim()}".`}</p>
        )}
      </div>
      <span className="vh" role="status">
        {isShown && !isAsking && `${places.length} found`}
      </span>
    </search>
  )
}

interface ListProps {
  readonly id: string
  readonly places: readonly Place[]
  readonly chosen: number
  readonly onGo: (place: Place) => void
  readonly onPoint: (at: number) => void
}

function PlaceList({ id, places, chosen, onGo, onPoint }: ListProps) {
  return (
    <div id={`${id}-list`} role="listbox" aria-label="Found">
      {places.map((p, i) => (
        // biome-ignore lint/a11y/useKeyWithClickEvents: the keys are those of the field, which keeps the focus
        <div
          key={placeKey(p)}
          id={`${id}-${i}`}
          className="find-place"
          role="option"
          tabIndex={-1}
          aria-selected={i === chosen}
          // Keeps the focus in the field, so that the list does not close before the press counts.
          onMouseDown={(e) => e.preventDefault()}
          onMouseEnter={() => onPoint(i)}
          onClick={() => onGo(p)}
        >
          <span className="find-name">{nameOf(p)}</span>
          <span className="find-say soft">{p.say}</span>
          <span className="find-kind soft">{kindNames[p.kind]}</span>
        </div>
      ))}
    </div>
  )
}

function nameOf(p: Place): string {
  if (p.kind === 'reading') return p.part ?? p.name
  return p.kind === 'run' ? `Run ${p.run ?? p.name}` : p.name
}
