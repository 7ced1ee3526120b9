import type { Command } from 'commander'
import { type Bench, isUnknown, onBench, planRun } from '#bench'
import { type Fault, FaultError } from '#core/fault'
import { type RunSheet, sheetText, type Wishes } from '#core/sheet'
import type { Tester } from '#core/tester'
import {
  badOption,
  benchOptions,
  chosenTester,
  clashFault,
  materialNamed,
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

/** What the options ask of the plan. @throws {FaultError} every value that cannot be understood */
function wishesOf(o: PlanOptions): Partial<Wishes> {
  const faults: Fault[] = []
  const understood = <T extends object>(read: () => T): T | Record<string, never> => {
    try {
      return read()
    } catch (error) {
      if (!(error instanceof FaultError)) throw error
      faults.push(...error.faults)
      return {}
    }
  }
  const number = (wish: 'collectorA' | 'supplyV' | 'forwardA', text: string | undefined, unit: 'A' | 'V') =>
    understood(() => (text === undefined ? {} : { [wish]: optionValue(`--${optionOf[wish]}`, text, unit).value }))
  const wishes: Partial<Wishes> = {
    ...understood(() => optionAmbient(o.ambient)),
    ...number('collectorA', o.ic, 'A'),
    ...number('supplyV', o.supply, 'V'),
    ...number('forwardA', o.if, 'A'),
    ...(o.polarity === undefined ? {} : { polarity: o.polarity.toUpperCase() as 'NPN' }),
    ...(o.material === undefined ? {} : { material: capital(materialNamed(o.material)) as 'Ge' }),
    ...(o.family === undefined ? {} : { family: o.family.toLowerCase() as 'bjt' }),
  }
  if (faults.length > 0) throw new FaultError(faults)
  return wishes
}

/** The option that says a wish, for faults. */
const optionOf = {
  ambientC: 'ambient',
  ambientU: 'ambient',
  collectorA: 'ic',
  supplyV: 'supply',
  forwardA: 'if',
  polarity: 'polarity',
  material: 'material',
  family: 'family',
} as const satisfies Readonly<Record<keyof Wishes, keyof PlanOptions>>

/** A fault about a wish, said of the option and the text that was typed. */
function asTyped(fault: Fault, o: PlanOptions): Fault {
  if (fault.code !== 'bad-input' || !Object.hasOwn(optionOf, fault.place.field ?? '')) return fault
  const option = optionOf[fault.place.field as keyof Wishes]
  return { ...fault, place: { field: `--${option}` }, value: o[option] ?? fault.value }
}

/** The run sheet that was asked for. @throws {FaultError} with the options as they were typed */
export function planned(bench: Bench, tester: Tester, typeName: string, o: PlanOptions): RunSheet {
  const wishes = wishesOf(o)
  const [stray] = isUnknown(typeName) ? [] : (['polarity', 'material', 'family'] as const).filter((w) => o[w])
  if (stray !== undefined)
    throw badOption(`--${stray}`, o[stray]!, `is for an unknown part, and ${typeName} has its record`, 'Leave it out.')
  try {
    return planRun(bench, { tester, typeName, wishes })
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    throw new FaultError(error.faults.map((f) => asTyped(f, o)))
  }
}

/** Wishes that `run` takes as well, in the order of its help. */
const handedOn = ['ambient', 'book', 'ic', 'supply', 'if', 'polarity', 'material', 'family'] as const

/** How the readings of a plan are taken; nothing where the tester came from standard input. */
function runLines(typeName: string, o: PlanOptions): readonly string[] {
  if (o.tester === '-') return []
  const said = handedOn.flatMap((name) => (o[name] === undefined ? [] : [`--${name}`, quoted(o[name])]))
  const words = ['germane run', quoted(typeName), '--tester', quoted(o.tester ?? 'larkfield'), ...said]
  return ['', `To take the readings: ${words.join(' ')}`]
}

const quoted = (word: string): string => (/^[\w./+-]+$/.test(word) ? word : `"${word}"`)

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1).toLowerCase()

export function define(command: Command): void {
  command.argument('[type]', 'part type, such as 2N1305; "unknown" for an unmarked part')
  withJson(takesWishes(command))
    .option('--type <type>', 'the same as the argument')
    .option('--advice', 'print what to do when a step shows something odd')
    .option('--example', 'print a plan that works: 2N1305 on the Larkfield sample')
    .action(async (argument: string | undefined, o: PlanOptions) => {
      if (argument !== undefined && o.type !== undefined) throw clashFault(`The part type ${argument}`, '--type')
      const typeName = o.example === true ? '2N1305' : (argument ?? o.type)
      if (typeName === undefined)
        throw new FaultError({
          code: 'usage',
          problem: 'No part type was named',
          mend: 'Name one, such as 2N1305, or "unknown" for an unmarked part.',
        })
      await onBench(benchOptions(o), (bench) => {
        const { tester } = chosenTester(bench, o.example === true ? (o.tester ?? 'larkfield') : o.tester)
        const sheet = planned(bench, tester, typeName, o)
        if (o.json === true) printJson(sheet)
        else printLines([...sheetText(sheet, { advice: o.advice === true }), ...runLines(typeName, o)])
      })
    })
}
