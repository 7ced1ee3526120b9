import { type Outcome, outcomes } from '#report/typeset'
import { type Parts, wordAt } from './parts.ts'

const none = outcomes.indexOf('not judged')

/** Number of the outcome of each row, among `outcomes`: a short or an open part is that, whatever else was read. */
export function outcomeNumbers(parts: Parts): (row: number) => number {
  const { words, at } = parts.words.verdicts
  const numbers = words.map((w) => outcomes.indexOf(w as Outcome))
  return (row) => {
    const state = wordAt(parts, 'states', row)
    if (state === 'short' || state === 'open') return outcomes.indexOf(state)
    return numbers[at[row]!] ?? none
  }
}

/** Outcomes that occur, in their usual order. */
export function outcomesOf(parts: Parts): readonly Outcome[] {
  const numberOf = outcomeNumbers(parts)
  const found = new Set<number>()
  for (let row = 0; row < parts.count && found.size < outcomes.length; row++) found.add(numberOf(row))
  return outcomes.filter((_, i) => found.has(i))
}

/** Drops the rows that came out otherwise. */
export function keepOutcome(parts: Parts, wanted: string, keep: Uint8Array): void {
  const number = outcomes.indexOf(wanted as Outcome)
  const numberOf = outcomeNumbers(parts)
  for (let row = 0; row < keep.length; row++) if (keep[row] === 1 && numberOf(row) !== number) keep[row] = 0
}
