import type { Limit, PartType } from '#core/device'
import { derive, exact, leaf, printPlain, type Quantity } from '#core/quantity'
import {
  assumed,
  gainAtPoint,
  gainCurrentExponent,
  gainToTemperature,
  gainVoltageExponent,
  lawMaterial,
  type Parameter,
} from '#core/reduce'
import { andThen, type Carried, carried, type Stage, type Stop } from './carried.ts'
import { type Later, later } from './later.ts'
import { apart, nearness } from './nearness.ts'
import { toLimitTemperature } from './temperature.ts'

/** A gain at the operating point and temperature of a limit. */
export function carryGain(p: Parameter, limit: Limit, type: PartType): Carried {
  const isPlain = p.symbol === 'h_FE' && type.material === 'Ge'
  const how = isPlain ? [() => 'leakage was not measured and is not taken out'] : []
  const start: Stage = { quantity: () => p.quantity, how, distance: 0 }
  const slow = andThen(start, (s) => atFrequency(s, limit))
  const there = andThen(slow, (s) => atPoint(s, p, limit, type))
  return carried(andThen(there, (s) => toLimitTemperature(s, p, limit, { type, law: gainToTemperature })))
}

function atFrequency(s: Stage, limit: Limit): Stage | Stop {
  const { f } = limit.at
  if (f === undefined || f <= nearness.slowHz) return { ...s, how: [], distance: 0 }
  return {
    why: () => `the limit holds at ${printPlain(f, 'Hz')}, and readings of standing currents say nothing of that`,
    needs: () => 'It needs a test with alternating current.',
  }
}

/** Collector current and voltage a limit asks for; V_CB = 0 is a collector voltage equal to V_BE. */
function wanted(limit: Limit, type: PartType): { readonly currentA?: number; readonly voltageV?: number } {
  const { I_C, I_E, V_CE, V_CB } = limit.at
  const currentA = I_C ?? I_E
  const baseV = type.material === 'Ge' ? 0.2 : 0.65
  const voltageV = V_CE ?? (V_CB === undefined ? undefined : V_CB + baseV)
  return { ...(currentA === undefined ? {} : { currentA }), ...(voltageV === undefined ? {} : { voltageV }) }
}

function atPoint(s: Stage, p: Parameter, limit: Limit, type: PartType): Stage | Stop {
  const { currentA, voltageV } = wanted(limit, type)
  const from = p.conditions
  const needs = (): string => `Measure ${limit.symbol} at ${conditionText(currentA, voltageV)}.`
  if (currentA !== undefined && from.I_C === undefined)
    return { why: () => 'the collector current it was measured at is not known', needs }
  const current = currentA === undefined || from.I_C === undefined ? undefined : ([from.I_C, currentA] as const)
  if (current !== undefined && !(current[0] > 0 && apart(...current) <= nearness.gainCurrent))
    return tooFar(current, needs)
  const fromV = from.V_CE ?? nearness.usualV
  if (voltageV !== undefined && voltageV < nearness.saturationV && fromV > nearness.saturationV)
    return saturated(s, voltageV, fromV, needs)
  if (voltageV !== undefined && !(fromV > 0 && apart(fromV, voltageV) <= nearness.gainVoltage))
    return {
      why: () =>
        `it was measured at V_CE = ${printPlain(fromV, 'V', { digits: 3 })}, and the limit asks ${printPlain(voltageV, 'V', { digits: 3 })}`,
      needs,
    }
  return moved(s, p, type, current, voltageV === undefined ? undefined : [fromV, voltageV])
}

const conditionText = (currentA: number | undefined, voltageV: number | undefined): string =>
  [
    currentA === undefined ? '' : `I_C = ${printPlain(currentA, 'A')}`,
    voltageV === undefined ? '' : `V_CE = ${printPlain(voltageV, 'V')}`,
  ]
    .filter((t) => t !== '')
    .join(' and ')

function tooFar([fromA, toA]: readonly [number, number], needs: Later<string>): Stop {
  const [low, high] = [toA / nearness.gainCurrent, toA * nearness.gainCurrent]
  return {
    why: () =>
      `it was measured at I_C = ${printPlain(fromA, 'A', { digits: 3 })}, too far from ${printPlain(toA, 'A', { digits: 3 })} for a law to carry it`,
    needs: () =>
      `${needs()} Anything from ${printPlain(low, 'A', { digits: 2 })} to ${printPlain(high, 'A', { digits: 2 })} can be carried.`,
  }
}

/** At the edge of saturation gain is never more than with voltage to spare. */
const saturated = (s: Stage, voltageV: number, fromV: number, needs: Later<string>): Stage => ({
  quantity: s.quantity,
  bound: 'upper',
  how: [
    () =>
      `at V_CE = ${printPlain(voltageV, 'V', { digits: 3 })}, the edge of saturation, the gain is at most that at ${printPlain(fromV, 'V', { digits: 3 })}`,
  ],
  distance: 10,
  needs,
})

type Change = readonly [from: number, to: number]

function moved(
  s: Stage,
  p: Parameter,
  type: PartType,
  current: Change | undefined,
  voltage: Change | undefined,
): Stage {
  const isSame = (c: Change | undefined): boolean => c === undefined || apart(...c) <= 1 + nearness.sameCurrent
  if (isSame(current) && isSame(voltage))
    return { quantity: s.quantity, how: [], distance: distanceOf(current, voltage) }
  const [current1, current2] = isSame(current) ? [1, 1] : current!
  const [voltage1, voltage2] = isSame(voltage) ? [1, 1] : voltage!
  const material = lawMaterial(type) ?? 'Si'
  const quantity = later(() =>
    derive(
      gainAtPoint,
      {
        gain: s.quantity() as Quantity<'1'>,
        current1: exact(current1, 'A', 'I_C measured at'),
        current2: exact(current2, 'A', 'I_C of the limit'),
        power: assumed(gainCurrentExponent, '1', `law/gain-current/${p.part}`),
        voltage1: measuredVoltage(p, voltage1),
        voltage2: exact(voltage2, 'V', 'V_CE of the limit'),
        slope: assumed(gainVoltageExponent[material], '1', `law/gain-voltage/${p.part}`),
      },
      p.symbol,
    ),
  )
  const how = [
    ...(isSame(current) ? [] : [() => `carried from I_C = ${changeText(current!, 'A')}`]),
    ...(isSame(voltage)
      ? []
      : [() => `carried from V_CE = ${changeText(voltage!, 'V')}${isUnwritten(p) ? ' (taken for granted)' : ''}`]),
  ]
  return { quantity, how, distance: distanceOf(current, voltage) }
}

const isUnwritten = (p: Parameter): boolean => p.conditions.V_CE === undefined

const measuredVoltage = (p: Parameter, voltage: number): Quantity<'V'> =>
  isUnwritten(p)
    ? leaf(voltage, 'V', { kind: 'assumed', what: 'V_CE measured at', why: 'nobody wrote it down' })
    : exact(voltage, 'V', 'V_CE measured at')

const changeText = ([from, to]: Change, unit: 'A' | 'V'): string =>
  `${printPlain(from, unit, { digits: 3 })} to ${printPlain(to, unit, { digits: 3 })}`

/** Voltage counts a fifth of current: gain follows it far less. */
const distanceOf = (current: Change | undefined, voltage: Change | undefined): number =>
  (current === undefined ? 0 : Math.log(apart(...current))) +
  (voltage === undefined ? 0 : 0.2 * Math.log(apart(...voltage)))
