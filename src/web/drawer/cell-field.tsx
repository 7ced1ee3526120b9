import { type KeyboardEvent, useEffect, useId, useRef, useState } from 'react'
import { partStatusWords } from '#api'

/** Columns whose cells can be changed where they stand. */
export const editableFields = ['statuses', 'places', 'usedIn', 'lots'] as const
export type Editable = (typeof editableFields)[number]

export const isEditable = (field: string): field is Editable => editableFields.some((f) => f === field)

/** What a column is called where one changes it. */
export const editableNames = { statuses: 'Status', places: 'Place', usedIn: 'Used in', lots: 'Lot' } as const

/** The key of a column in what the server takes. */
export const changeKeys = { statuses: 'status', places: 'place', usedIn: 'usedIn', lots: 'lot' } as const

interface Props {
  readonly field: Editable
  readonly tag: string
  readonly value: string
  /** What stands in the column elsewhere, to choose from. */
  readonly words: readonly string[]
  /** What to keep; nothing: it stays as it was. */
  readonly onDone: (text: string | undefined) => void
}

/** Most suggestions offered. */
const most = 200

/** A cell being changed. Enter keeps, Escape leaves it. */
export function CellField({ field, tag, value, words, onDone }: Props) {
  const id = useId()
  const [text, setText] = useState(value)
  const at = useRef<HTMLInputElement & HTMLSelectElement>(null)
  const isDone = useRef(false)
  useEffect(() => at.current?.focus(), [])
  const done = (kept: string | undefined): void => {
    if (isDone.current) return
    isDone.current = true
    onDone(kept === value ? undefined : kept)
  }
  const onKey = (e: KeyboardEvent): void => {
    e.stopPropagation()
    if (e.key === 'Enter') done(text.trim())
    else if (e.key === 'Escape') done(undefined)
  }
  const label = `${editableNames[field]} of ${tag}`
  if (field === 'statuses')
    return (
      <select
        ref={at}
        className="cell-field"
        aria-label={label}
        value={text}
        onChange={(e) => {
          setText(e.target.value)
          done(e.target.value)
        }}
        onKeyDown={onKey}
        onBlur={() => done(text)}
        onClick={(e) => e.stopPropagation()}
      >
        {partStatusWords.map((w) => (
          <option key={w}>{w}</option>
        ))}
      </select>
    )
  return (
    <>
      <input
        ref={at}
        className="cell-field"
        aria-label={label}
        list={id}
        value={text}
        maxLength={200}
        onChange={(e) => setText(e.target.value)}
        onKeyDown={onKey}
        onBlur={() => done(text.trim())}
        onClick={(e) => e.stopPropagation()}
      />
      <datalist id={id}>
        {words.slice(0, most).map((w) => (
          <option key={w} value={w} />
        ))}
      </datalist>
    </>
  )
}
