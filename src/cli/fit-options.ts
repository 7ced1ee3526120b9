import type { HandWishes } from '#bench'
import { FaultError } from '#core/fault'
import type { RobustKind } from '#core/numeric'
import { parseValue } from '#core/quantity'
import { pairs } from './curve-files.ts'
import { badOption, deviceTemperature, optionValue } from './options.ts'

/** Options of `fit` that bear on the few readings of a hand run. */
export interface HandOptions {
  readonly hand?: boolean
  readonly common?: string
  readonly space?: 'linear' | 'log'
  readonly robust?: RobustKind
  readonly bound?: readonly string[]
}

/** A number, with its standard uncertainty where it is written so. */
export interface Stated {
  readonly value: number
  readonly u?: number
}

/** The errors that are known of a hand run; doubts that only such a fit counts are refused without it. */
export function handOf(
  o: HandOptions,
  fixed: Readonly<Record<string, Stated>>,
  temperature?: Stated,
): HandWishes | undefined {
  const fixU = Object.fromEntries(Object.entries(fixed).flatMap(([s, q]) => (q.u === undefined ? [] : [[s, q.u]])))
  if (o.hand !== true) {
    const option = o.common === undefined ? (temperature?.u === undefined ? undefined : '--temperature') : '--common'
    const doubted = option ?? (Object.keys(fixU).length === 0 ? undefined : '--fix')
    if (doubted === undefined) return undefined
    throw new FaultError({
      code: 'usage',
      problem: `${doubted} states an uncertainty that only the fit of a hand run counts`,
      mend: 'Add --hand, or leave the uncertainty out.',
    })
  }
  refuseBeside(o)
  return {
    fixU,
    ...(temperature?.u === undefined ? {} : { temperatureU: temperature.u }),
    ...(o.common === undefined ? {} : { common: partOf('--common', o.common) }),
  }
}

/** Wishes that a hand run has no use for. */
function refuseBeside(o: HandOptions): void {
  const given = [o.robust && '--robust', o.space === 'linear' && '--space linear', o.bound && '--bound']
  const option = given.find((name) => typeof name === 'string')
  if (option === undefined) return
  throw new FaultError({
    code: 'usage',
    problem: `${option} does not go with --hand`,
    mend: 'A hand run weighs the logarithms of its few currents by all their errors: leave it out.',
  })
}

/** A temperature of a part, degC. @throws {FaultError} */
export const statedTemperature = (text: string): Stated => ({
  ...optionValue('--temperature', text, 'degC'),
  value: deviceTemperature('--temperature', text, 'part'),
})

/** Values to hold, by symbol. @throws {FaultError} naming what is no value */
export const fixedValues = (all: readonly string[]): Readonly<Record<string, Stated>> =>
  Object.fromEntries(
    Object.entries(pairs('--fix', all, 'Write for example n=1.')).map(([s, v]) => [s, statedOf('--fix', v)]),
  )

/** A number in SI units, with its uncertainty where it is written so. */
function statedOf(option: string, text: string): Stated {
  const value = Number(text)
  if (Number.isFinite(value)) return { value }
  const parsed = parseValue(text, { unit: '1' })
  if (parsed.ok) return parsed
  throw badOption(option, text, 'is not a number', 'Write it in SI units, such as I_S=2e-9 or R_S=0.8(2).')
}

/** Lowest and highest values, by symbol. @throws {FaultError} naming what is no span */
export const boundsOf = (all: readonly string[]): Readonly<Record<string, readonly [low: number, high: number]>> =>
  Object.fromEntries(Object.entries(pairs('--bound', all, spanMend)).map(([s, v]) => [s, spanOf(v)]))

const spanMend = 'Write for example n=1:2, or R_S=0: with one end open.'

function spanOf(text: string): readonly [low: number, high: number] {
  const [low = '', high, ...more] = text.split(':').map((end) => end.trim())
  const span = [
    low === '' ? Number.NEGATIVE_INFINITY : Number(low),
    high === '' ? Number.POSITIVE_INFINITY : Number(high),
  ] as const
  if (high !== undefined && more.length === 0 && span[0] < span[1]) return span
  throw badOption('--bound', text, 'is no span from low to high', spanMend)
}

/** A part of a reading, above 0 and below 1. @throws {FaultError} */
export function partOf(option: string, text: string): number {
  const { value } = optionValue(option, text, '1')
  if (value > 0 && value < 1) return value
  throw badOption(option, text, 'is not a part of a reading', 'Write for example 1 %.')
}
