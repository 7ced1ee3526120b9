import type { ReactNode } from 'react'
import type { Fault } from '#core/fault'
import { Field } from '#web/field'
import { type Draft, faultAt, type Path, textAt, withText } from './draft.ts'

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
    longest={1000}
    onText={(text) => onDraft(withText(draft, path, text))}
  />
)
