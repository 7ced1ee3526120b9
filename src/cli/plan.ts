import type { Command } from 'commander'
import { onBench, planRun } from '#bench'
import { FaultError } from '#core/fault'
import { sheetText, type Wishes } from '#core/sheet'
import {
  benchOptions,
  chosenTester,
  optionAmbient,
  optionValue,
  withAmbient,
  withBook,
  withJson,
  withTester,
} from './options.ts'
import { printJson, printLines } from './output.ts'

export interface PlanOptions {
  readonly tester?: string
  readonly type?: string
  readonly ambient?: string
  readonly ic?: string
  readonly supply?: string
  readonly if?: string
  readonly polarity?: string
  readonly material?: string
  readonly family?: string
  readonly advice?: boolean
  readonly book?: string
  readonly json?: boolean
  readonly example?: boolean
}

/** Options that say what is wanted of a run sheet. */
export function takesWishes(command: Command): Command {
  for (const add of [withTester, withAmbient, withBook]) add(command)
  return command
    .option('--ic <current>', 'collector current at which gain is wanted, such as 2 mA')
    .option('--supply <voltage>', 'collector supply wanted, such as 4.5 V')
    .option('--if <current>', 'forward current wanted for a diode, such as 10 mA')
    .option('--polarity <polarity>', 'of an unknown part: NPN or PNP')
    .option('--material <material>', 'of an unknown part: Ge or Si')
    .option('--family <family>', 'of an unknown part: bjt or diode')
}

/** What the options ask of the plan. @throws {FaultError} values that cannot be understood */
export function wishesOf(o: PlanOptions): Partial<Wishes> {
  const number = (option: string, text: string | undefined, unit: 'A' | 'V') =>
    text === undefined ? undefined : optionValue(option, text, unit).value
  const wishes = {
    ...optionAmbient(o.ambient),
    collectorA: number('--ic', o.ic, 'A'),
    supplyV: number('--supply', o.supply, 'V'),
    forwardA: number('--if', o.if, 'A'),
    polarity: o.polarity?.toUpperCase(),
    material: o.material === undefined ? undefined : capital(o.material),
    family: o.family?.toLowerCase(),
  }
  return Object.fromEntries(Object.entries(wishes).filter(([, v]) => v !== undefined)) as Partial<Wishes>
}

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1).toLowerCase()

export function define(command: Command): void {
  command.argument('[type]', 'part type, such as 2N1305; "unknown" for an unmarked part')
  withJson(takesWishes(command))
    .option('--type <type>', 'the same as the argument')
    .option('--advice', 'print what to do when a step shows something odd')
    .option('--example', 'print a plan that works: 2N1305 on the Larkfield sample')
    .action(async (argument: string | undefined, o: PlanOptions) => {
      const typeName = o.example === true ? '2N1305' : (argument ?? o.type)
      if (typeName === undefined)
        throw new FaultError({
          code: 'usage',
          problem: 'No part type was named',
          mend: 'Name one, such as 2N1305, or "unknown" for an unmarked part.',
        })
      await onBench(benchOptions(o), (bench) => {
        const { tester } = chosenTester(bench, o.example === true ? (o.tester ?? 'larkfield') : o.tester)
        const sheet = planRun(bench, { tester, typeName, wishes: wishesOf(o) })
        if (o.json === true) printJson(sheet)
        else printLines(sheetText(sheet, { advice: o.advice === true }))
      })
    })
}
