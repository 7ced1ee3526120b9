import type { Limit, PartType } from '#core/device'
import { exact, printPlain, type Quantity } from '#core/quantity'
import {
  type LeakageSymbol,
  lawMaterial,
  leakageToTemperature,
  leakageToVoltage,
  leakageVoltage,
  type Parameter,
  sameTemperatureK,
  sameVoltage,
} from '#core/reduce'
import { andThen, type Carried, carried, type Stage, type Stop } from './carried.ts'
import { later } from './later.ts'
import { apart, nearness, usualLimitC } from './nearness.ts'
import { junctionTemperature } from './temperature.ts'

/** Rating that bounds the voltage of a leakage. */
const breakdown = { I_CEO: 'V_CEO', I_CBO: 'V_CBO', I_CES: 'V_CES', I_EBO: 'V_EBO', I_R: 'V_R' } as const

/** A leakage at the voltage and temperature of a limit. */
export function carryLeakage(p: Parameter, limit: Limit, type: PartType): Carried {
  const start: Stage = { quantity: () => p.quantity, how: [], distance: 0 }
  const toVoltage = andThen(start, (s) => atVoltage(s, p, limit, type))
  return carried(andThen(toVoltage, (s) => atTemperature(s, p, limit, type)))
}

function atVoltage(s: Stage, p: Parameter, limit: Limit, type: PartType): Stage | Stop {
  const symbol = p.symbol as LeakageSymbol
  const key = leakageVoltage[symbol]
  const [fromV, toV] = [p.conditions[key], limit.at[key]]
  if (toV === undefined) return s
  const needs = (): string => `Measure ${symbol} at ${key} = ${printPlain(toV, 'V')}.`
  if (fromV === undefined || !(fromV > 0))
    return { why: () => `the voltage it was measured at was not written down`, needs }
  if (Math.abs(toV / fromV - 1) <= sameVoltage) return { ...s, how: [], distance: 0 }
  const rating = type.ratings[breakdown[symbol]]
  const climbs = toV > fromV && rating !== undefined && toV > nearness.breakdownShare * rating
  const far = apart(toV, fromV) > nearness.leakageVoltage
  const volts = (): string => `${printPlain(fromV, 'V', { digits: 3 })} to ${printPlain(toV, 'V', { digits: 3 })}`
  const distance = Math.log(apart(toV, fromV))
  if (far || climbs)
    return {
      quantity: s.quantity,
      bound: toV > fromV ? 'lower' : 'upper',
      how: [() => `from ${volts()} it can only ${toV > fromV ? 'rise' : 'fall'}, by how much no law says well enough`],
      distance: distance + 10,
      needs,
    }
  const material = lawMaterial(type)
  const specimen = { part: p.part, ...(material === undefined ? {} : { material }) }
  return {
    quantity: later(() => leakageToVoltage(symbol, s.quantity() as Quantity<'A'>, fromV, toV, specimen)),
    how: [() => `carried from ${volts()}, somewhere between unchanged and in proportion`],
    distance,
  }
}

function atTemperature(s: Stage, p: Parameter, limit: Limit, type: PartType): Stage | Stop {
  const toC = limit.at.T ?? usualLimitC
  const from = junctionTemperature(p)
  const step = toC - from.value
  const degrees = (): string =>
    `${printPlain(from.value, 'degC', { digits: 3 })} to ${printPlain(toC, 'degC', { digits: 3 })}`
  const needs = (): string => `Measure it at ${printPlain(toC, 'degC')}.`
  const material = lawMaterial(type)
  const distance = Math.abs(step) / 10
  if (material === undefined || Math.abs(step) > nearness.leakageK) {
    if (Math.abs(step) <= sameTemperatureK) return { ...s, how: [], distance: 0 }
    return {
      quantity: s.quantity,
      bound: step > 0 ? 'lower' : 'upper',
      how: [() => `from ${degrees()} it can only ${step > 0 ? 'rise' : 'fall'}, too far for a law to say by how much`],
      distance: distance + 10,
      needs,
    }
  }
  const to = exact(toC, 'degC', 'temperature of the limit')
  const specimen = { part: p.part, material }
  return {
    quantity: later(() =>
      leakageToTemperature(p.symbol as LeakageSymbol, s.quantity() as Quantity<'A'>, from, to, specimen),
    ),
    how: [() => `brought from ${degrees()}`],
    distance,
  }
}
