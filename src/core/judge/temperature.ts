import type { Limit, PartType } from '#core/device'
import { exact, leaf, printPlain, type Quantity, term, type Unit } from '#core/quantity'
import { lawMaterial, type Parameter, type Specimen } from '#core/reduce'
import type { Stage, Stop } from './carried.ts'
import { later } from './later.ts'
import { nearness, usualLimitC } from './nearness.ts'

/** Temperature of the junction a parameter was measured at; the room's where nothing more is known. */
export const junctionTemperature = (p: Parameter): Quantity<'degC'> =>
  p.junction ??
  leaf(p.temperatureC, 'degC', { kind: 'stated', what: 'temperature' }, [
    term('thermometer', { label: 'ambient temperature', u: 1, slope: p.temperatureU }),
  ])

/** Brings a value from one temperature to another: `gainToTemperature` and its like. */
type TemperatureLaw<U extends Unit> = (
  symbol: string,
  q: Quantity<U>,
  from: Quantity<'degC'>,
  to: Quantity<'degC'>,
  s: Specimen,
) => Quantity<U>

/** Brings a value to the temperature of a limit by a law that holds for a gentle step only. */
export function toLimitTemperature<U extends Unit>(
  s: Stage,
  p: Parameter,
  limit: Limit,
  { type, law }: { readonly type: PartType; readonly law: TemperatureLaw<U> },
): Stage | Stop {
  const toC = limit.at.T ?? usualLimitC
  const from = junctionTemperature(p)
  const material = lawMaterial(type)
  if (material === undefined)
    return { ...s, how: [() => 'its temperature law is not known, and was left out'], distance: 0 }
  const step = Math.abs(toC - from.value)
  const measuredAt = (): string => printPlain(from.value, 'degC', { digits: 3 })
  if (step > nearness.gentleK)
    return {
      why: () => `it was measured at ${measuredAt()}, and the limit holds at ${printPlain(toC, 'degC')}`,
      needs: () => `Measure it nearer to ${printPlain(toC, 'degC')}.`,
    }
  const to = exact(toC, 'degC', 'temperature of the limit')
  return {
    quantity: later(() => law(p.symbol, s.quantity() as Quantity<U>, from, to, { part: p.part, material })),
    how: [() => `brought from ${measuredAt()} to ${printPlain(toC, 'degC')}`],
    distance: step / 100,
  }
}
