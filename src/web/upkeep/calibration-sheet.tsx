import type { KeyboardEvent } from 'react'
import { type Readout, readoutName, type Tester } from '#core/tester'
import { Plain } from '#web/typeset'
import { bareUnits, isBlank, type Line, type LineRead } from './calibration-lines.ts'

interface Props {
  readonly tester: Tester
  readonly readout: Readout
  readonly lines: readonly Line[]
  readonly read: readonly LineRead[]
  readonly onLines: (lines: readonly Line[]) => void
}

/** Readings of a range against the reference, a line each; there is always room for one more. */
export function CalibrationSheet({ tester, readout, lines, read, onLines }: Props) {
  const units = bareUnits(tester, readout)
  const last = lines.at(-1)
  const shown = last === undefined || !isBlank(last) ? [...lines, blankAfter(last)] : lines
  const change = (i: number, line: Line): void => onLines([...lines.slice(0, i), line, ...lines.slice(i + 1)])
  return (
    <form aria-label={`Readings of ${readoutName(readout)}`} onSubmit={(e) => e.preventDefault()} onKeyDown={goOn}>
      <p className="upkeep-line upkeep-heads soft small" aria-hidden="true">
        <span>{headOf('Reference', units.reference)}</span>
        <span>{headOf('Shown', units.shown)}</span>
        <span>{readout.unit === '1' ? 'Turned from' : 'Needle came from'}</span>
        <span className="n">Error</span>
      </p>
      <ol>
        {shown.map((line, i) => (
          <CalibrationLine
            // biome-ignore lint/suspicious/noArrayIndexKey: a line is where it stands
            key={i}
            at={i + 1}
            line={line}
            read={read[i] ?? {}}
            readout={readout}
            onLine={(l) => change(i, l)}
          />
        ))}
      </ol>
    </form>
  )
}

const headOf = (what: string, unit: string): string => (unit === '' ? what : `${what}, ${unit.replace('u', 'µ')}`)

const blankAfter = (last: Line | undefined): Line => ({ reference: '', shown: '', way: last?.way ?? 'up' })

/** Enter goes on to the next field, with Shift back; choices are passed over. */
function goOn(e: KeyboardEvent<HTMLFormElement>): void {
  if (e.key !== 'Enter' || !(e.target instanceof HTMLInputElement)) return
  e.preventDefault()
  const fields = [...e.currentTarget.querySelectorAll('input')]
  fields[fields.indexOf(e.target) + (e.shiftKey ? -1 : 1)]?.select()
}

interface LineProps {
  readonly at: number
  readonly line: Line
  readonly read: LineRead
  readonly readout: Readout
  readonly onLine: (line: Line) => void
}

function CalibrationLine({ at, line, read: { point, fault, faultIn }, readout, onLine }: LineProps) {
  const faultId = `calibration-fault-${at}`
  const field = (of: 'reference' | 'shown', label: string) => (
    <input
      className="input"
      aria-label={`${label} ${at}`}
      aria-invalid={faultIn === of}
      aria-describedby={faultIn === of ? faultId : undefined}
      value={line[of]}
      placeholder=" "
      maxLength={60}
      spellCheck={false}
      autoComplete="off"
      autoCapitalize="off"
      enterKeyHint="next"
      onChange={(e) => onLine({ ...line, [of]: e.target.value })}
    />
  )
  return (
    <li className="upkeep-line">
      {field('reference', 'Reference')}
      {field('shown', 'Shown')}
      <select
        className="select"
        aria-label={`Way ${at}`}
        value={line.way}
        onChange={(e) => onLine({ ...line, way: e.target.value as Line['way'] })}
      >
        <option value="up">below</option>
        <option value="down">above</option>
        <option value="">not noted</option>
      </select>
      <span className="n">
        {point !== undefined && <Plain value={point.shown - point.reference} unit={readout.unit} digits={3} />}
      </span>
      {fault !== undefined && (
        <span className="field-fault" id={faultId}>
          {fault}
        </span>
      )}
    </li>
  )
}
