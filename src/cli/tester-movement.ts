import type { Command } from 'commander'
import { printPlain } from '#core/quantity'
import { checkScale, readScaleTable, type ScaleCheck, type ScaleTable, scaleExampleCsv } from '#core/upkeep'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import { badOption, classOption, namedInput, positiveOption, withExample, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { percent } from './say.ts'
import { tableLines, wrapped } from './table.ts'

interface MovementCheckOptions {
  readonly fullScale?: string
  readonly class?: string
  readonly reference?: string
  readonly json?: boolean
}

export function defineMovement(group: Command): void {
  const verb = group.command('movement').description('Check the scale of a movement: zero, friction, class.')
  withJson(withExample(verb, 'print a table that works', (o) => writeExample(scaleExampleCsv, 'csv', o)))
    .argument('[file]', 'CSV with the true values and what was shown, up and down; - reads standard input')
    .option('--full-scale <value>', 'value the class refers to (default: the largest true value)')
    .option('--class <percent>', 'class printed on it, to be held against')
    .option('--reference <part>', 'expanded uncertainty of the true values, as a part of full scale (default: 0)')
    .action((file: string | undefined, o: MovementCheckOptions) => {
      const input = namedInput(file, 'table')
      const table = readScaleTable(input.text, input.file)
      const fullScale =
        o.fullScale === undefined
          ? Math.max(0, ...table.points.map((p) => Math.abs(p.true)))
          : positiveOption('--full-scale', o.fullScale, table.unit)
      if (!(fullScale > 0)) throw badOption('true', '0', 'is all there is', 'Read points up to full scale.')
      const checked = checkScale(table.points, {
        fullScale,
        ...(o.class === undefined ? {} : { classPercent: classOption('--class', o.class) }),
        expanded: o.reference === undefined ? 0 : positiveOption('--reference', o.reference, '1'),
      })
      if (o.json === true)
        printJson({ format: 'germane/movement-check/1', fullScale, unit: table.unit, ...checked, notes: table.notes })
      else printLines(movementLines(checked, table, fullScale))
      if (checked.verdict === 'does not conform') process.exitCode = exitCodes.notConforming
    })
}

function movementLines(c: ScaleCheck, { unit, notes }: ScaleTable, fullScale: number): readonly string[] {
  const value = (x: number): string => printPlain(x, unit, { digits: 4 })
  const rows = c.points.map((p) => [
    value(p.true),
    percent(p.errorUp),
    p.errorDown === undefined ? '' : percent(p.errorDown),
  ])
  const meets = c.meets === undefined ? 'no class of the list' : `class ${c.meets}`
  return [
    ...tableLines(['>true', '>off going up', '>going down'], rows),
    '',
    `Largest error ${percent(c.largest)} of ${value(fullScale)}: it meets ${meets}${c.verdict === undefined ? '' : `, and ${c.verdict === 'undecided' ? 'whether it keeps its own is undecided' : `${c.verdict} to its own`}`}.`,
    ...(c.zero === undefined ? [] : [`Zero stands ${percent(c.zero)} off.`]),
    ...(c.friction === undefined
      ? []
      : [`Friction: up and down differ by up to ${percent(c.friction.difference)}, at ${value(c.friction.at)}.`]),
    `A straight line through the errors: ${percent(c.offset)} at zero, ${percent(c.slope)} in proportion; ${percent(c.left)} would be left.`,
    ...(c.advice.length > 0 ? [''] : []),
    ...[...c.advice, ...notes].flatMap((a) => wrapped(a, '- ')),
  ]
}
