import type { ConditionSymbol, Conditions, Limit } from '#core/device'
import { heatDefaults } from '#core/physics'
import type { Bench } from './bench.ts'
import { rules } from './rule.ts'
import { say, sayConditions } from './say.ts'
import { materialWord, type Usual, type UsualSymbol, usual, usualSchottky } from './usual.ts'

/** What a part of this type is expected to show, in SI units, and where that comes from. */
export interface Expected {
  readonly min?: number
  readonly typ?: number
  readonly max?: number
  readonly from: string
}

const leakages = ['I_CBO', 'I_CES', 'I_CEO', 'I_EBO', 'I_R']

/** Other ways a record may name the same voltage. */
const alike: Readonly<Record<string, readonly string[]>> = {
  V_BE: ['V_BE', 'V_BE(on)'],
}

/** How far apart two conditions are: sum of the logarithms of their ratios, over the symbols both name. */
export function distance(a: Conditions, b: Conditions): number {
  let sum = 0
  for (const [symbol, x] of Object.entries(a)) {
    const y = b[symbol as ConditionSymbol]
    if (symbol === 'T' || symbol === 'f' || y === undefined) continue
    sum += x > 0 && y > 0 ? Math.abs(Math.log(x / y)) : x === y ? 0 : 1
  }
  return sum
}

/** Whether a limit holds near this room's temperature; one that names none is taken at 25 degC. */
export const isNearTemperature = (l: Limit, ambientC: number): boolean =>
  Math.abs((l.at.T ?? 25) - ambientC) <= rules.temperatureNearK

/** The limit of a symbol published nearest to a condition, at about this room's temperature. */
export function nearestLimit(b: Bench, symbol: string, at: Conditions): Limit | undefined {
  const names = alike[symbol] ?? [symbol]
  const fits = (b.partType?.limits ?? []).filter(
    (l) => names.includes(l.symbol) && isNearTemperature(l, b.wishes.ambientC),
  )
  return fits.reduce<Limit | undefined>(
    (best, l) => (best === undefined || distance(l.at, at) < distance(best.at, at) ? l : best),
    undefined,
  )
}

/** Leakage at this room's temperature over that at the temperature a limit names. */
const warmth = (b: Bench, atC: number): number => 2 ** ((b.wishes.ambientC - atC) / heatDefaults.leakageDoublingK)

const scaled = (values: Partial<Usual>, factor: number) => ({
  ...(values.min === undefined ? {} : { min: values.min * factor }),
  ...(values.typ === undefined ? {} : { typ: values.typ * factor }),
  ...(values.max === undefined ? {} : { max: values.max * factor }),
})

/** Where a published limit comes from, and how this run's condition differs. */
function fromLimit(l: Limit, at: Conditions, factor: number, ambientC: number): string {
  const { T: _, ...published } = l.at
  const conditions = sayConditions(published)
  const where = `published${conditions === '' ? '' : ` at ${conditions}`}`
  const differs = distance(l.at, at) > Math.log1p(rules.conditionShare)
  const warm = Math.abs(factor - 1) < 0.02 ? '' : `; brought to ${say(ambientC, 'degC')}, doubling each 10 K`
  return `${where}${differs ? `; this run reads at ${sayConditions(at)}` : ''}${warm}`
}

/** Values with the words for whose they are. */
interface UsualFor {
  readonly values: Partial<Usual>
  readonly what: string
}

/** Junction voltages of both materials, where it is the voltage that tells them apart. */
function eitherMaterial(symbol: UsualSymbol, isPower: boolean): UsualFor | undefined {
  if (symbol !== 'V_BE' && symbol !== 'V_F') return undefined
  const [ge, si] = [usual(symbol, 'Ge', isPower), usual(symbol, 'Si', isPower)]
  const span = (u: Usual): string => `${say(u.min ?? 0, 'V')} to ${say(Math.min(u.max, si.max), 'V')}`
  return {
    values: { min: ge.min ?? 0, max: si.max },
    what: `germanium (${span(ge)}) or silicon (${span(si)})`,
  }
}

/** The usual span of a symbol for this part's material. */
function usualFor(b: Bench, symbol: UsualSymbol): UsualFor {
  const isSchottky = /schottky/i.test(b.partType?.construction ?? '')
  if (isSchottky && (symbol === 'V_F' || symbol === 'I_R'))
    return { values: usualSchottky[symbol], what: 'a Schottky diode' }
  const tells = b.material === undefined ? eitherMaterial(symbol, b.isPower) : undefined
  if (tells !== undefined) return tells
  const size = b.kind === 'diode' ? '' : b.isPower ? 'power ' : 'small '
  const noun = b.kind === 'diode' ? 'diode' : 'transistor'
  return {
    values: usual(symbol, b.material, b.isPower),
    what: `a ${size}${b.material === undefined ? '' : `${materialWord(b.material)} `}${noun}`,
  }
}

/** The largest gain published of the part, small-signal or not; undefined where none is. */
function largestGain(b: Bench): number | undefined {
  const gains = (b.partType?.limits ?? []).filter((l) => l.symbol === 'h_FE' || l.symbol === 'h_fe')
  const known = gains.flatMap((l) => [l.max, l.typ, l.min]).filter((x) => x !== undefined)
  return known.length === 0 ? undefined : Math.max(...known)
}

/** Open-base leakage from the published open-emitter one: I_CEO = (1 + h_FE) I_CBO. */
function fromOpenEmitter(b: Bench): Expected | undefined {
  const base = nearestLimit(b, 'I_CBO', {})
  const factor = largestGain(b)
  if (base?.max === undefined || factor === undefined) return undefined
  const warm = warmth(b, base.at.T ?? 25)
  return {
    max: base.max * (1 + factor) * warm,
    from: `not published; I_CBO at most ${say(base.max, 'A')} times 1 + h_FE of ${say(factor, '1')}`,
  }
}

/**
 * What a part of this type shows at these conditions: its published limits, brought to this room's temperature where
 * they are leakages; else what is usual for the material.
 */
export function expected(b: Bench, symbol: UsualSymbol, at: Conditions): Expected {
  const isLeakage = leakages.includes(symbol)
  const limit = nearestLimit(b, symbol, at)
  if (limit !== undefined) {
    const factor = isLeakage ? warmth(b, limit.at.T ?? 25) : 1
    return { ...scaled(limit, factor), from: fromLimit(limit, at, factor, b.wishes.ambientC) }
  }
  const derived = symbol === 'I_CEO' ? fromOpenEmitter(b) : undefined
  if (derived !== undefined) return derived
  const { values, what } = usualFor(b, symbol)
  const factor = isLeakage ? warmth(b, 25) : 1
  return { ...scaled(values, factor), from: `usual for ${what} (common practice); nothing is published for this test` }
}
