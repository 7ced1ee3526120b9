import { type KeyboardEvent, type ReactNode, type RefObject, useId } from 'react'

/** Letters a field takes where nothing else is said: as many as a tag or the number of a type may have. */
const longestLine = 200

/** What every field to type in is given. */
export interface FieldProps {
  readonly label: ReactNode
  readonly value: string
  readonly onText: (text: string) => void
  /** Called when one leaves the field or presses Enter. */
  readonly onDone?: () => void
  readonly onFocus?: () => void
  /** Takes the keys instead: Enter then does what this does with it. */
  readonly onKey?: (event: KeyboardEvent<HTMLInputElement>) => void
  readonly fault?: string | undefined
  /** Shown while nothing stands there. */
  readonly example?: string | undefined
  /** Always shown below it. */
  readonly hint?: string | undefined
  /** Words to choose from, or to write other ones. */
  readonly words?: readonly string[] | undefined
  /** Id of a list of words that stands elsewhere. */
  readonly list?: string | undefined
  readonly longest?: number | undefined
  /** `date` gives the browser's own field for one. */
  readonly type?: 'text' | 'date' | undefined
  readonly inputMode?: 'decimal' | 'text' | undefined
  readonly id?: string | undefined
  readonly inputRef?: RefObject<HTMLInputElement | null> | undefined
}

/** A labelled line to type in, with what is wrong below it. Every such field of the page is this one. */
export function Field(p: FieldProps) {
  const made = useId()
  const { id = made, fault, hint, words } = p
  const isBad = fault !== undefined
  const said = [isBad && `${id}-fault`, hint !== undefined && `${id}-hint`].filter(Boolean).join(' ')
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {p.label}
      </label>
      <input
        id={id}
        ref={p.inputRef}
        className="input"
        type={p.type ?? 'text'}
        inputMode={p.inputMode}
        value={p.value}
        placeholder={p.example}
        list={words === undefined ? p.list : `${id}-words`}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        maxLength={p.longest ?? longestLine}
        aria-invalid={isBad}
        aria-describedby={said === '' ? undefined : said}
        onChange={(e) => p.onText(e.target.value)}
        onFocus={p.onFocus}
        onBlur={p.onDone}
        onKeyDown={p.onKey ?? ((e) => e.key === 'Enter' && p.onDone?.())}
      />
      {words !== undefined && (
        <datalist id={`${id}-words`}>
          {words.map((w) => (
            <option key={w} value={w} />
          ))}
        </datalist>
      )}
      {hint !== undefined && (
        <p className="field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {isBad && (
        <p className="field-fault" id={`${id}-fault`}>
          {fault}
        </p>
      )}
    </div>
  )
}
