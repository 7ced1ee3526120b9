import {
  baseVoltageSlope,
  type DoubtfulNumber,
  forwardVoltageSlope,
  gainAtTemperature,
  gainSlope,
  type LawMaterial,
  leakageAtTemperature,
  leakageDoublings,
  openBaseDoublings,
  reverseDoublings,
  voltageAtTemperature,
} from '#core/physics'
import { derive, exact, type Quantity } from '#core/quantity'
import { leakageAtVoltage } from './carry-law.ts'
import { assumed, leakageExponent, openBaseExponent } from './law-number.ts'

/** Leakage symbols, and the voltage each is measured at. */
export const leakageVoltage = {
  I_CEO: 'V_CE',
  I_CBO: 'V_CB',
  I_CES: 'V_CE',
  I_EBO: 'V_EB',
  I_R: 'V_R',
} as const
export type LeakageSymbol = keyof typeof leakageVoltage

/** Whether a symbol names a leakage. */
export const isLeakage = (symbol: string): symbol is LeakageSymbol => Object.hasOwn(leakageVoltage, symbol)

/** Whose law numbers are meant: they are a part's own, so that two parts do not share their doubt. */
export interface Specimen {
  readonly part: string
  readonly material: LawMaterial
}

const doublingsOf = (symbol: LeakageSymbol, material: LawMaterial): DoubtfulNumber =>
  (symbol === 'I_CEO' ? openBaseDoublings : symbol === 'I_R' ? reverseDoublings : leakageDoublings)[material]

/** A leakage at another temperature, the doublings in its budget. */
export const leakageToTemperature = (
  symbol: LeakageSymbol,
  current: Quantity<'A'>,
  from: Quantity<'degC'>,
  to: Quantity<'degC'>,
  s: Specimen,
): Quantity<'A'> =>
  derive(
    leakageAtTemperature,
    {
      current,
      from,
      to,
      doublings: assumed(doublingsOf(symbol, s.material), '1/K', `law/doublings/${symbol}/${s.part}`),
    },
    symbol,
  )

/** A leakage at another voltage, the exponent in its budget. */
export const leakageToVoltage = (
  symbol: LeakageSymbol,
  current: Quantity<'A'>,
  fromV: number,
  toV: number,
  s: Pick<Specimen, 'part'> & Partial<Specimen>,
): Quantity<'A'> => {
  const exponent = symbol === 'I_CEO' ? openBaseExponent[s.material ?? 'Ge'] : leakageExponent
  return derive(
    leakageAtVoltage,
    {
      current,
      from: exact(fromV, 'V', `${leakageVoltage[symbol]} measured at`),
      to: exact(toV, 'V', `${leakageVoltage[symbol]} wanted`),
      exponent: assumed(exponent, '1', `law/voltage-exponent/${symbol}/${s.part}`),
    },
    symbol,
  )
}

/** V_BE or V_F at another temperature and the same current. */
export const voltageToTemperature = (
  symbol: string,
  voltage: Quantity<'V'>,
  from: Quantity<'degC'>,
  to: Quantity<'degC'>,
  s: Specimen,
): Quantity<'V'> => {
  const slope = (symbol === 'V_F' ? forwardVoltageSlope : baseVoltageSlope)[s.material]
  return derive(
    voltageAtTemperature,
    { voltage, from, to, slope: assumed(slope, 'V/K', `law/voltage-slope/${symbol}/${s.part}`) },
    symbol,
  )
}

/** A gain at another temperature and the same current. */
export const gainToTemperature = (
  symbol: string,
  gain: Quantity<'1'>,
  from: Quantity<'degC'>,
  to: Quantity<'degC'>,
  s: Specimen,
): Quantity<'1'> =>
  derive(
    gainAtTemperature,
    { gain, from, to, slope: assumed(gainSlope[s.material], '1/K', `law/gain-slope/${s.part}`) },
    symbol,
  )

const gains = ['h_FE', 'h_FE0', 'h_FE0(I_CBO)', 'h_fe']

/** A parameter at another temperature, by the law of its symbol; undefined where no law is known. */
export function toTemperature(
  symbol: string,
  q: Quantity,
  from: Quantity<'degC'>,
  to: Quantity<'degC'>,
  s: Specimen,
): Quantity | undefined {
  if (isLeakage(symbol)) return leakageToTemperature(symbol, q as Quantity<'A'>, from, to, s)
  if (symbol === 'V_BE' || symbol === 'V_F') return voltageToTemperature(symbol, q as Quantity<'V'>, from, to, s)
  if (gains.includes(symbol)) return gainToTemperature(symbol, q as Quantity<'1'>, from, to, s)
  return undefined
}
