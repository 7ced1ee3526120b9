import { useMemo } from 'react'
import { type MatchAnswer, type MatchPart, matchParts } from '#core/match'
import { digits } from './set-table.tsx'
import type { Wish } from './wish.ts'

interface Props {
  /** The part one holds, and the one it is exchanged with. */
  readonly pair: readonly [string, string]
  readonly parts: readonly MatchPart[]
  readonly wish: Wish
  readonly answer: MatchAnswer
  /** Sets that stay together after it. */
  readonly onTake: (together: readonly (readonly string[])[]) => void
  readonly onLeave: () => void
}

/** What an exchange by hand costs, before it is made. */
export function Exchange({ pair, parts, wish, answer, onTake, onLeave }: Props) {
  const [a, b] = pair
  const changed = useMemo(() => exchanged(answer, pair), [answer, pair])
  const cost = useMemo(() => {
    if (changed === undefined) return undefined
    const request = { ...wish.request, together: [...others(wish, changed), ...changed.map((set) => [...set])] }
    return matchParts(parts, request).totalCost
  }, [changed, parts, wish])
  if (changed === undefined || cost === undefined)
    return (
      <p className="match-held" role="status">
        {a} and {b} are in one set, or in none: there is nothing to exchange.{' '}
        <button type="button" className="word" onClick={onLeave}>
          Let go
        </button>
      </p>
    )
  const by = cost - answer.totalCost
  return (
    <p className="match-held" role="status">
      Exchanging <b>{a}</b> and <b>{b}</b> makes the total {digits(cost)}, {digits(Math.abs(by))}{' '}
      {by >= 0 ? 'more' : 'less'}.{' '}
      <button type="button" className="button" onClick={() => onTake([...others(wish, changed), ...changed])}>
        Exchange and keep
      </button>{' '}
      <button type="button" className="word" onClick={onLeave}>
        Leave as it is
      </button>
    </p>
  )
}

/** Kept sets that the exchange does not touch. */
const others = ({ request }: Wish, changed: readonly (readonly string[])[]): string[][] =>
  request.together.filter((group) => !group.some((tag) => changed.some((set) => set.includes(tag))))

/** The sets as they are after it; nothing where both parts are in one set or in none. */
export function exchanged(
  answer: MatchAnswer,
  [a, b]: readonly [string, string],
): readonly (readonly string[])[] | undefined {
  const touched = answer.sets.filter((s) => s.tags.includes(a) !== s.tags.includes(b))
  if (touched.length === 0) return undefined
  return touched.map((s) => s.tags.map((tag) => (tag === a ? b : tag === b ? a : tag)))
}
