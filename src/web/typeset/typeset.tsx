import type { Conditions } from '#core/device'
import type { Unit } from '#core/quantity'
import {
  type Figure,
  figureText,
  formulaHtml,
  type Markup,
  marks,
  measuredFigure,
  type Outcome,
  outcomeClass,
  plainFigure,
  proseHtml,
  putInHtml,
  symbolParts,
} from '#report/typeset'
import { bookText } from './signs.ts'

/** A letter symbol with a real subscript, its letter in italics. */
export function LetterSymbol({ of }: { readonly of: string }) {
  const { base, sub } = symbolParts(of)
  return (
    <span className="symbol">
      <i>{base}</i>
      {sub !== undefined && <sub>{sub}</sub>}
    </span>
  )
}

interface SetProps {
  readonly set: Markup
  readonly className?: string
}

/** Markup that the report's typesetter made: it has escaped whatever a person wrote. */
function SetMarkup({ set, className }: SetProps) {
  // biome-ignore lint/security/noDangerouslySetInnerHtml: only `Markup` gets here, and only the typesetter makes it
  return <span className={className} dangerouslySetInnerHTML={{ __html: set.markup }} />
}

/** A sentence in which every letter symbol is set as one, every value with its unit on one line. */
export const Prose = ({ text }: { readonly text: string }) => <SetMarkup set={proseHtml(bookText(text))} />

/** A formula with stacked fractions and real subscripts. */
export const Formula = ({ text }: { readonly text: string }) => <SetMarkup set={formulaHtml(text)} />

/** A formula with its numbers put in. */
export const PutIn = ({ text }: { readonly text: string }) => <SetMarkup set={putInHtml(text)} />

const signed = (number: string): string => number.replace('-', '\u2212')

interface FigureProps {
  readonly figure: Figure
}

/** A number as the hero of its line: number strong, uncertainty beside it, unit lighter. */
export function FigureOf({ figure: f }: FigureProps) {
  return (
    <span className="fig">
      <span className="num">{signed(f.number)}</span>
      {f.plusMinus !== undefined && <span className="pm"> ± {f.plusMinus}</span>}
      {f.power !== undefined && (
        <>
          {' × 10'}
          <sup>{signed(String(f.power))}</sup>
        </>
      )}
      {f.unit !== '' && <span className="unit">{`\u2009${f.unit}`}</span>}
    </span>
  )
}

interface MeasuredProps {
  readonly value: number
  /** Half-width of the 95 % interval, in the unit of the value. */
  readonly half: number
  readonly unit: Unit
}

/** A value with its uncertainty, in one glance: `118 ± 6`. */
export const Measured = ({ value, half, unit }: MeasuredProps) => (
  <FigureOf figure={measuredFigure(value, half, unit)} />
)

interface PlainProps {
  readonly value: number
  readonly unit: Unit | string
  readonly digits?: number
}

const figureFor = ({ value, unit, digits }: PlainProps): Figure => plainFigure(value, unit as Unit, digits ?? 6)

/** A value that stands without doubt: a limit, a rating, a setting. */
export const Plain = (props: PlainProps) => <FigureOf figure={figureFor(props)} />

interface SpanProps {
  readonly from: number
  readonly to: number
  readonly unit: Unit | string
  readonly digits?: number
}

/** Two values with the unit once where both take the same: `40 to 130`, `1.5 to 9 V`. */
export function SpanOf({ from, to, unit, digits }: SpanProps) {
  const rest = { unit, ...(digits === undefined ? {} : { digits }) }
  const low = figureFor({ value: from, ...rest })
  const high = figureFor({ value: to, ...rest })
  const isAlike = low.unit === high.unit && low.power === undefined
  return (
    <span className="fig">
      <FigureOf figure={isAlike ? { ...low, unit: '' } : low} /> to <FigureOf figure={high} />
    </span>
  )
}

/** The same as text, for labels and titles. */
export const plainText = (value: number, unit: Unit | string, digits?: number): string =>
  figureText(figureFor({ value, unit, ...(digits === undefined ? {} : { digits }) }))

const when = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeStyle: 'short' })
const day = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long' })

/** Date and time in this place, as one says them: `15 March 2026 at 09:12`. */
export const whenText = (iso: string): string => when.format(new Date(iso))

/** The day alone. */
export const dayText = (iso: string): string => day.format(new Date(iso))

/** Shape of an outcome alone, beside a word that says the same. */
export const OutcomeShape = ({ of }: { readonly of: Outcome }) => (
  <svg className="mark" viewBox="-6 -6 12 12" aria-hidden="true">
    <path className={outcomeClass(of)} d={marks[of].path} />
  </svg>
)

/** Shape and word, then colour. */
export const OutcomeWord = ({ of }: { readonly of: Outcome }) => (
  <span className="outcome">
    <OutcomeShape of={of} /> {of}
  </span>
)

const conditionUnit = (symbol: string): Unit => {
  const units: Readonly<Record<string, Unit>> = { V: 'V', I: 'A', T: 'degC', R: 'ohm', f: 'Hz' }
  return units[symbol.charAt(0)] ?? '1'
}

/** Conditions of a limit or a measurement, set as one reads them: I_C 2 mA, V_CE 6 V. */
export function ConditionList({ at }: { readonly at: Conditions }) {
  const list = Object.entries(at).filter(([, value]) => value !== undefined)
  return list.map(([symbol, value], i) => (
    <span key={symbol} className="condition">
      <LetterSymbol of={symbol} /> <Plain value={value} unit={conditionUnit(symbol)} />
      {i < list.length - 1 && ', '}
    </span>
  ))
}

/** A probability, never said to be nothing or all: `0.4 %`, `73 %`, `99.4 %`, `> 99.9 %`. */
export const sureText = (p: number): string =>
  p > 0.999 ? '> 99.9 %' : p < 0.001 ? '< 0.1 %' : `${(100 * p).toFixed(p > 0.99 || p < 0.01 ? 1 : 0)} %`

/** Whether values stand at the temperature they were read at or at 25 degC. */
export function TemperatureChoice(p: { readonly at25: boolean; readonly onAt25: (at25: boolean) => void }) {
  return (
    <fieldset className="choice">
      <legend className="vh">Temperature of the values</legend>
      <label>
        <input type="radio" name="at25" checked={!p.at25} onChange={() => p.onAt25(false)} />
        as read
      </label>
      <label>
        <input type="radio" name="at25" checked={p.at25} onChange={() => p.onAt25(true)} />
        at 25 °C
      </label>
    </fieldset>
  )
}
