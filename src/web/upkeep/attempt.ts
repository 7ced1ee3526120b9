import { FaultError } from '#core/fault'
import { parseValue, type Unit } from '#core/quantity'

/** What came of something that may be refused: it, or the sentences of what is wrong. */
export type Attempt<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly faults: readonly string[] }

/** Does something that may be refused. */
export function attempt<T>(body: () => T): Attempt<T> {
  try {
    return { ok: true, value: body() }
  } catch (error) {
    if (error instanceof FaultError) return { ok: false, faults: error.message.split('\n') }
    throw error
  }
}

/** A value above 0 as typed; nothing where nothing is typed. */
export function positiveOf(text: string, unit: Unit): Attempt<number | undefined> {
  if (text.trim() === '') return { ok: true, value: undefined }
  const parsed = parseValue(text, { unit })
  if (!parsed.ok) return { ok: false, faults: [`“${text}” ${parsed.problem}. ${parsed.mend}`] }
  if (parsed.value > 0) return { ok: true, value: parsed.value }
  return { ok: false, faults: [`“${text}” is not above 0. Give a value above 0.`] }
}
