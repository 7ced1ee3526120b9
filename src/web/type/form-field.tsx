import { type ReactNode, useId } from 'react'
import type { Path } from '#core/text'
import { pathText } from '#core/text'
import type { LineNote } from '#web/editor'
import { Field } from '#web/field'
import { type Kind, withText } from './form-change.ts'
import { type OpenText, textAt } from './form-open.ts'

/** What every field of the form needs: the text, what is wrong with it, and where a new text goes. */
export interface FormText {
  readonly open: OpenText
  readonly notes: readonly LineNote[]
  readonly onText: (text: string) => void
}

/** What is wrong with what is written at a place. */
export function faultAt({ open, notes }: FormText, path: Path): string | undefined {
  const field = pathText([...open.base, ...path])
  return notes.find((n) => n.field === field)?.say
}

interface FieldProps {
  readonly form: FormText
  readonly path: Path
  readonly label: ReactNode
  readonly kind?: Kind
  /** An example of what may be written. */
  readonly example?: string
  /** Words to choose from, or to write other ones. */
  readonly words?: readonly string[]
  /** What stands there, where it is not simply the word or value of the place. */
  readonly value?: string
  readonly id?: string
}

/** A word or value of the record; what is typed goes into the text at once. */
export function FormField({ form, path, label, kind = 'words', example, words, value, id }: FieldProps) {
  return (
    <Field
      {...{ label, example, words, id }}
      value={value ?? textAt(form.open, path)}
      fault={faultAt(form, path)}
      longest={1000}
      onText={(written) => form.onText(withText(form.open, path, written, kind))}
    />
  )
}

interface SelectProps {
  readonly form: FormText
  readonly path: Path
  readonly label: string
  readonly choices: readonly (readonly [value: string, label: string])[]
  /** What it says where nothing is chosen; left out, something must be. */
  readonly none?: string
}

/** One of a few words. What is written but not among them stays, so that it can be mended. */
export function FormSelect({ form, path, label, choices, none }: SelectProps) {
  const id = useId()
  const value = textAt(form.open, path)
  const fault = faultAt(form, path)
  const isKnown = value === '' ? none !== undefined : choices.some(([v]) => v === value)
  return (
    <div className="field">
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <select
        id={id}
        className="select"
        value={value}
        aria-invalid={fault !== undefined}
        aria-describedby={fault === undefined ? undefined : `${id}-fault`}
        onChange={(e) => form.onText(withText(form.open, path, e.currentTarget.value, 'words'))}
      >
        {none !== undefined && <option value="">{none}</option>}
        {!isKnown && <option value={value}>{value === '' ? 'choose' : value}</option>}
        {choices.map(([v, words]) => (
          <option key={v} value={v}>
            {words}
          </option>
        ))}
      </select>
      {fault !== undefined && (
        <p id={`${id}-fault`} className="field-fault">
          {fault}
        </p>
      )}
    </div>
  )
}
