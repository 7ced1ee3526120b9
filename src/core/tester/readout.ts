import { findRange, type RangeFound, rangeUnit } from './find-range.ts'
import type { Gain, Range, Tester } from './tester.ts'

/** What a tester shows a value on: a range, or a span of its gain dial. */
export interface Readout {
  readonly id: string
  readonly unit: 'A' | 'V' | '1'
  /** The least and the most it is printed for, in its unit. */
  readonly least: number
  readonly fullScale: number
  /** Left out for a span of the dial. */
  readonly range?: Range
}

export type DialSpan = Extract<Gain, { kind: 'dial' }>['spans'][number]

/** A range as a readout. */
export const readoutOf = (range: Range): Readout => ({
  id: range.id,
  unit: rangeUnit(range),
  least: 0,
  fullScale: range.fullScale,
  range,
})

/** A span of the gain dial as a readout. */
export const spanReadout = (span: DialSpan): Readout => ({
  id: span.id,
  unit: '1',
  least: span.from,
  fullScale: span.to,
})

/** The spans of its gain dial; none on a tester without one. */
const spansOf = ({ gain }: Tester): readonly DialSpan[] => (gain.kind === 'dial' ? gain.spans : [])

/** All a tester shows values on: its ranges, then the spans of its dial. */
export const readoutsOf = (tester: Tester): readonly Readout[] => [
  ...tester.ranges.map(readoutOf),
  ...spansOf(tester).map(spanReadout),
]

/** What a readout is called in a sentence. */
export const readoutName = ({ id, unit }: Pick<Readout, 'id' | 'unit'>): string =>
  unit === '1' ? `h_FE span ${id}` : id

const plain = (text: string): string => text.toLowerCase().replaceAll(/\s+/g, '')

/** The span of a dial that a person's words name, whatever the case and blanks. */
export const findSpan = (spans: readonly DialSpan[], text: string): DialSpan | undefined =>
  spans.find((s) => plain(s.id) === plain(text))

/**
 * Finds a readout by its name; a range by its full-scale value too. A range counts before a span of the same id, which
 * is then told by its whole name, `h_FE span low`.
 */
export function findReadout(tester: Tester, text: string): Readout | Extract<RangeFound, { ok: false }> {
  const whole = spansOf(tester).find((s) => plain(readoutName(spanReadout(s))) === plain(text))
  if (whole !== undefined) return spanReadout(whole)
  const range = findRange(tester, text)
  if (range.ok) return readoutOf(range.range)
  const span = findSpan(spansOf(tester), text)
  return span === undefined ? range : spanReadout(span)
}
