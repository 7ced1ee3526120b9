import type { Command } from 'commander'
import { parseValue, printPlain, type Unit } from '#core/quantity'
import {
  type BandedResistor,
  bandColours,
  eSeriesNames,
  isLetterCode,
  nearestPreferred,
  readBands,
  readLetterCode,
  seriesOf,
  writeBands,
  writeLetterCode,
} from '#core/resistor'
import { badOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { tableLines } from './table.ts'

/** A resistor as its marking or its maker says it. */
type Said = Partial<BandedResistor> & { readonly ohm: number }

export function defineCode(group: Command): void {
  withJson(group.command('code').description('Read or write the colour bands and letters of a resistor.'))
    .argument(
      '<marking...>',
      'colours ("yellow violet red gold"), a letter code (4K7J), or a value ("4.7 kohm +- 5 %")',
    )
    .action((words: readonly string[], o: { readonly json?: boolean }) => {
      const marking = words.flatMap((w) => w.trim().split(/\s+/))
      const said = resistorSaid(marking)
      if (o.json === true) printJson({ format: 'germane/resistor-code/1', ...codesOf(said) })
      else printLines(codeLines(said))
    })
}

function resistorSaid(marking: readonly string[]): Said {
  const isColour = (word: string): boolean => word.toLowerCase() in bandColours
  if (marking.some(isColour)) return readBands(marking)
  const text = marking.join(' ')
  if (isLetterCode(text)) return readLetterCode(text)
  const parsed = parseValue(text, { unit: 'ohm' })
  if (!parsed.ok) throw badOption('marking', text, parsed.problem, parsed.mend)
  const { value: ohm, u } = parsed
  if (!(ohm > 0)) throw badOption('marking', text, 'is not above 0', 'Give a resistance above 0.')
  return u === undefined ? { ohm } : { ohm, tolerance: Number((u / ohm).toPrecision(9)) }
}

/** What grey says of the tolerance since IEC 60062:2016. */
const greyNow = 0.0001
const greyNote = 'Before 2016 grey stood for 0.05 %: on an older resistor take that.'

/** Everything that says the same resistor. */
function codesOf(said: Said) {
  const { ohm, tolerance, perK } = said
  const letters = writeLetterCode(tolerance === undefined ? { ohm } : { ohm, tolerance })
  const bands = ([3, 4, 5, 6] as const).flatMap((count) => {
    const colours = tolerance === undefined ? undefined : writeBands({ ...said, tolerance }, count)
    return colours === undefined ? [] : [colours]
  })
  const member = seriesOf(ohm)
  const nearest = eSeriesNames.map((series) => {
    const near = nearestPreferred(ohm, series)
    return { series, ohm: near, error: near / ohm - 1 }
  })
  return {
    ohm,
    ...(tolerance === undefined ? {} : { tolerance }),
    ...(perK === undefined ? {} : { perK }),
    ...(letters === undefined ? {} : { letters }),
    bands,
    series: member,
    nearest,
    notes: tolerance === greyNow ? [greyNote] : [],
  }
}

const value = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 6 })

function codeLines(said: Said): readonly string[] {
  const { ohm, tolerance, perK, letters, bands, series, nearest, notes } = codesOf(said)
  const limit = tolerance === undefined ? '' : `, within ${value(tolerance * 100, '1')} %`
  const drift = perK === undefined ? '' : `, drift ${value(perK * 1e6, '1')} ppm/K`
  return [
    `${value(ohm, 'ohm')}${limit}${drift}`,
    ...(letters === undefined ? [] : [`  letters  ${letters}`]),
    ...bands.map((b) => `  ${b.length} bands  ${b.join(' ')}`),
    ...(tolerance === undefined ? ['  For bands, give the tolerance with the value: "4.7 kohm +- 5 %".'] : []),
    ...notes.map((n) => `  ${n}`),
    series.length > 0 ? `  a value of ${series.join(', ')}` : '  a value of no E series',
    '',
    ...tableLines(
      ['series', '>nearest', '>off by'],
      nearest.map((n) => [n.series, value(n.ohm, 'ohm'), n.error === 0 ? '0' : `${(n.error * 100).toFixed(2)} %`]),
    ),
  ]
}
