import { Link } from '@tanstack/react-router'
import { type FormEvent, useState } from 'react'
import { partStatusWords } from '#api'
import { changeKeys, type Editable, editableNames } from './cell-field.tsx'

interface Props {
  readonly tags: readonly string[]
  readonly onChange: (field: Editable, text: string) => void
  readonly onClear: () => void
  readonly isOnly: boolean
  readonly onOnly: (isOnly: boolean) => void
}

/** What can be done with the parts chosen. */
export function SelectionBar({ tags, onChange, onClear, isOnly, onOnly }: Props) {
  const [field, setField] = useState<Editable>('places')
  const [text, setText] = useState('')
  const count = `${tags.length.toLocaleString('en')} ${tags.length === 1 ? 'part' : 'parts'}`
  const onSubmit = (e: FormEvent): void => {
    e.preventDefault()
    onChange(field, text.trim())
    setText('')
  }
  return (
    <section className="selection-bar" aria-label="Chosen parts">
      <p>
        <b>{count} chosen</b>
      </p>
      <label className="check">
        <input type="checkbox" checked={isOnly} onChange={(e) => onOnly(e.target.checked)} /> show only these
      </label>
      <form className="selection-change" onSubmit={onSubmit}>
        <label>
          <span className="vh">What to change</span>
          <select
            className="select"
            value={field}
            onChange={(e) => {
              setField(e.target.value as Editable)
              setText('')
            }}
          >
            {Object.keys(changeKeys).map((f) => (
              <option key={f} value={f}>
                {editableNames[f as Editable]}
              </option>
            ))}
          </select>
        </label>
        {field === 'statuses' ? (
          <select className="select" aria-label="New status" value={text} onChange={(e) => setText(e.target.value)}>
            <option value="">choose</option>
            {partStatusWords.map((w) => (
              <option key={w}>{w}</option>
            ))}
          </select>
        ) : (
          <input
            className="input"
            aria-label={`New ${editableNames[field].toLowerCase()}`}
            placeholder={field === 'places' ? 'drawer 3' : ''}
            value={text}
            maxLength={200}
            onChange={(e) => setText(e.target.value)}
          />
        )}
        <button type="submit" className="button" disabled={field === 'statuses' && text === ''}>
          Change
        </button>
      </form>
      <ReportLink tags={tags} />
      <button type="button" className="word" onClick={onClear}>
        Choose none
      </button>
    </section>
  )
}

/** Where the report's screen finds what was chosen, which may be too long for an address. */
export const chosenKey = 'germane/chosen'

function ReportLink({ tags }: { readonly tags: readonly string[] }) {
  const keep = (): void => window.sessionStorage.setItem(chosenKey, JSON.stringify(tags))
  return (
    <Link to="/report" search={{ chosen: String(tags.length) }} onClick={keep} className="word" preload={false}>
      Report
    </Link>
  )
}
