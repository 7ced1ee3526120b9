import type { Command } from 'commander'
import { printPlain, type Unit } from '#core/quantity'
import { type OhmScale, ohmScale } from '#core/upkeep'
import { chosenMovement, type MovementOptions, withMovement } from './movement-options.ts'
import { badOption, positiveOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { percent } from './say.ts'
import { tableLines } from './table.ts'

interface OhmsOptions extends MovementOptions {
  readonly mid: string
  readonly cell?: string
  readonly cellOhm?: string
  readonly from?: string
  readonly to?: string
  readonly json?: boolean
}

/** A zinc cell, new and at the end of its use for this (common practice). */
const ohmsDefaults = { emfV: 1.5, cellOhm: 0.5, fromV: 1.2, toV: 1.6 } as const

export function defineOhms(group: Command): void {
  const verb = group.command('ohms').description('Work out an ohm scale for a movement: resistors and marks.')
  withJson(withMovement(verb))
    .requiredOption('--mid <ohm>', 'resistance that brings the needle to the middle: "1.2 kohm"')
    .option('--cell <voltage>', `cell it is made for (default: ${ohmsDefaults.emfV} V)`)
    .option('--cell-ohm <ohm>', `resistance of the cell (default: ${ohmsDefaults.cellOhm} ohm)`)
    .option('--from <voltage>', `lowest cell voltage to be set to zero (default: ${ohmsDefaults.fromV} V)`)
    .option('--to <voltage>', `highest cell voltage to be set to zero (default: ${ohmsDefaults.toV} V)`)
    .action(async (o: OhmsOptions) => {
      const asked = {
        midOhm: positiveOption('--mid', o.mid, 'ohm'),
        emfV: o.cell === undefined ? ohmsDefaults.emfV : positiveOption('--cell', o.cell, 'V'),
        cellOhm: o.cellOhm === undefined ? ohmsDefaults.cellOhm : positiveOption('--cell-ohm', o.cellOhm, 'ohm'),
        emfSpanV: spanOf(o),
      }
      const scale = ohmScale(await chosenMovement(o), asked)
      if (o.json === true) printJson({ format: 'germane/ohm-scale/1', ...asked, ...scale })
      else printLines(ohmsLines(scale, asked.emfSpanV))
    })
}

function spanOf(o: OhmsOptions): readonly [number, number] {
  const from = o.from === undefined ? ohmsDefaults.fromV : positiveOption('--from', o.from, 'V')
  const to = o.to === undefined ? ohmsDefaults.toV : positiveOption('--to', o.to, 'V')
  if (from <= to) return [from, to]
  throw badOption('--from', `${from} V`, `is above the ${to} V of --to`, 'Give the lower voltage first.')
}

const value = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 5 })

function ohmsLines(s: OhmScale, [low, high]: readonly [number, number]): readonly string[] {
  return [
    `In series: ${value(s.seriesOhm, 'ohm')}. Zero adjuster across the movement: ${value(s.adjusterOhm, 'ohm')},`,
    `to be set between ${value(s.adjusterSpanOhm[0], 'ohm')} (cell at ${value(high, 'V')}) and ${value(s.adjusterSpanOhm[1], 'ohm')} (${value(low, 'V')}).`,
    `With the leads together the cell gives ${value(s.zeroCurrentA, 'A')}.`,
    '',
    ...tableLines(
      ['>mark', '>of the scale'],
      s.marks.map((m) => [value(m.ohm, 'ohm'), percent(m.fraction)]),
    ),
    '',
    `Set to zero, it reads ${percent(s.spanError[0])} off with the cell at ${value(low, 'V')}, ${percent(s.spanError[1])} at ${value(high, 'V')}.`,
  ]
}
