import { FaultError } from '#core/fault'
import { nearNames } from '#core/text'

/** The fault for a name that the book does not have, with the names that look like it. */
export const notInBook = (what: string, name: string, known: readonly string[]): FaultError =>
  new FaultError({ code: 'not-found', what: `${what} in the book`, name, near: nearNames(name, known) })
