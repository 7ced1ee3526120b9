import { type FormEvent, type Ref, useState } from 'react'
import { type Meter, type ShownRead, shownText } from '#core/identify'
import { Prose } from '#web/typeset'
import { type Draft, isOnOhms, readingIn, settingTo, testIn } from './bench.ts'

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
          placeholder={placeholderOf(draft)}
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
          <span className="soft">
            <Prose text={echoOf(draft, shown)} />
          </span>
        ) : (
          <span className="field-fault">{fault}</span>
        )}
      </p>
      <div className="identify-set">
        <label className="field">
          <span className="field-label">Meter set to</span>
          <select
            className="select"
            value={draft.setTo}
            onChange={(e) => {
              setFault(undefined)
              onDraft(settingTo(draft, e.target.value))
            }}
          >
            {meter.ohmsReversed !== true && <option value="">diode check or ohms</option>}
            {meter.ohms.map((r) => (
              <option key={r.name} value={r.name}>
                ohms, {r.name}
              </option>
            ))}
            {count === 3 && <option value="gain">gain</option>}
            <option value="breakdown">12 V through 100 kΩ</option>
          </select>
        </label>
        {count === 3 && testIn(draft) !== 'breakdown' && (
          <ThirdLead draft={draft} onJoined={(joined) => change({ joined })} />
        )}
      </div>
      {isOnOhms(draft) && (
        <label className="identify-check">
          <input type="checkbox" checked={draft.isWarm} onChange={(e) => change({ isWarm: e.target.checked })} />
          held between two fingers
        </label>
      )}
      <p className="actions">
        <button type="submit" className="button first">
          Take it down <kbd>Enter</kbd>
        </button>
      </p>
    </form>
  )
}

/** Where the third lead is joined to; in a gain trial, the polarity of the socket. */
function ThirdLead({ draft, onJoined }: { readonly draft: Draft; readonly onJoined: (to: Draft['joined']) => void }) {
  const isGain = testIn(draft) === 'gain'
  return (
    <label className="field">
      <span className="field-label">{isGain ? 'Taken for' : 'The third lead'}</span>
      <select className="select" value={draft.joined} onChange={(e) => onJoined(e.target.value as Draft['joined'])}>
        {!isGain && <option value="">is open</option>}
        <option value="plus">{isGain ? 'NPN' : '10 kΩ to plus'}</option>
        <option value="minus">{isGain ? 'PNP' : '10 kΩ to minus'}</option>
      </select>
    </label>
  )
}

const placeholders = { gain: '120', breakdown: '7.2 V' } as const
function placeholderOf(draft: Draft): string {
  const test = testIn(draft)
  if (test !== undefined) return placeholders[test]
  return draft.setTo === '' ? '0.61 V, open, 4.7 kΩ' : '4.7 k, open'
}

/** Leads of a gain trial: plus is the collector of an NPN, the emitter of a PNP. */
function socketText({ leads: [plus, minus], joined }: Draft): string {
  const [first, second] = joined === 'minus' ? ['emitter', 'collector'] : ['collector', 'emitter']
  if (plus === undefined) return `Press the lead taken for the ${first}, then that for the ${second}.`
  if (minus === undefined) return `${capital(first!)} ${plus}; now the lead taken for the ${second}.`
  return `${capital(first!)} ${plus}, base ${6 - plus - minus}, ${second} ${minus}.`
}

const capital = (word: string): string => `${word.charAt(0).toUpperCase()}${word.slice(1)}`

function putText(draft: Draft): string {
  if (testIn(draft) === 'gain') return socketText(draft)
  const [plus, minus] = draft.leads
  if (plus === undefined) return 'Press red’s lead, then black’s.'
  return minus === undefined ? `Red on ${plus}; now black’s lead.` : `Red on ${plus}, black on ${minus}.`
}

function echoOf({ text }: Draft, shown: ShownRead): string {
  if (text.trim() === '') return ''
  return shown.ok ? `Understood: ${shownText(shown.shows)}.` : '…'
}

function problemOf(draft: Draft, shown: ShownRead): string | undefined {
  const text = draft.text.trim()
  if (draft.leads.length < 2) return 'The reading has no two leads yet. Press red’s lead first, then black’s.'
  if (text === '') return 'Nothing is typed yet. Write what the meter shows, such as 0.61 V, or open.'
  if (!shown.ok) return `“${text}” ${shown.problem}. ${shown.mend}`
  return readingIn(draft, shown) === undefined
    ? 'A gain is that of an NPN or of a PNP. Set the meter to gain above, and choose which.'
    : undefined
}
