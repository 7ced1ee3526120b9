import { printMeasured, printPlain, type Unit } from '#core/quantity'
import { html, type Markup } from './markup.ts'

/** A printed number in its parts, so that the unit can be set lighter than the number. */
export interface Figure {
  readonly number: string
  /** Half-width after the plus-minus sign. */
  readonly plusMinus?: string
  /** Power of ten where no prefix fits. */
  readonly power?: number
  /** With its prefix; empty for a plain number. */
  readonly unit: string
}

const printed = /^\(?(-?[\d.]+)(?: ± ([\d.]+))?\)?(?:e(-?\d+))?(?: (.*))?$/

/** Takes a printed value apart; what is not a number stays whole. */
function parts(text: string): Figure {
  const m = printed.exec(text)
  if (m === null) return { number: text, unit: '' }
  return {
    number: m[1]!,
    ...(m[2] === undefined ? {} : { plusMinus: m[2] }),
    ...(m[3] === undefined ? {} : { power: Number(m[3]) }),
    unit: m[4] ?? '',
  }
}

/**
 * A value with the half-width of its interval, cut where the half-width ends.
 *
 * @param half half-width in the unit of the value; 0 for a value without doubt
 * @example measuredFigure(118.2, 6.1, '1') // { number: '118', plusMinus: '6', unit: '' }
 */
export const measuredFigure = (value: number, half: number, unit: Unit): Figure =>
  parts(printMeasured(value, half, unit, { style: 'plus-minus' }))

/** A value that stands without doubt: a limit, a condition. */
export const plainFigure = (value: number, unit: Unit, digits = 6): Figure => parts(printPlain(value, unit, { digits }))

const signed = (number: string): string => number.replace('-', '\u2212')

/** A figure for reading aloud, for titles and for narrow places: `86 ± 5 µA`. */
export function figureText(f: Figure): string {
  const number = f.plusMinus === undefined ? signed(f.number) : `${signed(f.number)} ± ${f.plusMinus}`
  const scaled = f.power === undefined ? number : `${wrapped(number, f)} × 10^${signed(String(f.power))}`
  return f.unit === '' ? scaled : `${scaled} ${f.unit}`
}

const wrapped = (number: string, f: Figure): string => (f.plusMinus === undefined ? number : `(${number})`)

/** A figure for the page: number strong, uncertainty beside it, unit lighter. */
export function figureHtml(f: Figure): Markup {
  const half = f.plusMinus !== undefined && html`<span class="pm"> ± ${f.plusMinus}</span>`
  const power = f.power !== undefined && html` × 10<sup>${signed(String(f.power))}</sup>`
  const unit = f.unit !== '' && html`<span class="unit">\u2009${f.unit}</span>`
  return html`<span class="fig"><span class="num">${signed(f.number)}</span>${half}${power}${unit}</span>`
}
