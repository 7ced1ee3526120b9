import { useQuery } from '@tanstack/react-query'
import { useDeferredValue, useMemo, useState } from 'react'
import type { MatchChoice, MatchOffers } from '#api'
import { type MatchAnswer, type MatchedSet, matchParts, objectives } from '#core/match'
import {
  api,
  matchOffersQuery,
  matchPartsQuery,
  queryClient,
  queryKeys,
  sayDone,
  useRemembered,
  useScreenTitle,
} from '#web/live'
import { NothingRead, Waiting } from '#web/shell'
import { Exchange } from './exchange.tsx'
import { Labels } from './labels.tsx'
import { SetCloud } from './set-cloud.tsx'
import { digits, LeftOverList, SetTable } from './set-table.tsx'
import { changed, firstWish, queryOf, type Wish } from './wish.ts'
import { WishForm } from './wish-form.tsx'
import './match.css'

/** Sets of parts that go together. */
export function MatchScreen() {
  useScreenTitle('Match')
  const { data, error } = useQuery(matchOffersQuery)
  if (data === undefined && error !== null) throw error
  if (data === undefined) return <Waiting />
  return data.symbols.length === 0 ? <NothingMeasured /> : <Matching offers={data} />
}

const NothingMeasured = () => (
  <NothingRead title="Match">
    Parts are matched by what was read of them, and no part of this book has been read yet. Begin a run, or open the
    demo on the start page.
  </NothingRead>
)

/** More parts than can be matched while one watches. */
const TooMany = ({ count }: { readonly count: number }) => (
  <p role="status">
    {count.toLocaleString('en')} parts are too many to be matched while you watch. Choose a type or a lot above, or let{' '}
    <code>germane match --book</code> take its time: it matches 100,000.
  </p>
)

const none: MatchChoice = { parts: [], notes: [] }

function Matching({ offers }: { readonly offers: MatchOffers }) {
  const [kept, setWish] = useRemembered<Wish | null>('match', () => null)
  const wish = kept ?? firstWish(offers)
  const later = useDeferredValue(wish)
  const { data = none, error, isFetching } = useQuery({ ...matchPartsQuery(queryOf(later)), placeholderData: (d) => d })
  const { parts } = data
  const found = useMemo(() => answerTo(parts, later), [parts, later])
  const [held, setHeld] = useState<string>()
  const [looked, setLooked] = useState<MatchedSet>()
  const [other, setOther] = useState<string>()
  const widest = useMemo(() => widestOf(parts, later), [parts, later])
  const { request } = wish
  const set = (change: Parameters<typeof changed>[1]): void => setWish({ ...wish, request: changed(request, change) })
  const press = (tag: string): void => {
    if (held === undefined || held === tag) setHeld(held === tag ? undefined : tag)
    else setOther(tag)
  }
  const letGo = (): void => {
    setHeld(undefined)
    setOther(undefined)
  }
  const bright = new Set([...(looked?.tags ?? []), ...(held === undefined ? [] : [held])])
  return (
    <div className="screen match">
      <header>
        <h1>Match</h1>
        <p className="lead">Sets of parts that go together, the best there are, and how far that is proven.</p>
      </header>
      <WishForm wish={wish} offers={offers} onWish={setWish} widest={widest} />
      {error !== null && <p className="field-fault">{error.message}</p>}
      {data.tooMany !== undefined ? (
        <TooMany count={data.tooMany} />
      ) : found.ok ? (
        <>
          <section className="match-found" aria-label="Sets found" aria-busy={isFetching}>
            <p className="match-say" role="status">
              <b>
                {found.answer.sets.length} {found.answer.sets.length === 1 ? 'set' : 'sets'}
              </b>{' '}
              of {parts.length === 1 ? '1 part' : `${parts.length} parts`}
              {found.answer.sets.length > 0 && (
                <>
                  , mismatch in total {digits(found.answer.totalCost)} ({objectives[found.answer.objective]}).{' '}
                  {found.answer.proof.say}
                </>
              )}
              {found.answer.sets.length === 0 && '.'}
            </p>
            {data.notes.map((note) => (
              <p key={note} className="soft small">
                {note}
              </p>
            ))}
            <SetCloud
              parts={parts}
              sets={found.answer.sets}
              names={later.request.by.map((one) => one.name)}
              offers={offers}
              bright={bright}
              onSet={setLooked}
            />
            {held !== undefined && other !== undefined && (
              <Exchange
                pair={[held, other]}
                parts={parts}
                wish={later}
                answer={found.answer}
                onTake={(together) => {
                  letGo()
                  set({ together })
                }}
                onLeave={letGo}
              />
            )}
            {held !== undefined && other === undefined && (
              <p className="match-held" role="status">
                You hold <b>{held}</b>: press the part to exchange it with, or press it again to let go.
              </p>
            )}
            <SetTable
              answer={found.answer}
              request={later.request}
              offers={offers}
              held={held}
              onPart={press}
              onLook={setLooked}
              onKeep={(one, isKept) => {
                const rest = request.together.filter((group) => !group.some((tag) => one.tags.includes(tag)))
                set({ together: isKept ? [...rest, [...one.tags]] : rest })
              }}
              onReserve={(tags) =>
                set({
                  reserve: [...new Set([...request.reserve, ...tags])],
                  together: request.together.filter((group) => !group.some((tag) => tags.includes(tag))),
                })
              }
              onUse={(one, where) => void use(one.tags, where)}
            />
            {found.answer.sets.length > 0 && (
              <p className="actions">
                <button type="button" className="button" onClick={() => window.print()}>
                  Print labels
                </button>
                {request.reserve.length > 0 && (
                  <button type="button" className="word" onClick={() => set({ reserve: [] })}>
                    Give back the {request.reserve.length} reserved
                  </button>
                )}
                {request.together.length > 0 && (
                  <button type="button" className="word" onClick={() => set({ together: [] })}>
                    Let all kept sets go
                  </button>
                )}
              </p>
            )}
          </section>
          <section className="spread">
            <h2>Left over</h2>
            <div className="matter">
              <LeftOverList answer={found.answer} held={held} onPart={press} />
            </div>
          </section>
          <Labels answer={found.answer} parts={parts} request={later.request} offers={offers} />
        </>
      ) : (
        <p className="field-fault">{found.say}</p>
      )}
    </div>
  )
}

type Found = { readonly ok: true; readonly answer: MatchAnswer } | { readonly ok: false; readonly say: string }

/** Longest a search goes on while one drags a tolerance, ms. */
const patience = 120

/** Sets by the same function as at the command line; a part that was kept and is gone is let go. */
function answerTo(parts: MatchChoice['parts'], { request }: Wish): Found {
  const tags = new Set(parts.map((p) => p.tag))
  const together = request.together.filter((group) => group.every((tag) => tags.has(tag)))
  const end = performance.now() + patience
  try {
    return { ok: true, answer: matchParts(parts, { ...request, together }, () => performance.now() < end) }
  } catch (error) {
    return { ok: false, say: error instanceof Error ? error.message : String(error) }
  }
}

/** Half of the widest difference there is: as far as a slider goes. */
function widestOf(parts: MatchChoice['parts'], { request }: Wish): ReadonlyMap<string, number> {
  return new Map(
    request.by.map(({ name }) => {
      const values = parts.flatMap((p) => (p.values[name] === undefined ? [] : [p.values[name]])).sort((a, b) => a - b)
      return [name, ((values.at(-1) ?? 0) - (values[0] ?? 0)) / 2]
    }),
  )
}

async function use(tags: readonly string[], where: string): Promise<void> {
  try {
    const { edit } = await api.changeParts(tags, { status: 'used', usedIn: where })
    await queryClient.invalidateQueries({ queryKey: queryKeys.drawer })
    sayDone({ say: `${tags.join(', ')}: used in ${where} now.`, ...(edit === undefined ? {} : { edit }) })
  } catch (e) {
    sayDone({ say: e instanceof Error ? e.message : String(e) })
  }
}
