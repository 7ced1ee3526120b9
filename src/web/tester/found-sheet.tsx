import { type KeyboardEvent, useState } from 'react'
import { type FoundPart, shouldBe, type TesterPart } from '#core/upkeep'
import { bookText, OutcomeWord, Prose } from '#web/typeset'
import { nothingTyped, type RowRead, type Sheet, signedPercent, type Typed } from './found-typed.ts'

interface Props {
  readonly rows: readonly RowRead[]
  readonly sheet: Sheet
  /** The parts judged, by their name. */
  readonly judged: ReadonlyMap<string, FoundPart>
  readonly onTyped: (part: string, typed: Typed) => void
  /** After the last field. */
  readonly onEnd: () => void
}

/** The checklist: a line for each part, and above them how the one in hand is measured. */
export function FoundSheet({ rows, sheet, judged, onTyped, onEnd }: Props) {
  const [inHand, setInHand] = useState(rows[0]?.part)
  const onKey = (e: KeyboardEvent<HTMLFormElement>): void => {
    const by = stepOf(e)
    if (by === 0) return
    e.preventDefault()
    const fields = [...e.currentTarget.querySelectorAll('input')]
    const next = fields[fields.indexOf(e.target as HTMLInputElement) + by]
    if (next !== undefined) next.select()
    else if (by > 0) onEnd()
  }
  return (
    <form aria-label="The parts" onSubmit={(e) => e.preventDefault()} onKeyDown={onKey}>
      <p className="found-how" id="found-how">
        {inHand !== undefined && (
          <>
            <b>{bookText(inHand.id)}</b> <Prose text={inHand.how} />
          </>
        )}
      </p>
      <p className="found-line found-heads soft small" aria-hidden="true">
        <span>Part</span>
        <span>Should be</span>
        <span>Measured</span>
        <span>Accuracy</span>
        <span>Verdict</span>
      </p>
      <ol>
        {rows.map((row) => (
          <FoundLine
            key={row.part.id}
            row={row}
            typed={sheet[row.part.id] ?? nothingTyped}
            judged={judged.get(row.part.id)}
            isInHand={row.part.id === inHand?.id}
            onTyped={(typed) => onTyped(row.part.id, typed)}
            onInHand={() => setInHand(row.part)}
          />
        ))}
      </ol>
    </form>
  )
}

/** How many fields a key goes on: Enter one, with Shift one back. */
const stepOf = (e: KeyboardEvent): -1 | 0 | 1 =>
  e.key !== 'Enter' || !(e.target instanceof HTMLInputElement) ? 0 : e.shiftKey ? -1 : 1

interface LineProps {
  readonly row: RowRead
  readonly typed: Typed
  readonly judged: FoundPart | undefined
  readonly isInHand: boolean
  readonly onTyped: (typed: Typed) => void
  readonly onInHand: () => void
}

function FoundLine({ row: { part, fault, faultIn }, typed, judged, isInHand, onTyped, onInHand }: LineProps) {
  const faultId = `fault ${part.id}`.replaceAll(/\W+/g, '-')
  const field = (of: keyof Typed, label: string, hint: string) => (
    <label className="field">
      <span className="field-label">{label}</span>
      <input
        className="input"
        aria-label={`${label} of ${part.id}`}
        aria-describedby={faultIn === of ? faultId : 'found-how'}
        aria-invalid={faultIn === of}
        placeholder={isInHand ? hint : ''}
        value={typed[of]}
        maxLength={60}
        spellCheck={false}
        autoComplete="off"
        autoCapitalize="off"
        enterKeyHint="next"
        onFocus={onInHand}
        onChange={(e) => onTyped({ ...typed, [of]: e.target.value })}
      />
    </label>
  )
  return (
    <li className={isInHand ? 'found-line in-hand' : 'found-line'}>
      <span className="found-part">{bookText(part.id)}</span>
      <span className="found-should soft">{bookText(shouldBe(part))}</span>
      {field('measured', 'Measured', hints[part.unit])}
      {field('accuracy', 'Accuracy', '0.5 %')}
      <span className="found-verdict">{judged !== undefined && <Judged of={judged} />}</span>
      {fault !== undefined && (
        <span className="field-fault" id={faultId}>
          {fault}
        </span>
      )}
    </li>
  )
}

const hints = { ohm: '12.1 ohm', A: '99.4 uA', V: '1.48 V' } as const satisfies Record<TesterPart['unit'], string>

/** An effect below this part of full scale is not worth a word. */
const worthSaying = 5e-5

/** The verdict of a part, and the range it moves most. */
function Judged({ of: { word, effects } }: { readonly of: FoundPart }) {
  const [most] = effects
  return (
    <>
      <OutcomeWord of={word} />{' '}
      {most !== undefined && Math.abs(most.error) >= worthSaying && (
        <span className="soft found-most">
          {signedPercent(most.error)} on {bookText(most.range)}
        </span>
      )}
    </>
  )
}
