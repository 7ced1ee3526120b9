import type { Command } from 'commander'
import { cellsSheet, onBench } from '#bench'
import { FaultError } from '#core/fault'
import { standardUncertainty } from '#core/quantity'
import type { Tester } from '#core/tester'
import {
  type CellKind,
  type CellsCheck,
  cautionsFor,
  cellKinds,
  cellsDefaults,
  checkCells,
  type Read,
} from '#core/upkeep'
import { exitCodes } from './exit.ts'
import {
  badOption,
  benchOptions,
  choiceOption,
  chosenTester,
  clashFault,
  optionValue,
  partOption,
  positiveOption,
  withBook,
  withJson,
  withTester,
} from './options.ts'
import { printSheet } from './sheet.ts'

interface CellsOptions {
  readonly tester?: string
  readonly book?: string
  readonly kind?: string
  readonly count: string
  readonly rest: string
  readonly restCurrent?: string
  readonly loaded: string
  readonly current?: string
  readonly resistor?: string
  readonly sag?: string
  readonly out?: string
  readonly json?: boolean
}

const kindNames = Object.keys(cellKinds) as readonly CellKind[]

export function defineCells(group: Command): void {
  const verb = group.command('cells').description('See what a set of cells still carries, and when to change it.')
  withJson(withBook(withTester(verb)))
    .argument('[current...]', 'currents it should carry: "500 mA" "2 A"; with --tester its tests as well')
    .requiredOption('--count <number>', 'cells in series')
    .requiredOption('--rest <voltage>', 'voltage of the set at rest: "4.5 V", "4.50 +- 0.01 V"')
    .requiredOption('--loaded <voltage>', 'voltage of the set under a load')
    .option('--current <current>', 'the load, as a current')
    .option('--resistor <ohm>', 'the load, as a resistor across the set')
    .option('--rest-current <current>', 'current while at rest (default: 0)')
    .option('--kind <kind>', `${kindNames.join(', ')} (default: alkaline)`)
    .option('--sag <part>', 'how much of its voltage a test may lose (default: 10 %)')
    .option('--out <file>', 'page to write')
    .action(async (texts: readonly string[], o: CellsOptions) => {
      const kind = choiceOption('--kind', o.kind ?? 'alkaline', kindNames)
      const tester = o.tester === undefined ? undefined : await testerOf(o)
      const checked = checkCells({
        kind,
        count: countOf(o.count),
        rest: read('--rest', o.rest),
        restA: o.restCurrent === undefined ? 0 : optionValue('--rest-current', o.restCurrent, 'A').value,
        loaded: read('--loaded', o.loaded),
        load: loadOf(o),
        sag: o.sag === undefined ? cellsDefaults.sag : partOption('--sag', o.sag),
        currentsA: texts.map((text) => positiveOption('current', text, 'A')),
        ...(tester && { tester }),
      })
      const cautions = cautionsFor({ cells: true })
      await printSheet(
        cellsSheet(checked, cautions),
        () => ({ format: 'germane/cells/1', kind, ...documentOf(checked), cautions }),
        o,
      )
      if (checked.state === 'change') process.exitCode = exitCodes.notConforming
    })
}

const testerOf = (o: CellsOptions): Promise<Tester> =>
  onBench(benchOptions(o), (bench) => Promise.resolve(chosenTester(bench, o.tester).tester))

function read(option: string, text: string): Read {
  const value = positiveOption(option, text, 'V')
  const { u } = optionValue(option, text, 'V')
  return u === undefined ? { value } : { value, u }
}

function countOf(text: string): number {
  const count = positiveOption('--count', text, '1')
  if (Number.isInteger(count) && count <= 1000) return count
  throw badOption('--count', text, 'is no count of cells', 'Write how many stand in series: 3.')
}

function loadOf(o: CellsOptions): { readonly ampere: number } | { readonly ohm: number } {
  if (o.current !== undefined && o.resistor !== undefined) throw clashFault('--current', '--resistor')
  if (o.current !== undefined) return { ampere: positiveOption('--current', o.current, 'A') }
  if (o.resistor !== undefined) return { ohm: positiveOption('--resistor', o.resistor, 'ohm') }
  throw new FaultError({
    code: 'usage',
    problem: 'Nothing is said of the load',
    mend: 'Give --current "500 mA" or --resistor "10 ohm".',
  })
}

const documentOf = ({ inner, loads, ...c }: CellsCheck) => ({
  ...c,
  innerOhm: inner.value,
  innerU: standardUncertainty(inner),
  loads: loads.map(({ voltage, ...l }) => ({ ...l, voltageV: voltage.value, voltageU: standardUncertainty(voltage) })),
})
