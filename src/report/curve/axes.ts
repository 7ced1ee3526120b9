import { type Held, isCurrent, type SweepSymbol, sweepName, unitOfSymbol } from '#core/curve'
import { printPlain } from '#core/quantity'
import type { Axis } from '#report/plot'

/** Axis of one quantity of a sweep; of two currents together simply a current. */
export function sweepAxis(symbols: readonly SweepSymbol[], kind: Axis['kind']): Axis {
  const [first] = symbols
  if (new Set(symbols).size === 1) return { symbol: first!, name: sweepName(first!), unit: unitOfSymbol(first!), kind }
  return { symbol: symbols.every(isCurrent) ? 'I' : 'V', name: 'current', unit: unitOfSymbol(first!), kind }
}

/** What was held, as it stands beside a line: `I_B 10 µA`. */
export const heldText = ({ symbol, value }: Held): string =>
  `${symbol} ${printPlain(value, unitOfSymbol(symbol), { digits: 3 })}`

/** Parts of one in percent. */
export const percentAxis = (name: string): Axis => ({ symbol: '', name, unit: '1', kind: 'linear' })

/** Things that share something, in the order in which it first stands. */
export function grouped<T, K>(all: readonly T[], of: (one: T) => K): readonly (readonly [K, readonly T[]])[] {
  const groups = new Map<K, T[]>()
  for (const one of all) {
    const known = groups.get(of(one))
    if (known === undefined) groups.set(of(one), [one])
    else known.push(one)
  }
  return [...groups]
}
