import type { Command } from 'commander'
import { onBench } from '#bench'
import { FaultError } from '#core/fault'
import { type Movement, testerDefaults } from '#core/tester'
import {
  badOption,
  benchOptions,
  chosenTester,
  classOption,
  optionValue,
  positiveOption,
  withBook,
  withTester,
} from './options.ts'

/** What a movement is known by, on the command line. */
export interface MovementOptions {
  readonly tester?: string
  readonly book?: string
  readonly movement?: string
  readonly coil?: string
  readonly copper?: string
  readonly class?: string
}

/** Class taken where none is stated, percent: a panel meter's (common practice). */
const usualClass = 2

export const withMovement = (c: Command): Command =>
  withBook(withTester(c))
    .option('--movement <current>', 'full-scale current of the movement, where no tester is named: "100 uA"')
    .option('--coil <ohm>', 'resistance of its coil at 20 °C: "1.1 kohm"')
    .option('--copper <change>', 'change of the coil per kelvin (default: 0.393 %/K, copper)')
    .option('--class <percent>', `accuracy class of the movement (default: ${usualClass} %)`)

/** The movement of the tester named, or the one the options describe. @throws {FaultError} where neither is there */
export async function chosenMovement(o: MovementOptions): Promise<Movement> {
  const named = o.tester === undefined ? undefined : await movementOfTester(o)
  const fullScaleA = o.movement === undefined ? named?.fullScaleA : positiveOption('--movement', o.movement, 'A')
  const coilOhm = o.coil === undefined ? named?.coilOhm : positiveOption('--coil', o.coil, 'ohm')
  if (fullScaleA === undefined || coilOhm === undefined)
    throw new FaultError({
      code: 'usage',
      problem:
        fullScaleA === coilOhm
          ? 'No movement was described'
          : `The movement lacks its ${fullScaleA === undefined ? 'full scale' : 'coil'}`,
      mend: 'Name a tester with --tester, or give --movement "100 uA" --coil "1.1 kohm".',
    })
  const { copperPerK, coilAtC: atC, zero, readable } = testerDefaults
  return {
    ...(named ?? { copperPerK, atC, classPercent: usualClass, zero, readable }),
    fullScaleA,
    coilOhm,
    ...(o.copper === undefined ? {} : { copperPerK: optionValue('--copper', o.copper, '1/K').value }),
    ...(o.class === undefined ? {} : { classPercent: classOption('--class', o.class) }),
  }
}

async function movementOfTester(o: MovementOptions): Promise<Movement> {
  return onBench(benchOptions(o), (bench) => {
    const { tester } = chosenTester(bench, o.tester)
    if (tester.movement !== undefined) return tester.movement
    throw badOption('--tester', tester.id, 'has no needle movement', 'Describe one with --movement and --coil.')
  })
}
