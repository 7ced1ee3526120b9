import type { Command } from 'commander'
import { FaultError } from '#core/fault'
import { printPlain, printQuantity, type Quantity, standardUncertainty } from '#core/quantity'
import { interval95, working, workingText } from '#core/uncertainty'
import { type CoilMeasured, coilByHalf, coilBySwap, fullScaleOf, type KnownOhm, upkeepFormulas } from '#core/upkeep'
import { clashFault, classOption, optionValue, partOption, positiveOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { percent } from './say.ts'

interface CoilOptions {
  readonly half?: string
  readonly swap?: string
  readonly series?: string
  readonly fraction?: string
  readonly within?: string
  readonly reference?: string
  readonly readable?: string
  readonly class?: string
  readonly json?: boolean
}

/** A fifth of one of 50 divisions is read; a meter of 3½ digits tells a thousandth (common practice). */
const coilDefaults = { fraction: 0.5, readable: 0.004, within: 0.001 } as const

export function defineCoil(group: Command): void {
  withJson(group.command('coil').description('Measure the coil and the full-scale current of a movement.'))
    .option('--half <ohm>', 'resistor across the movement that brings the needle to half: "990 ohm +- 1 ohm"')
    .option('--swap <ohm>', 'resistance in place of the movement that brings back the same current')
    .option('--series <ohm>', 'everything in series with the movement: "100 kohm +- 500 ohm"')
    .option('--fraction <part>', 'where the needle stood, where that was not half; for --reference, part of full scale')
    .option('--within <part>', 'how closely the current was brought back, for --swap (default: 0.1 %)')
    .option('--reference <current>', 'what a reference in series showed: "97.2 uA +- 0.5 uA"')
    .option('--readable <part>', 'how finely the needle is read, as a part of full scale (default: 0.4 %)')
    .option('--class <percent>', 'class of the movement: what its scale may be off between full and half')
    .action((o: CoilOptions) => {
      const measured = measuredBy(o)
      if (o.json === true) printJson({ format: 'germane/movement-measured/1', ...documentOf(measured) })
      else printLines(linesOf(measured))
    })
}

interface Measured {
  readonly coil?: CoilMeasured
  readonly method?: 'half deflection' | 'substitution'
  readonly fullScale?: Quantity<'A'>
}

function measuredBy(o: CoilOptions): Measured {
  if (o.half !== undefined && o.swap !== undefined) throw clashFault('--half', '--swap')
  if (o.half === undefined && o.swap === undefined && o.reference === undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'Nothing that was measured is given',
      mend: 'Give --half or --swap with --series for the coil, or --reference for the full-scale current.',
    })
  const readable = o.readable === undefined ? coilDefaults.readable : partOption('--readable', o.readable)
  const fraction = o.fraction === undefined ? undefined : partOption('--fraction', o.fraction)
  const half = o.half === undefined ? undefined : known('--half', o.half)
  const swap = o.swap === undefined ? undefined : known('--swap', o.swap)
  const coil =
    half !== undefined
      ? coilByHalf({
          parallel: half,
          series: seriesOf(o),
          fraction: fraction ?? coilDefaults.fraction,
          readable,
          ...(o.class === undefined ? {} : { scale: classOption('--class', o.class) / 100 }),
        })
      : swap === undefined
        ? undefined
        : coilBySwap({
            box: swap,
            seriesOhm: seriesOf(o).ohm,
            within: o.within === undefined ? coilDefaults.within : partOption('--within', o.within),
          })
  return {
    ...(coil && { coil, method: half === undefined ? 'substitution' : 'half deflection' }),
    ...(o.reference === undefined
      ? {}
      : { fullScale: fullScaleOf(reference(o.reference), o.half === undefined ? (fraction ?? 1) : 1, readable) }),
  }
}

function seriesOf(o: CoilOptions): KnownOhm {
  if (o.series !== undefined) return known('--series', o.series)
  throw new FaultError({
    code: 'usage',
    problem: 'Nothing is said of what stands in series with the movement',
    mend: 'Give --series with the resistance of the whole loop but the movement.',
  })
}

function known(option: string, text: string): KnownOhm {
  const ohm = positiveOption(option, text, 'ohm')
  const { u } = optionValue(option, text, 'ohm')
  return u === undefined ? { ohm } : { ohm, u }
}

function reference(text: string): { readonly ampere: number; readonly u?: number } {
  const ampere = positiveOption('--reference', text, 'A')
  const { u } = optionValue('--reference', text, 'A')
  return u === undefined ? { ampere } : { ampere, u }
}

const formulas = new Map(upkeepFormulas.map((f) => [f.id, f]))

const quantityOf = (q: Quantity) => ({
  value: q.value,
  standardUncertainty: standardUncertainty(q),
  unit: q.unit,
  interval95: interval95(q),
  working: workingText(working(q, formulas)),
})

const documentOf = ({ coil, method, fullScale }: Measured) => ({
  ...(coil && { method, coil: quantityOf(coil.coil), plainOhm: coil.plainOhm, methodError: coil.methodError }),
  ...(fullScale && { fullScale: quantityOf(fullScale) }),
})

function linesOf({ coil, method, fullScale }: Measured): readonly string[] {
  const rule =
    coil === undefined || method !== 'half deflection'
      ? []
      : [
          `  The rule of thumb says ${printPlain(coil.plainOhm, 'ohm', { digits: 5 })}: ${percent(coil.methodError)} by the method alone, taken out here.`,
        ]
  return [
    ...(coil === undefined
      ? []
      : [`Coil by ${method}: ${printQuantity(coil.coil)}`, ...rule, ...workingText(working(coil.coil, formulas))]),
    ...(coil && fullScale ? [''] : []),
    ...(fullScale === undefined
      ? []
      : [`Full scale: ${printQuantity(fullScale)}`, ...workingText(working(fullScale, formulas))]),
  ]
}
