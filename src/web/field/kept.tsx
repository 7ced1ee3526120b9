import { type FormEvent, type KeyboardEvent, type ReactNode, useEffect, useId, useRef, useState } from 'react'
import { Field } from './field.tsx'

interface Props {
  readonly label: string
  /** What the book holds. */
  readonly value: string
  /** Keeps what was typed; where it cannot be, its reason stands under the field. */
  readonly onKeep: (text: string) => Promise<void>
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

/**
 * What stands in a field; another window's change comes in while one is not in it. It is kept too where the screen goes
 * away under one's hands: by the keys of the browser, or as the page is closed or loaded anew.
 */
function useDraft(value: string, onKeep: Props['onKeep']) {
  const [text, setText] = useState(value)
  const [fault, setFault] = useState<string>()
  const isIn = useRef(false)
  useEffect(() => {
    if (!isIn.current) setText(value)
  }, [value])
  const done = (): void => {
    setFault(undefined)
    if (text.trim() !== value) onKeep(text.trim()).catch((e: unknown) => setFault(reasonOf(e)))
  }
  const goes = useRef(done)
  goes.current = done
  useEffect(() => {
    const leave = (): void => {
      if (isIn.current) goes.current()
      isIn.current = false
    }
    window.addEventListener('pagehide', leave)
    return () => {
      window.removeEventListener('pagehide', leave)
      leave()
    }
  }, [])
  return {
    text,
    fault,
    setText,
    props: {
      onFocus: () => {
        isIn.current = true
      },
      onDone: () => {
        isIn.current = false
        done()
      },
    },
    leave: () => setText(value),
  }
}

interface LineProps extends Props {
  readonly hint?: string
  readonly longest?: number
  /** `date` gives the browser's own field for one. */
  readonly type?: 'text' | 'date'
  /** Id of a list of words to choose from. */
  readonly list?: string
}

/** A line that is kept when one leaves it or presses Enter; Escape goes back. */
export function KeptLine({ value, onKeep, hint, ...field }: LineProps) {
  const draft = useDraft(value, onKeep)
  const onKey = (e: KeyboardEvent<HTMLInputElement>): void => {
    if (e.key === 'Enter') e.currentTarget.blur()
    if (e.key === 'Escape') draft.leave()
  }
  return (
    <Field
      {...field}
      {...draft.props}
      value={draft.text}
      example={hint}
      fault={draft.fault}
      onText={draft.setText}
      onKey={onKey}
    />
  )
}

interface AreaProps extends Props {
  readonly hint: string
  readonly longest?: number
  readonly className?: string
}

/** Several lines that are kept when one leaves them; Escape goes back. */
export function KeptArea({ label, value, onKeep, hint, longest = 20_000, className = '' }: AreaProps) {
  const draft = useDraft(value, onKeep)
  const id = useId()
  return (
    <div className={`field ${className}`}>
      <label className="field-label" htmlFor={id}>
        {label}
      </label>
      <textarea
        id={id}
        className="area"
        rows={Math.min(8, Math.max(2, draft.text.split('\n').length))}
        maxLength={longest}
        placeholder={hint}
        value={draft.text}
        aria-invalid={draft.fault !== undefined}
        aria-describedby={draft.fault === undefined ? undefined : `${id}-fault`}
        onChange={(e) => draft.setText(e.target.value)}
        onKeyDown={(e) => e.key === 'Escape' && draft.leave()}
        onFocus={draft.props.onFocus}
        onBlur={draft.props.onDone}
      />
      <Fault say={draft.fault} id={`${id}-fault`} />
    </div>
  )
}

interface ChoiceProps extends Props {
  /** Words to choose from; or each with what is said of it. */
  readonly words: readonly (string | readonly [word: string, say: string])[]
}

/** One of several words, kept when it is chosen. */
export function KeptChoice({ label, value, onKeep, words }: ChoiceProps) {
  const [fault, setFault] = useState<string>()
  const choose = (e: FormEvent<HTMLSelectElement>): void => {
    setFault(undefined)
    onKeep(e.currentTarget.value).catch((x: unknown) => setFault(reasonOf(x)))
  }
  return (
    <label className="field">
      <span className="field-label">{label}</span>
      <select className="select" value={value} onChange={choose}>
        {words.map((w) => {
          const [word, say] = typeof w === 'string' ? [w, w] : w
          return (
            <option key={word} value={word}>
              {say}
            </option>
          )
        })}
      </select>
      <Fault say={fault} />
    </label>
  )
}

const Fault = ({ say, id }: { readonly say: string | undefined; readonly id?: string }): ReactNode =>
  say === undefined ? null : (
    <span className="field-fault" id={id}>
      {say}
    </span>
  )
