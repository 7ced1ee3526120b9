import { type LeadReading, pairText, shownText } from '#core/identify'
import { Prose } from '#web/typeset'
import { withSigns } from './bench.ts'

interface Props {
  readonly readings: readonly LeadReading[]
  readonly onReadings: (readings: readonly LeadReading[]) => void
  /** Puts back what was struck out last; left out, nothing was. */
  readonly onBack: (() => void) | undefined
}

/** What was read, each with a way to strike it out. */
export function Taken({ readings, onReadings, onBack }: Props) {
  if (readings.length === 0 && onBack === undefined) return null
  return (
    <section className="identify-taken" aria-label="Readings">
      {readings.length > 0 && (
        <ul>
          {readings.map((r, k) => (
            <li key={`${pairText(r)} ${shownText(r.shows)}`}>
              <span>{marked(r)}</span>
              <b>
                <Prose text={shownText(r.shows)} />
              </b>
              <button type="button" className="word" onClick={() => onReadings(readings.filter((_, i) => i !== k))}>
                Strike out
                <span className="vh">
                  {' '}
                  {marked(r)} {shownText(r.shows)}
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
      <p className="actions">
        {readings.length > 0 && (
          <button type="button" className="word" onClick={() => onReadings([])}>
            Another part: strike all out
          </button>
        )}
        {onBack !== undefined && (
          <button type="button" className="word" onClick={onBack}>
            Put back what was struck out
          </button>
        )}
      </p>
    </section>
  )
}

const marked = (r: LeadReading): string => withSigns(pairText(r))
