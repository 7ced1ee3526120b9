import { type ReactNode, useId } from 'react'
import type { Fault } from '#core/fault'
import { type Draft, faultAt, type Path, textAt, withText } from './draft.ts'

interface OwnProps {
  readonly label: ReactNode
  readonly value: string
  readonly onText: (text: string) => void
  readonly fault?: string | undefined
  /** Shown while nothing stands there. */
  readonly example?: string | undefined
  /** Words to choose from, or to write other ones. */
  readonly words?: readonly string[] | undefined
}

/** A labelled field with what is wrong below it. */
export function Field({ label, value, onText, fault, example, words }: OwnProps) {
  const id = useId()
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
        maxLength={200}
        aria-invalid={fault !== undefined}
        aria-describedby={fault === undefined ? undefined : `${id}-fault`}
        onChange={(e) => onText(e.target.value)}
      />
      {words !== undefined && (
        <datalist id={`${id}-words`}>
          {words.map((w) => (
            <option key={w} value={w} />
          ))}
        </datalist>
      )}
      {fault !== undefined && (
        <span className="field-fault" id={`${id}-fault`}>
          {fault}
        </span>
      )}
    </div>
  )
}

/** What every field of the form needs. */
export interface Form {
  readonly draft: Draft
  readonly faults: readonly Fault[]
  readonly onDraft: (draft: Draft) => void
}

interface DraftProps {
  readonly form: Form
  readonly path: Path
  readonly label: ReactNode
  readonly example?: string
  readonly words?: readonly string[]
}

/** A value of the position. */
export const DraftField = ({ form: { draft, faults, onDraft }, path, label, example, words }: DraftProps) => (
  <Field
    label={label}
    value={textAt(draft, path)}
    fault={faultAt(faults, path)}
    example={example}
    words={words}
    onText={(text) => onDraft(withText(draft, path, text))}
  />
)
