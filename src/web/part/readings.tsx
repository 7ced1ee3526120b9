import { type FormEvent, useEffect, useRef, useState } from 'react'
import type { KeptReading, PartRun } from '#api'
import { api, queryClient, queryKeys, sayDone } from '#web/live'
import { bookText, LetterSymbol, Plain } from '#web/typeset'
import { timeText } from './words.ts'

interface Props {
  readonly tag: string
  readonly run: PartRun
}

/** Readings as they were seen. Each can be corrected: the old one stays in the book, struck through. */
export function Readings({ tag, run }: Props) {
  const [correcting, setCorrecting] = useState<number>()
  const replaced = new Map(run.readings.flatMap((r) => (r.replaces === undefined ? [] : [[r.replaces, r.id] as const])))
  const rows = [...run.readings].filter((r) => !replaced.has(r.id))
  const before = (r: KeptReading): readonly KeptReading[] => {
    const found = run.readings.find((x) => x.id === r.replaces)
    return found === undefined ? [] : [found, ...before(found)]
  }
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    <section className="scroll" tabIndex={0} aria-label={`Readings of run ${run.run.id}`}>
      <table className="readings">
        <caption className="vh">Readings of run {run.run.id} as they were seen</caption>
        <thead>
          <tr>
            <th scope="col">Reads</th>
            <th scope="col">Seen</th>
            <th scope="col">Range</th>
            <th scope="col">Supply</th>
            <th scope="col">Point</th>
            <th scope="col">When</th>
            <th scope="col">Note</th>
            <th scope="col">
              <span className="vh">Correct</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((r) => (
            <tr key={r.id}>
              <th scope="row">{r.reading.reads === 'short' ? 'short check' : <LetterSymbol of={r.reading.reads} />}</th>
              <td>
                {correcting === r.id ? (
                  <CorrectField tag={tag} run={run.run.id} kept={r} onDone={() => setCorrecting(undefined)} />
                ) : (
                  <>
                    <bdi>{r.reading.seen}</bdi>
                    {before(r).map((b) => (
                      <del key={b.id} className="soft">
                        {' '}
                        <bdi>{b.reading.seen}</bdi>
                      </del>
                    ))}
                  </>
                )}
              </td>
              <td>{bookText(r.reading.range ?? '')}</td>
              <td className="quiet">
                {r.reading.supplyV !== undefined && <Plain value={r.reading.supplyV} unit="V" />}
              </td>
              <td>{r.reading.point > 0 ? r.reading.point : ''}</td>
              <td className="soft">{timeText(r.reading.at ?? r.enteredAt)}</td>
              <td>
                <bdi>{r.reading.note ?? ''}</bdi>
              </td>
              <td>
                {correcting !== r.id && (
                  <button type="button" className="word" onClick={() => setCorrecting(r.id)}>
                    Correct<span className="vh"> {r.reading.reads}</span>
                  </button>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

interface CorrectProps {
  readonly tag: string
  readonly run: number
  readonly kept: KeptReading
  readonly onDone: () => void
}

function CorrectField({ tag, run, kept, onDone }: CorrectProps) {
  const [seen, setSeen] = useState(kept.reading.seen)
  const [fault, setFault] = useState<string>()
  const [clientId] = useState(() => crypto.randomUUID())
  const field = useRef<HTMLInputElement>(null)
  useEffect(() => {
    field.current?.focus()
    field.current?.select()
  }, [])
  const keep = async (): Promise<void> => {
    if (seen.trim() === kept.reading.seen) return onDone()
    try {
      const { edit, echo } = await api.correctReading(run, kept.id, { clientId, seen: seen.trim() })
      await queryClient.invalidateQueries({ queryKey: queryKeys.part(tag) })
      sayDone({ say: `Corrected: ${echo}.`, ...(edit === undefined ? {} : { edit }) })
      onDone()
    } catch (e) {
      setFault(e instanceof Error ? e.message : String(e))
    }
  }
  const onSubmit = (e: FormEvent): void => {
    e.preventDefault()
    void keep()
  }
  return (
    <form className="correct" onSubmit={onSubmit}>
      <input
        ref={field}
        className="input"
        aria-label={`Correct ${kept.reading.reads}`}
        value={seen}
        maxLength={60}
        autoComplete="off"
        onChange={(e) => setSeen(e.target.value)}
        onKeyDown={(e) => e.key === 'Escape' && onDone()}
      />
      <button type="submit" className="word">
        Keep
      </button>
      <button type="button" className="word" onClick={onDone}>
        Leave
      </button>
      {fault !== undefined && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
    </form>
  )
}
