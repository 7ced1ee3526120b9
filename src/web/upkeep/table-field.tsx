import { useId } from 'react'

interface Props {
  readonly label: string
  readonly hint: string
  readonly text: string
  /** A table that works. */
  readonly example: string
  readonly onText: (text: string) => void
}

/** Room for a table: typed, or pasted from a spreadsheet. */
export function TableField({ label, hint, text, example, onText }: Props) {
  const hintId = useId()
  return (
    <div className="upkeep-table-field">
      <label className="field">
        <span className="field-label">{label}</span>
        <textarea
          className="area mono"
          rows={Math.min(14, Math.max(5, text.split('\n').length))}
          value={text}
          spellCheck={false}
          autoComplete="off"
          autoCapitalize="off"
          wrap="off"
          aria-describedby={hintId}
          onChange={(e) => onText(e.target.value)}
        />
      </label>
      <p className="field-hint" id={hintId}>
        {hint}
      </p>
      <p className="actions">
        <button type="button" className="word" onClick={() => onText(example)}>
          Take the example
        </button>
        {text !== '' && (
          <button type="button" className="word" onClick={() => onText('')}>
            Empty it
          </button>
        )}
      </p>
    </div>
  )
}
