import { printPlain } from '#core/quantity'
import type { Gain, Range, Tester } from '#core/tester'
import { bookText } from '#web/typeset'

export const kindWords = {
  needle: 'Needle tester',
  digital: 'Digital meter',
  display: 'Tester with a display',
} as const satisfies Record<Tester['kind'], string>

const span = (ranges: readonly Range[], unit: 'A' | 'V'): string => {
  const values = ranges.map((r) => r.fullScale)
  const [low, high] = [Math.min(...values), Math.max(...values)]
  return low === high ? printPlain(low, unit) : `${printPlain(low, unit)} to ${printPlain(high, unit)}`
}

/** Ranges in a few words: `10 of current, 100 µA to 3 A`. */
export function rangesText(t: Tester): string {
  const of = (measures: Range['measures'], unit: 'A' | 'V', word: string): string => {
    const ranges = t.ranges.filter((r) => r.measures === measures)
    if (ranges.length === 0) return ''
    return `${ranges.length} ${ranges.length === 1 ? 'range' : 'ranges'} of ${word}, ${span(ranges, unit)}`
  }
  return [of('current', 'A', 'current'), of('voltage', 'V', 'voltage')].filter((s) => s !== '').join('; ')
}

const amp = ([from, to]: readonly [number, number]): string => `${printPlain(from, 'A')} to ${printPlain(to, 'A')}`
const percent = (fraction: number): string => `${Number((fraction * 100).toPrecision(3))} %`

/** How gain is read, in a sentence. */
export function gainText(g: Gain): string {
  switch (g.kind) {
    case 'dial': {
      const low = Math.min(...g.spans.map((s) => s.from))
      const high = Math.max(...g.spans.map((s) => s.to))
      return `By a dial from ${low} to ${high}, turned until the needle nulls, at collector currents from ${amp(g.collectorA)}.`
    }
    case 'ratio':
      return `As collector current over base current, with up to ${printPlain(g.maxBaseA, 'A')} of base current and collector currents from ${amp(g.collectorA)}.`
    case 'digital':
      return `As a number on the display, in steps of ${g.step}${digitalAt(g)}.`
    case 'none':
      return 'Not at all.'
  }
}

function digitalAt(g: Extract<Gain, { kind: 'digital' }>): string {
  const at = [
    g.collectorA === undefined ? '' : `${printPlain(g.collectorA, 'A')} of collector current`,
    g.baseA === undefined ? '' : `${printPlain(g.baseA, 'A')} of base current`,
    g.collectorV === undefined ? '' : printPlain(g.collectorV, 'V'),
  ].filter((s) => s !== '')
  const how =
    g.ofReading === undefined
      ? '; nothing is said of its accuracy'
      : `, ± ${percent(g.ofReading)}${g.counts === undefined ? '' : ` + ${g.counts} counts`}`
  return `${at.length === 0 ? '' : ` at ${at.join(' and ')}`}${how}`
}

/** One line on how well a dial is read. */
export const gainDoubtText = (g: Gain): string | undefined =>
  g.kind === 'dial'
    ? `The dial is right to ${percent(g.tolerance)}, is read to ${percent(g.readable)} of the top of its span and nulls within ${percent(g.nullWithin)}.`
    : undefined

/** The movement in a sentence. */
export function movementText(t: Tester): string | undefined {
  const m = t.movement
  if (m === undefined) return undefined
  return bookText(
    `Movement of ${printPlain(m.fullScaleA, 'A')}, coil ${printPlain(m.coilOhm, 'ohm')} at ${m.atC} °C, class ${m.classPercent}; zero at the ${m.zero === 'left' ? 'left' : 'centre'}; read to ${readText(m.readable)}.`,
  )
}

const readText = (readable: number): string => {
  const parts = Math.round(1 / readable)
  return parts === 1
    ? 'a division'
    : `a ${parts === 2 ? 'half' : parts === 4 ? 'quarter' : parts === 5 ? 'fifth' : parts === 10 ? 'tenth' : `${Number(readable.toPrecision(2))}`} of a division`
}
