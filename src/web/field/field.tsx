import { type ReactNode, useId } from 'react'

interface Props {
  readonly label: ReactNode
  readonly value: string
  readonly onText: (text: string) => void
  /** Called when one leaves the field or presses Enter. */
  readonly onDone?: () => void
  readonly fault?: string | undefined
  /** Shown while nothing stands there. */
  readonly example?: string | undefined
  /** Words to choose from, or to write other ones. */
  readonly words?: readonly string[] | undefined
  readonly id?: string | undefined
}

/** A labelled field with what is wrong below it. */
export function Field({ label, value, onText, onDone, fault, example, words, id: given }: Props) {
  const made = useId()
  const id = given ?? made
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        className="input"
        value={value}
        placeholder={example}
        list={words === undefined ? undefined : `${id}-words`}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        maxLength={1000}
        aria-invalid={fault !== undefined}
        aria-describedby={fault === undefined ? undefined : `${id}-fault`}
        onChange={(e) => onText(e.target.value)}
        onBlur={onDone}
        onKeyDown={(e) => e.key === 'Enter' && onDone?.()}
      />
      {words !== undefined && (
        <datalist id={`${id}-words`}>
          {words.map((w) => (
            <option key={w} value={w} />
          ))}
        </datalist>
      )}
      {fault !== undefined && (
        <p className="field-fault" id={`${id}-fault`}>
          {fault}
        </p>
      )}
    </div>
  )
}
