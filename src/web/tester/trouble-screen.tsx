import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useDeferredValue, useMemo } from 'react'
import { FaultError } from '#core/fault'
import type { Tester } from '#core/tester'
import {
  diagnose,
  foundState,
  playbook,
  readSaw,
  type Sight,
  type SightWord,
  sightWords,
  type TesterCheck,
} from '#core/upkeep'
import { upkeepQuery, useRemembered, useScreenTitle } from '#web/live'
import { bookText, Prose } from '#web/typeset'
import { sentencesOf } from './found-typed.ts'
import { Suspects } from './suspects.tsx'
import { TakeCare } from './take-care.tsx'
import './found.css'

/** What one says of a check: a word, or `number` and how far off. */
interface Said {
  readonly word: string
  readonly number: string
}

type AllSaid = Readonly<Record<string, Said>>

const nothingSaid: Said = { word: '', number: '' }

interface CheckRead {
  readonly check: TesterCheck
  readonly sight?: Sight
  readonly fault?: string
}

/** What a tester shows, and what may be wrong with it. */
export function TroubleScreen({ tester }: { readonly tester: Tester }) {
  useScreenTitle(`${tester.name}, trouble`)
  const [said, setSaid] = useRemembered<AllSaid>(`trouble/${tester.id}`, () => ({}))
  const book = useMemo(() => playbook(tester), [tester])
  const later = useDeferredValue(said)
  const reads = useMemo(() => book.checks.map((c) => readCheck(c, later[c.id], tester)), [book, later, tester])
  const saw = useMemo(() => reads.flatMap((r) => (r.sight === undefined ? [] : [r.sight])), [reads])
  const { data } = useQuery(upkeepQuery(tester.id))
  const [isCounted, setCounted] = useRemembered(`trouble-counts/${tester.id}`, () => true)
  const kept = useMemo(() => foundState(tester, data?.found ?? []).values, [tester, data])
  const found = useMemo(
    () => (saw.length === 0 ? undefined : diagnose(book, saw, isCounted ? kept : [])),
    [book, saw, isCounted, kept],
  )
  const sayRest = (): void => {
    const rest = book.checks.filter((c) => isRange(c) && (said[c.id]?.word ?? '') === '')
    setSaid({ ...said, ...Object.fromEntries(rest.map((c) => [c.id, { word: 'right', number: '' }])) })
  }
  return (
    <article className="screen found">
      <header>
        <h1>Find trouble</h1>
        <p className="lead">
          Say what{' '}
          <Link to="/testers/$id" params={{ id: tester.id }}>
            {tester.name}
          </Link>{' '}
          shows where you looked. Nothing needs to be opened, and not everything looked at.
        </p>
        <TakeCare tester={tester} />
      </header>
      <section className="spread">
        <h2>What it shows</h2>
        <div className="matter">
          <ul className="trouble">
            {reads.map((r) => (
              <CheckLine
                key={r.check.id}
                read={r}
                said={said[r.check.id] ?? nothingSaid}
                onSaid={(s) => setSaid({ ...said, [r.check.id]: s })}
              />
            ))}
          </ul>
          <p className="actions">
            <button type="button" className="button" onClick={sayRest}>
              All other ranges are right
            </button>
            <button type="button" className="word" onClick={() => setSaid({})}>
              Begin anew
            </button>
          </p>
        </div>
      </section>
      <section className="spread">
        <h2>What may be wrong</h2>
        <div className="matter" aria-live="polite">
          {kept.length > 0 && (
            <label className="check">
              <input type="checkbox" checked={isCounted} onChange={(e) => setCounted(e.target.checked)} /> count what
              the book keeps of {kept.length === 1 ? '1 part' : `${kept.length} parts`} as found
            </label>
          )}
          {found === undefined ? (
            <p className="soft">Say first what you saw, at rest or on any range.</p>
          ) : (
            <Suspects found={found} hidden={book.hidden.map((f) => f.id)} />
          )}
        </div>
      </section>
      <p className="actions found-foot">
        <Link to="/testers/$id" params={{ id: tester.id }} search={{ found: '1' }} className="button">
          Measure its parts
        </Link>
      </p>
    </article>
  )
}

const isRange = (c: TesterCheck): boolean => c.kind === 'current' || c.kind === 'voltage'

const isWord = (text: string): text is SightWord => (sightWords as readonly string[]).includes(text)

function readCheck(check: TesterCheck, { word, number }: Said = nothingSaid, tester: Tester): CheckRead {
  if (isWord(word)) return { check, sight: { check, seen: word } }
  if (word !== 'number' || number.trim() === '') return { check }
  try {
    const [sight] = readSaw([`${check.id}: ${number}`], tester)
    return { check, sight: sight! }
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    return { check, fault: sentencesOf(error) }
  }
}

interface LineProps {
  readonly read: CheckRead
  readonly said: Said
  readonly onSaid: (said: Said) => void
}

function CheckLine({ read: { check, fault }, said, onSaid }: LineProps) {
  const asked = check.seen === 'part' ? 'Off by' : 'Divisions off'
  return (
    <li>
      <span>
        <b>{bookText(check.id)}</b>{' '}
        <span className="soft small">
          <Prose text={check.say} />
        </span>
      </span>
      <span className="trouble-said">
        <select
          className="select"
          aria-label={`Seen at ${check.id}`}
          value={said.word}
          onChange={(e) => onSaid({ ...said, word: e.target.value })}
        >
          <option value="">not looked at</option>
          {sightWords.map((w) => (
            <option key={w}>{w}</option>
          ))}
          <option value="number">a number</option>
        </select>
        {said.word === 'number' && (
          <input
            className="input"
            aria-label={`${asked}, ${check.id}`}
            placeholder={check.seen === 'part' ? '-8 %' : '+2 div'}
            value={said.number}
            maxLength={30}
            spellCheck={false}
            autoComplete="off"
            aria-invalid={fault !== undefined}
            onChange={(e) => onSaid({ ...said, number: e.target.value })}
          />
        )}
      </span>
      {fault !== undefined && <span className="field-fault">{fault}</span>}
    </li>
  )
}
