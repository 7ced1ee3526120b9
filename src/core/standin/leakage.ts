import type { Limit, PartType } from '#core/device'
import { leakageDoublings, reverseDoublings } from '#core/physics'
import type { Known } from './known.ts'

/** Temperature a limit without one holds at, degC. */
const printedAtC = 25

/** Leakage of a type at a temperature, brought there by the doubling law of its material from the nearest published. */
export function leakageAt(type: PartType, temperatureC: number): Known | undefined {
  for (const symbol of type.family === 'diode' ? ['I_R'] : ['I_CBO', 'I_CES', 'I_CEO']) {
    const limit = nearest(type, symbol, temperatureC)
    if (limit === undefined) continue
    const by = risenBy(type, limit.at.T ?? printedAtC, temperatureC)
    if (by === undefined) return undefined
    return brought(limit, by, temperatureC)
  }
  return undefined
}

/**
 * How much more a type leaks at one temperature than at another, by the doubling law of its material; undefined for
 * other materials than germanium and silicon.
 */
export function risenBy(type: Pick<PartType, 'material' | 'family'>, fromC: number, toC: number): number | undefined {
  const { material, family } = type
  if (material !== 'Ge' && material !== 'Si') return fromC === toC ? 1 : undefined
  const doublings = family === 'diode' ? reverseDoublings : leakageDoublings
  return 2 ** ((toC - fromC) * doublings[material].centre)
}

function nearest(type: PartType, symbol: string, temperatureC: number): Limit | undefined {
  const far = (l: Limit): number => Math.abs((l.at.T ?? printedAtC) - temperatureC)
  return type.limits
    .filter((l) => l.symbol === symbol && (l.max ?? l.typ) !== undefined)
    .reduce<Limit | undefined>((a, b) => (a === undefined || far(b) < far(a) ? b : a), undefined)
}

/** I_CEO and I_CES hold more than I_CBO: their highest value bounds it as well. */
function brought({ symbol, typ, max, at }: Limit, by: number, temperatureC: number): Known {
  const from = at.T ?? printedAtC
  const how = `published ${symbol} at ${from} °C${from === temperatureC ? '' : `, brought to ${temperatureC} °C`}`
  return {
    ...(max === undefined ? {} : { high: max * by }),
    ...(typ === undefined ? {} : { usual: typ * by }),
    how,
  }
}
