import type { Command } from 'commander'
import { parseValue, printPlain, type Unit } from '#core/quantity'
import { combine, resistorRating, resistorVoltageV } from '#core/resistor'
import type { Movement } from '#core/tester'
import { interval95 } from '#core/uncertainty'
import {
  cautionsFor,
  designRanges,
  type RangeBudget,
  rangeBudget,
  rangeText,
  ringSegments,
  swamped,
  swampingFor,
  type WantedRange,
} from '#core/upkeep'
import { chosenMovement, type MovementOptions, withMovement } from './movement-options.ts'
import { badOption, clashFault, optionValue, partOption, positiveOption, temperatureSpan, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { block, cautionLines, percent } from './say.ts'
import { tableLines } from './table.ts'

interface ShuntOptions extends MovementOptions {
  readonly ring?: string | true
  readonly swamp?: string
  readonly drift?: string
  readonly tolerance?: string
  readonly partDrift?: string
  readonly contact?: string
  readonly from?: string
  readonly to?: string
  readonly describe?: boolean
  readonly json?: boolean
}

/** What is taken where an option is left out: parts of 1 % metal film, a workshop between 10 and 40 °C. */
const shuntDefaults = { tolerance: 0.01, partPerK: 50e-6, contactOhm: 0, fromC: 10, toC: 40 } as const

export function defineShunt(group: Command): void {
  const verb = group.command('shunt').description('Work out shunts, ring taps and multipliers for a movement.')
  withJson(withMovement(verb))
    .argument('<range...>', 'full scales: currents get shunts, voltages get multipliers: "10 mA" "15 V"')
    .option('--ring [ohm]', 'one ring with taps for all current ranges: its resistance, or the least that serves')
    .option('--swamp <ohm>', 'swamping resistor in series with the coil')
    .option('--drift <change>', 'swamp the coil down to this change per kelvin: "0.05 %/K"')
    .option('--tolerance <part>', 'limit of error of shunts and multipliers (default: 1 %)')
    .option('--part-drift <change>', 'their change per kelvin (default: 50 ppm/K)')
    .option('--contact <ohm>', 'switch contact and wire in series with each shunt (default: 0)')
    .option('--from <temperature>', 'lowest temperature at the bench (default: 10 °C)')
    .option('--to <temperature>', 'highest temperature at the bench (default: 40 °C)')
    .option('--describe', 'print the ranges as they stand in the description of a tester')
    .action(async (texts: readonly string[], o: ShuntOptions) => {
      const design = worked(await chosenMovement(o), texts.map(wantedRange), o)
      if (o.describe === true && o.json !== true)
        return void process.stdout.write(rangeText(design.budgets.map((b) => b.range)))
      if (o.json === true) printJson({ format: 'germane/shunts/1', ...shuntsDocument(design) })
      else printLines(shuntLines(design))
    })
}

function wantedRange(text: string): WantedRange {
  const parsed = parseValue(text)
  if (!parsed.ok) throw badOption('range', text, parsed.problem, parsed.mend)
  const { value: fullScale, unit } = parsed
  if ((unit !== 'A' && unit !== 'V') || !(fullScale > 0))
    throw badOption('range', text, 'is no full scale', 'Give currents and voltages with their units: "10 mA" "15 V".')
  return { measures: unit === 'A' ? 'current' : 'voltage', fullScale }
}

function worked(bare: Movement, wanted: readonly WantedRange[], o: ShuntOptions) {
  if (o.swamp !== undefined && o.drift !== undefined) throw clashFault('--swamp', '--drift')
  const swampOhm =
    o.swamp !== undefined
      ? positiveOption('--swamp', o.swamp, 'ohm')
      : o.drift !== undefined
        ? swampingFor(bare, positiveOption('--drift', o.drift, '1/K'))
        : 0
  const m = swampOhm > 0 ? swamped(bare, swampOhm) : bare
  const tolerance = o.tolerance === undefined ? shuntDefaults.tolerance : partOption('--tolerance', o.tolerance)
  const contactOhm = o.contact === undefined ? shuntDefaults.contactOhm : positiveOption('--contact', o.contact, 'ohm')
  const ring =
    o.ring === undefined
      ? {}
      : { ringOhm: o.ring === true ? ('least' as const) : positiveOption('--ring', o.ring, 'ohm') }
  const ranges = designRanges(m, wanted, { tolerance, contactOhm, ...ring })
  const temperaturesC = temperatureSpan(o, [shuntDefaults.fromC, shuntDefaults.toC])
  const partPerK =
    o.partDrift === undefined ? shuntDefaults.partPerK : optionValue('--part-drift', o.partDrift, '1/K').value
  const budgets = ranges.map((r) => rangeBudget(m, r, { temperaturesC, partPerK }))
  const cautions = cautionsFor({
    voltageV: Math.max(0, ...wanted.map((w) => (w.measures === 'voltage' ? w.fullScale : 0))),
    currentA: Math.max(0, ...wanted.map((w) => (w.measures === 'current' ? w.fullScale : 0))),
    powerW: Math.max(...budgets.map((b) => b.part?.powerW ?? 0)),
  })
  return { movement: m, swampOhm, tolerance, budgets, segments: ringSegments(m, ranges), cautions }
}

type Design = ReturnType<typeof worked>

const ends = (b: RangeBudget): readonly [number, number] => interval95(b.fullScale)

const shuntsDocument = (d: Design) => ({
  fullScaleA: d.movement.fullScaleA,
  coilOhm: d.movement.coilOhm,
  perK: d.movement.copperPerK,
  swampOhm: d.swampOhm,
  ranges: d.budgets.map((b) => ({
    range: b.range.id,
    measures: b.range.measures,
    fullScale: b.range.fullScale,
    kind: b.range.circuit.kind,
    ...(b.part && { ohm: b.part.ohm, powerW: b.part.powerW, pieces: b.part.pieces }),
    terminalOhm: b.terminalOhm,
    burdenV: b.burdenV,
    drift: b.drift,
    limits: b.limits,
    worst: b.worst,
    interval95: ends(b),
  })),
  segments: d.segments,
  cautions: d.cautions,
})

const value = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 5 })

function shuntLines(d: Design): readonly string[] {
  const { movement: m, budgets, swampOhm } = d
  const swamp = swampOhm > 0 ? `, of which ${value(swampOhm, 'ohm')} swamping` : ''
  const cold = budgets[0]!.drift[0]!.temperatureC
  const warm = budgets[0]!.drift.at(-1)!.temperatureC
  const rows = budgets.map((b) => [
    b.range.id,
    b.range.circuit.kind,
    b.part === undefined ? '' : value(b.part.ohm, 'ohm'),
    b.part === undefined ? '' : ratingText(b.part.powerW),
    b.range.measures === 'current' ? value(b.burdenV, 'V') : value(b.terminalOhm, 'ohm'),
    percent(b.drift[0]!.error),
    percent(b.drift.at(-1)!.error),
    percent(b.worst),
  ])
  return [
    `Movement ${value(m.fullScaleA, 'A')}, ${value(m.coilOhm, 'ohm')}${swamp}, ${value(m.copperPerK * 100, '1')} %/K, class ${m.classPercent} %`,
    '',
    ...tableLines(
      ['range', 'by', '>resistance', '>buy', '>burden', `>at ${cold} °C`, `>at ${warm} °C`, '>at worst'],
      rows,
    ),
    ...ringLines(d),
    ...takeLines(d),
    ...block('What makes up the worst:', limitLines(budgets)),
    ...cautionLines(d.cautions),
  ]
}

const ratingText = (powerW: number): string => value(resistorRating(powerW), 'W')

const ringLines = ({ segments }: Design): readonly string[] =>
  block(
    segments.length === 0 ? '' : 'The ring, from its end to common:',
    segments.length === 0
      ? []
      : tableLines(
          ['from', 'to', '>resistance', '>most current', '>buy'],
          segments.map((s) => [s.from, s.to, value(s.ohm, 'ohm'), value(s.currentA, 'A'), ratingText(s.powerW)]),
        ),
  )

/** Below this a shunt is made of wire rather than bought, ohm (common practice). */
const wireBelowOhm = 1

/** What to take for each part that is no preferred value. */
function takeLines({ budgets, tolerance }: Design): readonly string[] {
  const rows = budgets.flatMap((b) => {
    if (b.part === undefined || b.part.name === 'tap') return []
    if (b.part.ohm < wireBelowOhm)
      return [[b.range.id, `wire: germane tester wire "${value(b.part.ohm, 'ohm')}" --current "${b.range.id}"`, '']]
    const { one, inSeries, sideBySide } = combine(b.part.ohm, { series: 'E24', within: tolerance / 10, tolerance })
    const best = [one, inSeries, sideBySide]
      .flatMap((c) => (c === undefined ? [] : [c]))
      .sort((x, y) => Math.abs(x.error) - Math.abs(y.error))[0]!
    const sign = best.kind === 'parallel' ? ' || ' : ' + '
    return [[b.range.id, best.members.map((p) => value(p.ohm, 'ohm')).join(sign), percent(best.error)]]
  })
  const split = budgets.flatMap((b) =>
    b.part === undefined || b.part.pieces === 1
      ? []
      : [
          `${b.range.id}: at least ${b.part.pieces} resistors in series, for no small one bears more than ${resistorVoltageV} V.`,
        ],
  )
  return block(
    'Nearest of E24:',
    rows.length === 0 ? [] : [...tableLines(['range', 'take', '>off by'], rows), ...split],
  )
}

function limitLines(budgets: readonly RangeBudget[]): readonly string[] {
  const causes = [...new Set(budgets.flatMap((b) => b.limits.map((l) => l.cause)))]
  const rows = budgets.map((b) => {
    const [low, high] = ends(b)
    return [
      b.range.id,
      ...causes.map((c) => percent(b.limits.find((l) => l.cause === c)?.limit ?? 0)),
      `${value(low, b.fullScale.unit)} to ${value(high, b.fullScale.unit)}`,
    ]
  })
  return tableLines(['range', ...causes.map((c) => `>${c}`), '95 % of full scale'], rows)
}
