import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { ApiFault } from '#api'
import { printPlain } from '#core/quantity'
import type { Tester } from '#core/tester'
import { type FoundValue, foundState, keptValues } from '#core/upkeep'
import { Field } from '#web/field'
import { api, sayDone, upkeepQuery } from '#web/live'
import type { Sheet } from './found-typed.ts'

interface Props {
  readonly tester: Tester
  /** What was typed and understood. */
  readonly values: readonly FoundValue[]
  readonly onSheet: (sheet: Sheet) => void
}

/** Keeps what was measured in the book, with its day, or takes what is kept there into the sheet. */
export function FoundKeep({ tester, values, onSheet }: Props) {
  const { data } = useQuery(upkeepQuery(tester.id))
  const [day, setDay] = useState('')
  const [note, setNote] = useState('')
  const [fault, setFault] = useState<string>()
  const kept = foundState(tester, data?.found ?? []).values
  const keep = async (): Promise<void> => {
    const on = day.trim() === '' ? today() : day.trim()
    const parts = keptValues(values).map((v) => ({ ...v }))
    try {
      const own = note.trim() === '' ? {} : { note: note.trim() }
      const { edit } = await api.keepFound(tester.id, { day: on, parts, ...own })
      sayDone({ say: `What was found on ${on} is kept.`, edit })
      setFault(undefined)
    } catch (error) {
      if (!(error instanceof ApiFault)) throw error
      setFault(error.message)
    }
  }
  return (
    <form
      onSubmit={(e) => {
        e.preventDefault()
        void keep()
      }}
    >
      <div className="found-keep">
        <Field label="Measured on" example={today()} value={day} onText={setDay} />
        <Field label="Note" value={note} longest={2000} onText={setNote} />
      </div>
      {fault !== undefined && <p className="field-fault">{fault}</p>}
      <p className="actions">
        <button type="submit" className="button" disabled={values.length === 0}>
          Keep in the book
        </button>
        {kept.length > 0 && (
          <button type="button" className="word" onClick={() => onSheet(sheetOf(kept))}>
            Take what is kept into the sheet
          </button>
        )}
      </p>
      <p className="soft small">
        Kept values count in the health of the tester until it is calibrated again, in results of readings on it, and
        when trouble is looked for.
      </p>
    </form>
  )
}

const today = (): string => new Date().toISOString().slice(0, 10)

/** Digits that are written back: more than any meter shows. */
const digits = 7

/** Values as one would have typed them; an accuracy is a limit in which every value is equally likely. */
function sheetOf(values: readonly FoundValue[]): Sheet {
  const text = (x: number, unit: FoundValue['part']['unit'], n: number): string =>
    printPlain(x, unit, { digits: n, ascii: true })
  return Object.fromEntries(
    values.map(({ part, value, u }) => [
      part.id,
      {
        measured: text(value, part.unit, digits),
        accuracy: u === 0 ? '' : text(u * Math.sqrt(3), part.unit, digits),
      },
    ]),
  )
}
