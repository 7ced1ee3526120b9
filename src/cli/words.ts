import type { Fault } from '#core/fault'
import { nearNames } from '#core/text'

/** The fault of a word that is none of those an option takes, with the one it may have been meant for. */
export function notAmong(field: string, value: string, words: readonly string[]): Fault {
  const [near] = nearNames(value, words, 1)
  const guess = near === undefined ? '' : `Did you mean ${near}? `
  const mend = `${guess}Write one of: ${words.join(', ')}.`
  return { code: 'bad-input', place: { field }, value, problem: 'is not known here', mend }
}
