import type { ConditionSymbol, Limit, PartType } from '#core/device'
import { derive, exact, printPlain, type Quantity } from '#core/quantity'
import {
  assumed,
  baseIdealityLoaded,
  diodeIdeality,
  kelvinOf,
  type Parameter,
  voltageAtCurrent,
  voltageToTemperature,
} from '#core/reduce'
import { andThen, type Carried, carried, type Stage, type Stop } from './carried.ts'
import { later } from './later.ts'
import { apart, nearness } from './nearness.ts'
import { junctionTemperature, toLimitTemperature } from './temperature.ts'

/** V_BE or V_F at the current and temperature of a limit. */
export function carryJunctionVoltage(p: Parameter, limit: Limit, type: PartType): Carried {
  const start: Stage = { quantity: () => p.quantity, how: [], distance: 0 }
  const there = andThen(start, (s) => atCurrent(s, p, limit))
  return carried(andThen(there, (s) => toLimitTemperature(s, p, limit, { type, law: voltageToTemperature })))
}

function atCurrent(s: Stage, p: Parameter, limit: Limit): Stage | Stop {
  const key = p.symbol === 'V_F' ? 'I_F' : 'I_C'
  const [from, to] = [p.conditions[key], limit.at[key]]
  if (to === undefined) return { ...s, how: [], distance: 0 }
  const needs = (): string => `Measure ${limit.symbol} at ${key} = ${printPlain(to, 'A')}.`
  if (from === undefined || !(from > 0)) return { why: () => `the ${key} it was measured at is not known`, needs }
  const ratio = apart(from, to)
  const currents = (): string =>
    `${key} = ${printPlain(from, 'A', { digits: 3 })} to ${printPlain(to, 'A', { digits: 3 })}`
  if (ratio <= 1.02) return { ...s, how: [], distance: 0 }
  if (ratio > nearness.junctionCurrent)
    return {
      quantity: s.quantity,
      bound: to > from ? 'lower' : 'upper',
      how: [
        () => `from ${currents()} it can only ${to > from ? 'rise' : 'fall'}, too far for a law to say by how much`,
      ],
      distance: 10 + Math.log(ratio),
      needs,
    }
  const n = p.symbol === 'V_F' ? diodeIdeality : baseIdealityLoaded
  const quantity = later(() =>
    derive(
      voltageAtCurrent,
      {
        voltage: s.quantity() as Quantity<'V'>,
        ideality: assumed(n, '1', `law/ideality/${p.part}`),
        temperature: derive(kelvinOf, { celsius: junctionTemperature(p) }),
        from: exact(from, 'A', `${key} measured at`),
        to: exact(to, 'A', `${key} of the limit`),
      },
      p.symbol,
    ),
  )
  return { quantity, how: [() => `carried from ${currents()}`], distance: Math.log(ratio) }
}

/** V_CE(sat): no law carries it, but it rises with collector current and falls with base current. */
export function carrySaturation(p: Parameter, limit: Limit): Carried {
  const needs = (): string =>
    `Measure ${limit.symbol} at ${(['I_C', 'I_B'] as const)
      .filter((k) => limit.at[k] !== undefined)
      .map((k) => `${k} = ${printPlain(limit.at[k]!, 'A')}`)
      .join(' and ')}.`
  const sides = [sideOf(p, limit, 'I_C', 'lower'), sideOf(p, limit, 'I_B', 'upper')]
  if (sides.includes('unknown'))
    return { kind: 'not comparable', why: () => 'the currents it was measured at are not known', needs }
  const bounds = [...new Set(sides.filter((x) => x === 'lower' || x === 'upper'))]
  if (bounds.length === 0) return { kind: 'at', quantity: () => p.quantity, how: [], distance: 0 }
  if (bounds.length === 2)
    return { kind: 'not comparable', why: () => 'it was measured with other currents than the limit asks', needs }
  const how =
    bounds[0] === 'upper'
      ? 'measured under harder conditions than the limit asks: at the limit it can only be lower'
      : 'measured under easier conditions than the limit asks: at the limit it can only be higher'
  return { kind: bounds[0]!, quantity: () => p.quantity, how: [() => how], distance: 10, needs }
}

type Side = 'same' | 'lower' | 'upper' | 'unknown'

/** What a larger limit current than the measured one makes of the measured value. */
function sideOf(p: Parameter, limit: Limit, key: ConditionSymbol, whenMore: 'lower' | 'upper'): Side {
  const [from, to] = [p.conditions[key], limit.at[key]]
  if (to === undefined) return 'same'
  if (from === undefined || !(from > 0)) return 'unknown'
  if (apart(from, to) <= 1 + nearness.sameCurrent) return 'same'
  const isMore = to > from
  return isMore === (whenMore === 'lower') ? 'lower' : 'upper'
}

/** A small-signal parameter: directly at the limit's current and voltage, else not. */
export function carrySmallSignal(p: Parameter, limit: Limit): Carried {
  const to = limit.at.I_C ?? limit.at.I_E
  const from = p.conditions.I_C
  const near = to === undefined || (from !== undefined && from > 0 && apart(from, to) <= 1 + 2 * nearness.sameCurrent)
  if (near) return { kind: 'at', quantity: () => p.quantity, how: [() => 'temperature left out'], distance: 0 }
  return {
    kind: 'not comparable',
    why: () => 'it follows the collector current, and was measured at another',
    needs: () => `Take two points about I_C = ${printPlain(to, 'A')}.`,
  }
}
