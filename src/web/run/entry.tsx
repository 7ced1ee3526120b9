import { type KeyboardEvent, type RefObject, useId } from 'react'
import type { ReadStep, RunSheet } from '#core/sheet'
import { bookText, LetterSymbol } from '#web/typeset'
import { rangeChoices } from './face.ts'
import type { Draft } from './kept.ts'
import { statesFor, unitsFor } from './typed.ts'
import './entry.css'

export interface EntryProps {
  readonly sheet: RunSheet
  readonly step: ReadStep
  readonly draft: Draft
  readonly onDraft: (draft: Draft) => void
  readonly onEnter: (text?: string) => void
  readonly onBack: () => void
  readonly onAdvice: () => void
  readonly field: RefObject<HTMLInputElement | null>
  /** Id of the sentence, and of what was understood. */
  readonly sayId: string
  readonly echoId: string
  readonly isWrong: boolean
}

/** The one field of a step, its unit beside it, and what can be pressed in place of typing. */
export function Entry(p: EntryProps) {
  const { step, draft, onDraft } = p
  const range = draft.range ?? step.range
  const units = unitsFor(p.sheet, step, range)
  const unit = draft.unit ?? units[0]
  const onKey = (e: KeyboardEvent<HTMLInputElement>): void => {
    if (e.key === 'ArrowUp') {
      e.preventDefault()
      p.onBack()
    } else if (e.key === '?') {
      e.preventDefault()
      p.onAdvice()
    }
  }
  return (
    <div className="entry">
      <div className="entry-line">
        <label className="entry-label" htmlFor="reading">
          {step.reads === 'short' ? 'It shows' : <LetterSymbol of={step.reads} />}
        </label>
        <input
          id="reading"
          ref={p.field}
          className="entry-field"
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          inputMode={units.length > 0 || step.reads === 'h_FE' ? 'decimal' : 'text'}
          enterKeyHint="next"
          value={draft.text}
          maxLength={60}
          aria-describedby={`${p.sayId} ${p.echoId}`}
          aria-invalid={p.isWrong}
          onChange={(e) => onDraft({ ...draft, text: e.target.value })}
          onKeyDown={onKey}
        />
        {units.length > 0 && <Units units={units} unit={unit} onUnit={(u) => onDraft({ ...draft, unit: u })} />}
      </div>
    </div>
  )
}

/** What can be pressed in place of typing. */
export function States({ sheet, step, onEnter, className }: EntryProps & { readonly className: string }) {
  const states = statesFor(sheet, step)
  if (states.length === 0) return null
  return (
    <span className="entry-states">
      {states.map((s) => (
        <button key={s} type="button" className={className} onClick={() => onEnter(s)}>
          {stateWords[s]}
        </button>
      ))}
    </span>
  )
}

const stateWords = {
  clear: 'clear',
  short: 'short',
  open: 'open',
  over: 'Over the end',
  'no null': 'No null',
} as const

interface UnitsProps {
  readonly units: readonly string[]
  readonly unit: string | undefined
  readonly onUnit: (unit: string) => void
}

/** Unit of a bare number: one of a few. */
function Units({ units, unit, onUnit }: UnitsProps) {
  return (
    <fieldset className="choice entry-units">
      <legend className="vh">Unit of a bare number</legend>
      {units.map((u) => (
        <label key={u}>
          <input type="radio" name="unit" value={u} checked={u === unit} onChange={() => onUnit(u)} />
          {u === 'uA' ? 'µA' : u}
        </label>
      ))}
    </fieldset>
  )
}

/** The range it is read on, where the sheet's does not do. */
export function RangeSelect({ sheet, step, draft, onDraft }: EntryProps) {
  const id = useId()
  const choices = rangeChoices(sheet.tester, step)
  if (choices.length < 2) return null
  return (
    <span className="entry-range">
      <label htmlFor={id}>{step.reads === 'h_FE' ? 'Span' : 'Range'}</label>{' '}
      <select
        id={id}
        className="select"
        value={draft.range ?? step.range ?? ''}
        onChange={(e) => onDraft({ ...draft, range: e.target.value })}
      >
        {choices.map((c) => (
          <option key={c.id} value={c.id}>
            {bookText(c.says)}
          </option>
        ))}
      </select>
    </span>
  )
}
