import { Link } from '@tanstack/react-router'
import { type FormEvent, useState } from 'react'
import type { MatchOffers } from '#api'
import type { MatchAnswer, MatchedSet, MatchRequest } from '#core/match'
import { LetterSymbol, Prose, plainText, sureText } from '#web/typeset'
import { unitOf } from './wish.ts'

interface Props {
  readonly answer: MatchAnswer
  readonly request: MatchRequest
  readonly offers: MatchOffers
  /** The part one holds, to be exchanged with the next one pressed. */
  readonly held: string | undefined
  readonly onPart: (tag: string) => void
  readonly onLook: (set: MatchedSet | undefined) => void
  readonly onKeep: (set: MatchedSet, isKept: boolean) => void
  readonly onReserve: (tags: readonly string[]) => void
  readonly onUse: (set: MatchedSet, where: string) => void
}

/** Sets shown at once; the rest comes with a press. */
const atOnce = 60

/** The sets, each with what one can do with it. */
export function SetTable({ answer, request, offers, held, onPart, onLook, onKeep, onReserve, onUse }: Props) {
  const [shown, setShown] = useState(atOnce)
  const [using, setUsing] = useState<string>()
  const isSure = answer.sets.some((s) => s.probability !== undefined)
  if (answer.sets.length === 0) return <p>No set is as asked for. Widen a tolerance, or ask for fewer parameters.</p>
  return (
    <>
      <div className="scroll">
        <table className="match-table">
          <thead>
            <tr>
              <th scope="col" className="n">
                Set
              </th>
              <th scope="col">Parts</th>
              <th scope="col" className="n">
                Mismatch
              </th>
              {request.by.map(({ name }) => (
                <th scope="col" key={name} className="n">
                  Spread of <NameOf name={name} />
                </th>
              ))}
              {isSure && (
                <th scope="col" className="n" title="How probable it is that the true values meet the tolerances">
                  Sure
                </th>
              )}
              <th scope="col">
                <span className="vh">What to do</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {answer.sets.slice(0, shown).map((set, i) => (
              <tr key={set.tags.join(' ')} onPointerEnter={() => onLook(set)} onPointerLeave={() => onLook(undefined)}>
                <th scope="row" className="n">
                  {i + 1}
                </th>
                <td className="match-parts">
                  {set.tags.map((tag, k) => (
                    <span key={tag} className="match-part">
                      {request.places !== undefined && <span className="soft small">{request.places[k]!.name} </span>}
                      <button
                        type="button"
                        className={tag === held ? 'word held' : 'word'}
                        aria-pressed={tag === held}
                        title="Hold it, then press the part to exchange it with"
                        onClick={() => onPart(tag)}
                      >
                        {tag}
                      </button>
                    </span>
                  ))}
                </td>
                <td className="n">
                  <span className="match-name">Mismatch</span> {digits(set.cost)}
                </td>
                {request.by.map(({ name }) => (
                  <td key={name} className="n">
                    <span className="match-name">
                      Spread of <NameOf name={name} />
                    </span>{' '}
                    {plainText(set.spread[name] ?? Number.NaN, unitOf(name, offers), 3)}
                  </td>
                ))}
                {isSure && (
                  <td className="n">
                    <span className="match-name">Sure</span>{' '}
                    {set.probability === undefined ? '' : sureText(set.probability)}
                  </td>
                )}
                <td className="match-acts">
                  <button
                    type="button"
                    className="word"
                    aria-pressed={set.isGiven === true}
                    onClick={() => onKeep(set, set.isGiven !== true)}
                  >
                    {set.isGiven === true ? 'Let go' : 'Keep'}
                  </button>
                  <button type="button" className="word" onClick={() => onReserve(set.tags)}>
                    Reserve
                  </button>
                  <button
                    type="button"
                    className="word"
                    aria-expanded={using === set.tags.join(' ')}
                    onClick={() => setUsing(using === set.tags.join(' ') ? undefined : set.tags.join(' '))}
                  >
                    Use
                  </button>
                  {using === set.tags.join(' ') && (
                    <UseForm
                      onUse={(where) => {
                        setUsing(undefined)
                        onUse(set, where)
                      }}
                    />
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {answer.sets.length > shown && (
        <p>
          <button type="button" className="word" onClick={() => setShown(shown + 10 * atOnce)}>
            Show more of the {answer.sets.length} sets
          </button>
        </p>
      )}
    </>
  )
}

/** Where the parts of a set are put to use: they are used then, and no choice any more. */
function UseForm({ onUse }: { readonly onUse: (where: string) => void }) {
  const [where, setWhere] = useState('')
  const submit = (e: FormEvent): void => {
    e.preventDefault()
    if (where.trim() !== '') onUse(where.trim())
  }
  return (
    <form className="match-use" onSubmit={submit}>
      <input
        className="input"
        aria-label="Where they are used"
        placeholder="output stage, left"
        value={where}
        maxLength={200}
        // biome-ignore lint/a11y/noAutofocus: it opens because one asked for it
        autoFocus
        onChange={(e) => setWhere(e.target.value)}
      />
      <button type="submit" className="button" disabled={where.trim() === ''}>
        Mark as used
      </button>
    </form>
  )
}

/** A parameter by its symbol, set as one. */
export function NameOf({ name }: { readonly name: string }) {
  const found = /^(ln|log10)\((.+)\)$/.exec(name)
  const [symbol, ...at] = (found?.[2] ?? name).split('@')
  return (
    <>
      {found !== null && `${found[1]} `}
      <LetterSymbol of={symbol!} />
      {at.map((a) => ` at ${a}`)}
    </>
  )
}

interface LeftProps {
  readonly answer: MatchAnswer
  readonly held: string | undefined
  readonly onPart: (tag: string) => void
}

/** What is left over, by why. */
export function LeftOverList({ answer, held, onPart }: LeftProps) {
  const byWhy = new Map<string, string[]>()
  for (const { tag, why } of answer.leftOver) byWhy.set(why, [...(byWhy.get(why) ?? []), tag])
  if (byWhy.size === 0) return <p className="soft">No part is left over.</p>
  return (
    <dl className="match-left">
      {[...byWhy].map(([why, tags]) => (
        <div key={why}>
          <dt>
            <Prose text={`${why.charAt(0).toUpperCase()}${why.slice(1)}: ${tags.length}`} />
          </dt>
          <dd>
            {tags.slice(0, 200).map((tag) =>
              /^(no set left|not needed)/.test(why) ? (
                <button
                  key={tag}
                  type="button"
                  className={tag === held ? 'word held' : 'word'}
                  aria-pressed={tag === held}
                  onClick={() => onPart(tag)}
                >
                  {tag}
                </button>
              ) : (
                <Link key={tag} to="/parts/$tag" params={{ tag }}>
                  {tag}
                </Link>
              ),
            )}
            {tags.length > 200 && <span className="soft"> and {tags.length - 200} more</span>}
          </dd>
        </div>
      ))}
    </dl>
  )
}

export const digits = (x: number): string => Number(x.toPrecision(4)).toString()
