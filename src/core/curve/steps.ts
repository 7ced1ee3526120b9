import { isCurrent, type SweepSymbol } from './sweep.ts'

/** Currents nearer than this part of them count as the same step of a family; readings of a set current differ so much. */
const nearCurrent = 0.03

/** Voltages nearer than this, V, or than the part below of the largest, count as the same step. */
const nearVoltage = 1e-3
const nearVoltagePart = 0.003

/** Whether two values of what was held count as one. */
export function isSameStep(symbol: SweepSymbol, a: number, b: number, largest: number): boolean {
  const apart = Math.abs(a - b)
  if (isCurrent(symbol)) return apart <= nearCurrent * Math.max(Math.abs(a), Math.abs(b))
  return apart <= Math.max(nearVoltage, nearVoltagePart * largest)
}

/** Things in groups of one step each, by the value that was held; the groups in the order of that value. */
export function bySteps<T>(
  all: readonly T[],
  symbol: SweepSymbol,
  heldOf: (one: T) => number,
): readonly { readonly value: number; readonly members: readonly T[] }[] {
  const sorted = [...all].sort((a, b) => heldOf(a) - heldOf(b))
  const largest = sorted.reduce((m, one) => Math.max(m, Math.abs(heldOf(one))), 0)
  const groups: T[][] = []
  for (const one of sorted) {
    const group = groups.at(-1)
    if (group !== undefined && isSameStep(symbol, heldOf(group[0]!), heldOf(one), largest)) group.push(one)
    else groups.push([one])
  }
  return groups.map((members) => ({ value: heldOf(members[members.length >> 1]!), members }))
}
