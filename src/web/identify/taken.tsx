import { type LeadReading, pairText, shownText } from '#core/identify'
import { Prose } from '#web/typeset'
import { withSigns } from './bench.ts'

interface Props {
  readonly readings: readonly LeadReading[]
  readonly onReadings: (readings: readonly LeadReading[]) => void
}

/** What was read, each with a way to strike it out. */
export function Taken({ readings, onReadings }: Props) {
  if (readings.length === 0) return null
  return (
    <section className="identify-taken" aria-label="Readings">
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
      <button type="button" className="word" onClick={() => onReadings([])}>
        Another part: strike all out
      </button>
    </section>
  )
}

const marked = (r: LeadReading): string => withSigns(pairText(r))
