import type { Command } from 'commander'
import { dialSheet } from '#bench'
import { FaultError } from '#core/fault'
import type { Unit } from '#core/quantity'
import {
  checkGainDial,
  dialDefaults,
  dialExampleCsv,
  dialTransistors,
  type GainBridge,
  type PotLaw,
  readDialTable,
} from '#core/upkeep'
import { writeExample } from './example.ts'
import { readInput } from './input.ts'
import {
  badOption,
  choiceOption,
  deviceTemperature,
  materialNamed,
  optionValue,
  partOption,
  positiveOption,
  withExample,
  withJson,
} from './options.ts'
import { outText, printSheet } from './sheet.ts'

interface DialOptions {
  readonly bridge?: string
  readonly dial?: string
  readonly fixed: string
  readonly drawnFor?: string
  readonly tolerance?: string
  readonly pot?: string
  readonly potFound?: string
  readonly end?: string
  readonly linearity?: string
  readonly marks?: string
  readonly cell?: string
  readonly tap?: string
  readonly divider?: string
  readonly vbe?: string
  readonly material?: string
  readonly detector?: string
  readonly division?: string
  readonly readable?: string
  readonly leakage?: string
  readonly ambient?: string
  readonly out?: string
  readonly json?: boolean
}

export function defineDial(group: Command): void {
  const verb = group.command('dial').description('Check a gain dial: marks, zero, null, leakage, test resistors.')
  withJson(withExample(verb, 'print a table that works', (o) => writeExample(dialExampleCsv, 'csv', o)))
    .argument('[file]', 'CSV with the resistance measured at each mark, in place of --pot; - reads standard input')
    .requiredOption('--fixed <ohm>', 'the resistor that is not the dial, as found: "1 kohm"')
    .option('--drawn-for <ohm>', 'the fixed resistor the scale was drawn for (default: as found)')
    .option('--dial <place>', 'where the dial stands: base or collector (default: base)')
    .option(
      '--bridge <kind>',
      'ratio: needle from collector to base; divider: from collector to a tap (default: ratio)',
    )
    .option('--pot <ohm>', 'the pot the scale was drawn for, linear, end to end')
    .option('--pot-found <ohm>', 'the pot as found (default: as drawn for)')
    .option('--end <ohm>', 'resistance left at its stop (default: 0)')
    .option('--linearity <part>', 'departure of the pot from a straight line, of the whole (default: 1 %)')
    .option('--tolerance <part>', 'limit of error of the fixed resistor (default: 1 %)')
    .option('--marks <list>', `gains to look at (default: ${dialDefaults.marks.join(',')})`)
    .option('--cell <voltage>', `cells that feed the bridge (default: ${dialDefaults.cellV} V)`)
    .option('--tap <part>', 'of the divider: voltage of the tap against the emitter, as a part (default: 2/3)')
    .option('--divider <ohm>', 'of the divider: both resistors together (default: 2 kohm)')
    .option('--vbe <voltage>', 'base-emitter voltage the scale was drawn for (default: by the material)')
    .option('--material <material>', 'Ge or Si: the part it is read with (default: Ge)')
    .option('--detector <ohm>', 'the needle with its series resistor (default: 1.1 kohm)')
    .option('--division <current>', 'current of one division of the needle (default: 2 uA)')
    .option('--readable <part>', 'how finely the null is seen, in divisions (default: 0.5)')
    .option('--leakage <current>', 'leakage from collector to emitter (default: 10 uA)')
    .option('--ambient <temperature>', 'temperature of the part (default: 25 °C)')
    .option('--out <file>', outText)
    .action(async (file: string | undefined, o: DialOptions) => {
      const material = choiceOption('--material', materialNamed(o.material ?? 'Ge'), ['Ge', 'Si'] as const)
      const bridge = bridgeOf(o, material)
      const leakageA = o.leakage === undefined ? 10e-6 : optionValue('--leakage', o.leakage, 'A').value
      const checked = checkGainDial({
        bridge,
        ...(o.drawnFor === undefined ? {} : { drawnForOhm: positiveOption('--drawn-for', o.drawnFor, 'ohm') }),
        tolerance: o.tolerance === undefined ? dialDefaults.tolerance : partOption('--tolerance', o.tolerance),
        law: lawOf(o, file),
        marks: marksOf(o),
        detectorOhm: numberOf('--detector', o.detector, 'ohm', dialDefaults.detectorOhm),
        divisionA: numberOf('--division', o.division, 'A', dialDefaults.divisionA),
        readable: numberOf('--readable', o.readable, '1', dialDefaults.readable),
        leakageA,
        transistor: dialTransistors[material],
        ambientC: o.ambient === undefined ? dialDefaults.ambientC : deviceTemperature('--ambient', o.ambient, 'part'),
      })
      const asked = { bridge: bridge.kind, dial: bridge.dial, fixedOhm: bridge.fixedOhm, leakageA }
      const sheet = dialSheet(checked, bridge, leakageA)
      await printSheet(sheet, () => ({ format: 'germane/gain-dial/1', ...asked, ...checked }), o)
    })
}

const numberOf = (option: string, text: string | undefined, unit: Unit, otherwise: number): number =>
  text === undefined ? otherwise : positiveOption(option, text, unit)

function bridgeOf(o: DialOptions, material: 'Ge' | 'Si'): GainBridge {
  const kind = choiceOption('--bridge', o.bridge ?? 'ratio', ['ratio', 'divider'] as const)
  const dial = choiceOption('--dial', o.dial ?? 'base', ['base', 'collector'] as const)
  const emfV = numberOf('--cell', o.cell, 'V', dialDefaults.cellV)
  const baseEmitterV = numberOf('--vbe', o.vbe, 'V', dialDefaults.baseEmitterV[material])
  if (baseEmitterV >= emfV)
    throw badOption('--vbe', `${baseEmitterV} V`, `is not below the ${emfV} V of the cells`, 'Check --cell and --vbe.')
  const common = { emfV, baseEmitterV, fixedOhm: positiveOption('--fixed', o.fixed, 'ohm') }
  if (kind === 'ratio') return { kind, dial, ...common }
  if (dial === 'collector')
    throw badOption('--dial', 'collector', 'is no place for the dial of a divider', 'Its dial stands in the base.')
  const tapFraction = o.tap === undefined ? dialDefaults.tapFraction : positiveOption('--tap', o.tap, '1')
  if (tapFraction >= 1) throw badOption('--tap', o.tap ?? '', 'is not below 1', 'Give the part of the cells: 0.667.')
  return {
    kind,
    dial,
    ...common,
    tapFraction,
    dividerOhm: numberOf('--divider', o.divider, 'ohm', dialDefaults.dividerOhm),
  }
}

function lawOf(o: DialOptions, file: string | undefined): PotLaw {
  if (file !== undefined) {
    const input = readInput(file)
    return { kind: 'points', points: readDialTable(input.text, input.file) }
  }
  if (o.pot === undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'Nothing is said of the pot',
      mend: 'Give --pot for a linear one, or a file of measured points; see --example.',
    })
  const nominalOhm = positiveOption('--pot', o.pot, 'ohm')
  return {
    kind: 'linear',
    nominalOhm,
    ohm: numberOf('--pot-found', o.potFound, 'ohm', nominalOhm),
    endOhm: o.end === undefined ? 0 : optionValue('--end', o.end, 'ohm').value,
    linearity: o.linearity === undefined ? dialDefaults.linearity : partOption('--linearity', o.linearity),
  }
}

const marksOf = (o: DialOptions): readonly number[] =>
  o.marks === undefined ? dialDefaults.marks : o.marks.split(',').map((text) => positiveOption('--marks', text, '1'))
