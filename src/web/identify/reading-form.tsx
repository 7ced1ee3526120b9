import { type FormEvent, type Ref, useState } from 'react'
import { type Meter, type ShownRead, shownText } from '#core/identify'
import type { Draft } from './bench.ts'

interface Props {
  readonly draft: Draft
  readonly count: 2 | 3
  readonly meter: Meter
  readonly shown: ShownRead
  readonly field: Ref<HTMLInputElement>
  readonly onDraft: (draft: Draft) => void
  readonly onTake: () => void
}

/** What the meter shows on the two leads that are pressed. */
export function ReadingForm({ draft, count, meter, shown, field, onDraft, onTake }: Props) {
  const [fault, setFault] = useState<string>()
  const change = (next: Partial<Draft>): void => {
    setFault(undefined)
    onDraft({ ...draft, ...next })
  }
  const take = (e: FormEvent): void => {
    e.preventDefault()
    const problem = problemOf(draft, shown)
    setFault(problem)
    if (problem === undefined) onTake()
  }
  return (
    <form className="identify-form" onSubmit={take} noValidate>
      <p className="identify-put" role="status">
        {putText(draft)}
      </p>
      <label className="field">
        <span className="field-label">What the meter shows</span>
        <input
          ref={field}
          className="input identify-shows"
          value={draft.text}
          placeholder={draft.setTo === '' ? '0.61 V, open, 4.7 kΩ' : '4.7 k, open'}
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          maxLength={40}
          aria-invalid={fault !== undefined}
          aria-describedby="identify-echo"
          onChange={(e) => change({ text: e.target.value })}
        />
      </label>
      <p id="identify-echo" className="identify-echo small" aria-live="polite">
        {fault === undefined ? (
          <span className="soft">{echoOf(draft, shown)}</span>
        ) : (
          <span className="field-fault">{fault}</span>
        )}
      </p>
      <div className="identify-set">
        <label className="field">
          <span className="field-label">Meter set to</span>
          <select className="select" value={draft.setTo} onChange={(e) => change({ setTo: e.target.value })}>
            {meter.ohmsReversed !== true && <option value="">diode check or ohms</option>}
            {meter.ohms.map((r) => (
              <option key={r.name} value={r.name}>
                ohms, {r.name}
              </option>
            ))}
          </select>
        </label>
        {count === 3 && (
          <label className="field">
            <span className="field-label">The third lead</span>
            <select
              className="select"
              value={draft.joined}
              onChange={(e) => change({ joined: e.target.value as Draft['joined'] })}
            >
              <option value="">is open</option>
              <option value="plus">10 kΩ to plus</option>
              <option value="minus">10 kΩ to minus</option>
            </select>
          </label>
        )}
      </div>
      <p className="actions">
        <button type="submit" className="button first">
          Take it down <kbd>Enter</kbd>
        </button>
      </p>
    </form>
  )
}

function putText({ leads: [plus, minus] }: Draft): string {
  if (plus === undefined) return 'Press red’s lead, then black’s.'
  return minus === undefined ? `Red on ${plus}; now black’s lead.` : `Red on ${plus}, black on ${minus}.`
}

function echoOf({ text }: Draft, shown: ShownRead): string {
  if (text.trim() === '') return ''
  return shown.ok ? `Understood: ${shownText(shown.shows)}.` : '…'
}

function problemOf({ leads, text }: Draft, shown: ShownRead): string | undefined {
  if (leads.length < 2) return 'The reading has no two leads yet. Press red’s lead first, then black’s.'
  if (text.trim() === '') return 'Nothing is typed yet. Write what the meter shows, such as 0.61 V, or open.'
  return shown.ok ? undefined : `“${text.trim()}” ${shown.problem}. ${shown.mend}`
}
