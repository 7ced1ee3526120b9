import type { Command } from 'commander'
import { printPlain, type Unit } from '#core/quantity'
import { type Combination, combine, type ESeries, eSeriesNames, type Load, usualTolerance } from '#core/resistor'
import { exitCodes } from './exit.ts'
import { choiceOption, clashFault, partOption, positiveOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { percent } from './say.ts'
import { tableLines, wrapped } from './table.ts'

interface ResistorOptions {
  readonly series?: string
  readonly within?: string
  readonly tolerance?: string
  readonly current?: string
  readonly voltage?: string
  readonly json?: boolean
}

const resistorDefaults = { series: 'E24', within: 0.01 } as const

export function defineResistor(group: Command): void {
  withJson(group.command('resistor').description('Find what to take for a resistance: one preferred value, or a pair.'))
    .argument('<ohm>', 'resistance wanted: "11.1 ohm", 4k53')
    .option(
      '--series <series>',
      `series to take from: ${eSeriesNames.join(', ')} (default: ${resistorDefaults.series})`,
    )
    .option('--within <part>', 'how far from it the printed values may be (default: 1 %)')
    .option('--tolerance <part>', 'limit of error of your resistors (default: what the series is usually sold with)')
    .option('--current <current>', 'current through the whole, for the power in each resistor')
    .option('--voltage <voltage>', 'voltage across the whole, for the power in each resistor')
    .action((text: string, o: ResistorOptions) => {
      const ohm = positiveOption('ohm', text, 'ohm')
      const series = choiceOption('--series', o.series ?? resistorDefaults.series, eSeriesNames)
      const within = o.within === undefined ? resistorDefaults.within : partOption('--within', o.within)
      const tolerance = o.tolerance === undefined ? usualTolerance[series] : partOption('--tolerance', o.tolerance)
      const load = loadOf(o)
      const found = combine(ohm, { series, within, tolerance, ...(load && { load }) })
      const asked = { ohm, series, within, tolerance }
      if (o.json === true) printJson({ format: 'germane/resistor/1', ...asked, ...found })
      else printLines(resistorLines(asked, found))
      if (found.taken === undefined) process.exitCode = exitCodes.notConforming
    })
}

function loadOf(o: ResistorOptions): Load | undefined {
  if (o.current !== undefined && o.voltage !== undefined) throw clashFault('--current', '--voltage')
  if (o.current !== undefined) return { currentA: positiveOption('--current', o.current, 'A') }
  return o.voltage === undefined ? undefined : { voltageV: positiveOption('--voltage', o.voltage, 'V') }
}

const value = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 5 })
const kinds = { one: 'one resistor', series: 'in series', parallel: 'side by side' } as const

type Asked = Readonly<{ ohm: number; series: ESeries; within: number; tolerance: number }>

function resistorLines(asked: Asked, found: ReturnType<typeof combine>): readonly string[] {
  const { taken, one, inSeries, sideBySide } = found
  const all = [one, inSeries, sideBySide].filter((c) => c !== undefined)
  const hasPower = one.members[0]!.powerW !== undefined
  const rows = all.map((c) => [
    kinds[c.kind],
    membersText(c),
    value(c.ohm, 'ohm'),
    percent(c.error),
    percent(c.worst),
    ...(hasPower ? [c.members.map((m) => `${value(m.powerW!, 'W')} (buy ${value(m.ratingW!, 'W')})`).join(', ')] : []),
  ])
  return [
    `For ${value(asked.ohm, 'ohm')} from ${asked.series}: ${taken === undefined ? `nothing within ${percent(asked.within)}.` : `${membersText(taken)}.`}`,
    '',
    ...tableLines(['', 'values', '>makes', '>off by', '>at worst', ...(hasPower ? ['power in each'] : [])], rows),
    '',
    ...wrapped(advice(asked, taken)),
  ]
}

const membersText = (c: Combination): string =>
  c.members.map((m) => value(m.ohm, 'ohm')).join(c.kind === 'parallel' ? ' || ' : ' + ')

/** What to do with resistors whose own limit of error is wider than what is wanted. */
function advice({ within, tolerance }: Asked, taken: Combination | undefined): string {
  if (taken === undefined)
    return 'Take a finer series, a wider tolerance, or trim: the next value above with a second resistor across it.'
  return taken.worst <= within
    ? `Any resistors of ${percent(tolerance)} will do.`
    : `Resistors of ${percent(tolerance)} may be ${percent(taken.worst)} off: measure and choose, or buy closer ones.`
}
