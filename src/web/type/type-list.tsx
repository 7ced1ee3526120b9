import { Link } from '@tanstack/react-router'
import { type KeyboardEvent, memo, type RefObject, useState } from 'react'
import type { PartType } from '#core/device'
import { LetterSymbol, Plain, SpanOf } from '#web/typeset'
import { type Glance, glanceOf, kindOf } from './glance.ts'

interface Props {
  readonly types: readonly PartType[]
  readonly own: ReadonlySet<string>
  readonly list: RefObject<HTMLUListElement | null>
  /** A line was chosen, and the list is about to go. */
  readonly onLeave: () => void
}

/** Rows shown at once; more come when they are asked for. */
const atOnce = 40

/** The types found, one a line; arrows go from line to line. */
export function TypeList({ types, own, list, onLeave }: Props) {
  const [more, setMore] = useState<readonly PartType[]>([])
  const isWhole = more === types || types.length <= atOnce
  const shown = isWhole ? types : types.slice(0, atOnce)
  if (types.length === 0) return <ul ref={list} />
  return (
    <>
      <p className="type-row type-names" aria-hidden="true">
        <span>Type</span>
        <span>What it is</span>
        <span>Case</span>
        <span className="n">Voltage</span>
        <span className="n">Current</span>
        <span className="n">Power</span>
        <span className="n">Gain, or the like</span>
      </p>
      <ul ref={list} className="type-list" onKeyDown={walk} onClickCapture={onLeave}>
        {shown.map((t) => (
          <TypeRow key={t.type} type={t} isOwn={own.has(t.type)} />
        ))}
      </ul>
      {!isWhole && (
        <button type="button" className="button types-more" onClick={() => setMore(types)}>
          Show the other {types.length - atOnce}
        </button>
      )}
    </>
  )
}

/** Arrow keys go from line to line, and up from the first back to the field. */
function walk(e: KeyboardEvent<HTMLUListElement>): void {
  const step = e.key === 'ArrowDown' ? 1 : e.key === 'ArrowUp' ? -1 : 0
  if (step === 0) return
  const links = [...e.currentTarget.querySelectorAll('a')]
  const at = links.indexOf(document.activeElement as HTMLAnchorElement)
  const next = links[at + step]
  e.preventDefault()
  if (next !== undefined) next.focus()
  else if (step < 0) document.querySelector<HTMLInputElement>('.filters input')?.focus()
}

interface RowProps {
  readonly type: PartType
  readonly isOwn: boolean
}

const TypeRow = memo(function TypeRow({ type: t, isOwn }: RowProps) {
  const g = glanceOf(t)
  return (
    <li>
      <Link to="/types/$type" params={{ type: t.type }} className="type-row" preload={false}>
        <span className="type-number">{t.type}</span>
        <span className="type-kind">
          {kindOf(t)}
          <Standing type={t} isOwn={isOwn} />
        </span>
        <span className="type-case soft">{t.outline ?? ''}</span>
        <Figure of={g.voltage} />
        <Figure of={g.current} />
        <Figure of={g.power} isBare />
        <Figure of={g.gain} />
      </Link>
    </li>
  )
})

function Standing({ type: t, isOwn }: RowProps) {
  if (isOwn) return <span className="type-standing">your own</span>
  if (t.provenance.kind === 'memory') return <span className="type-standing">from memory</span>
  return null
}

function Figure({ of, isBare = false }: { readonly of: Glance | undefined; readonly isBare?: boolean }) {
  if (of === undefined) return <span className="n figure-none" />
  return (
    <span className="n quiet">
      {!isBare && (
        <span className="soft">
          <LetterSymbol of={of.symbol} />{' '}
        </span>
      )}
      {of.to === undefined ? (
        <Plain value={of.value} unit={of.unit} digits={3} />
      ) : (
        <SpanOf from={of.value} to={of.to} unit={of.unit} digits={3} />
      )}
    </span>
  )
}
