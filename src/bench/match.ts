import { FaultError } from '#core/fault'
import { type MatchAnswer, type MatchRequest, matchParts, readMatchParts } from '#core/match'

/** Finds the sets that a request asks for among the parts of a table. @throws {FaultError} every fault of the table */
export function matchFile(input: { readonly text: string; readonly file: string }, request: MatchRequest): MatchAnswer {
  const numbers = request.by.map((one) => one.name)
  const labels = [...request.same, ...(request.across === undefined ? [] : [request.across])]
  const read = readMatchParts(input.text, { file: input.file, numbers, labels })
  if (!read.ok) throw new FaultError(read.faults)
  return matchParts(read.parts, request)
}

/** The document of sets, for scripts. */
export interface MatchDocument extends MatchAnswer {
  readonly format: 'germane/sets/1'
}

export const matchDocument = (answer: MatchAnswer): MatchDocument => ({ format: 'germane/sets/1', ...answer })
