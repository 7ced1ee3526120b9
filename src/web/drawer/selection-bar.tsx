import { Link } from '@tanstack/react-router'
import { type FormEvent, useState } from 'react'
import { partStatusWords } from '#api'
import { keepChosen } from '#web/live'
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
      <ScreenLink tags={tags} to="/report" name="Report" />
      <ScreenLink tags={tags} to="/curves" name="Curves" />
      <button type="button" className="word" onClick={onClear}>
        Choose none
      </button>
    </section>
  )
}

interface ScreenLinkProps {
  readonly tags: readonly string[]
  readonly to: '/report' | '/curves'
  readonly name: string
}

/** A way to a screen about the parts chosen, which finds their tags where they are left for it. */
function ScreenLink({ tags, to, name }: ScreenLinkProps) {
  return (
    <Link
      to={to}
      search={{ chosen: String(tags.length) }}
      onClick={() => keepChosen(tags)}
      className="word"
      preload={false}
    >
      {name}
    </Link>
  )
}
