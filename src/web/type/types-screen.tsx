import { useQuery } from '@tanstack/react-query'
import { Link, useRouter, useSearch } from '@tanstack/react-router'
import { type KeyboardEvent, lazy, Suspense, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react'
import type { PartType } from '#core/device'
import { announce, typesQuery, useScreenTitle } from '#web/live'
import { Waiting } from '#web/shell'
import { Prose } from '#web/typeset'
import { Filters } from './filters.tsx'
import { type Asked, findTypes, nothingAsked, type TypesFound } from './find-types.ts'
import { TypeList } from './type-list.tsx'
import './types.css'

const NewType = lazy(() => import('./new-type.tsx').then((m) => ({ default: m.NewType })))

/** Every part type there is, searched as one types. */
export function TypesScreen() {
  const search = useSearch({ strict: false }) as Readonly<Record<string, string>>
  if (search.new !== undefined)
    return (
      <Suspense fallback={<Waiting />}>
        <NewType />
      </Suspense>
    )
  return <TypeSearch search={search} />
}

const askedFrom = (search: Readonly<Record<string, string>>): Asked => ({ ...nothingAsked, ...search })

/** How long typing must rest before the address takes it along, ms. */
const rest = 400

/** What is asked, the way to ask for something else, and the way to put it into the address at once. */
interface Asking {
  readonly asked: Asked
  readonly ask: (change: Partial<Asked>) => void
  readonly keep: () => void
}

/** The address follows what is asked, so that going back finds the same list. */
function useAsking(search: Readonly<Record<string, string>>): Asking {
  const router = useRouter()
  const [asked, setAsked] = useState(() => askedFrom(search))
  const keep = (): void => {
    // Another screen may be on its way in already: then the address is not this one's to change.
    if (router.history.location.pathname !== '/types') return
    const words = Object.fromEntries(Object.entries(asked).filter(([, value]) => value !== ''))
    const { href } = router.buildLocation({ to: '/types', search: words })
    if (href !== router.history.location.href) router.history.replace(href)
  }
  const latest = useRef(keep)
  latest.current = keep
  // biome-ignore lint/correctness/useExhaustiveDependencies: waits anew with each change of what is asked
  useEffect(() => {
    const wait = setTimeout(() => latest.current(), rest)
    return () => clearTimeout(wait)
  }, [asked])
  return { asked, ask: (change) => setAsked((before) => ({ ...before, ...change })), keep }
}

function TypeSearch({ search }: { readonly search: Readonly<Record<string, string>> }) {
  useScreenTitle('Part types')
  const { data } = useQuery(typesQuery)
  const { asked, ask, keep } = useAsking(search)
  const types = data?.types ?? none
  const later = useDeferredValue(asked)
  const found = useMemo(() => findTypes(types, later), [types, later])
  const own = useMemo(() => new Set(data?.own.map((o) => o.type)), [data])
  const list = useRef<HTMLUListElement>(null)
  useSayCount(found, later)
  const intoList = (e: KeyboardEvent): void => {
    if (e.key !== 'ArrowDown') return
    e.preventDefault()
    list.current?.querySelector('a')?.focus()
  }
  return (
    <div className="screen">
      <header className="types-head">
        <div>
          <h1>Part types</h1>
          <p className="lead">Published limits at their conditions, each record with its source.</p>
        </div>
        <Link to="/types" search={{ new: '1' }} className="button">
          Add your own
        </Link>
      </header>
      <Filters asked={asked} ask={ask} types={types} wants={found.wants} onKeyDown={intoList} />
      <Count found={found} all={types.length} isLoaded={data !== undefined} />
      <TypeList types={found.types} own={own} list={list} onLeave={keep} />
      {data !== undefined && found.types.length === 0 && <NothingFound found={found} ask={ask} />}
    </div>
  )
}

const none: readonly PartType[] = []

/** Says how many were found once typing rests. */
function useSayCount(found: TypesFound, asked: Asked): void {
  const isAsked = Object.values(asked).some((value) => value !== '')
  useEffect(() => {
    if (!isAsked) return
    const wait = setTimeout(() => announce(`${found.types.length} types found`), 700)
    return () => clearTimeout(wait)
  }, [found, isAsked])
}

interface CountProps {
  readonly found: TypesFound
  readonly all: number
  readonly isLoaded: boolean
}

function Count({ found, all, isLoaded }: CountProps) {
  const n = found.types.length
  const how = n === all ? `${all} types` : n === 1 ? '1 type' : `${n} of ${all} types`
  return (
    <div className="types-count">
      <p className="soft">{isLoaded ? how : 'One moment …'}</p>
      {found.meant !== undefined && (
        <p className="said">
          <Prose text={found.meant.note} />{' '}
          <Link to="/types/$type" params={{ type: found.meant.type }}>
            See {found.meant.type}
          </Link>
        </p>
      )}
    </div>
  )
}

interface NothingProps {
  readonly found: TypesFound
  readonly ask: (change: Partial<Asked>) => void
}

function NothingFound({ found, ask }: NothingProps) {
  return (
    <div className="said">
      <p>No type on record answers to all of this.</p>
      {found.near.length > 0 && (
        <p>
          Near it:{' '}
          {found.near.map((type, i) => (
            <span key={type}>
              {i > 0 && ', '}
              <Link to="/types/$type" params={{ type }}>
                {type}
              </Link>
            </span>
          ))}
          .
        </p>
      )}
      <p className="actions">
        <button type="button" className="word" onClick={() => ask(nothingAsked)}>
          Ask for nothing in particular
        </button>
        <Link to="/types" search={{ new: '1' }}>
          Describe the type yourself
        </Link>
      </p>
    </div>
  )
}
