import type { SaidFault } from '#api'
import { explain, type Fault, FaultError } from '#core/fault'

/** Faults with their sentences, as the page gets them. */
export const saidFaults = (faults: readonly Fault[]): SaidFault[] =>
  faults.map((fault) => ({ ...fault, sentence: explain(fault) }))

/** What a refused request is answered with, and the status that goes with it. */
export interface Refusal {
  readonly status: 400 | 401 | 403 | 404 | 409 | 413 | 415 | 421 | 429 | 500 | 503
  readonly faults: readonly Fault[]
}

/** A request that can't be answered, with its status. */
export class Refused extends Error {
  override readonly name = 'Refused'
  readonly refusal: Refusal
  constructor(status: Refusal['status'], problem: string, mend: string) {
    super(problem)
    this.refusal = { status, faults: [{ code: 'usage', problem, mend }] }
  }
}

/** What to answer to an error; one that is no fault is ours, and its text stays here. */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof Refused) return error.refusal
  if (!(error instanceof FaultError)) return { status: 500, faults: [internal] }
  return { status: statusOf(error.faults[0]), faults: error.faults }
}

const internal: Fault = {
  code: 'usage',
  problem: 'Germane itself failed, which it should never do',
  mend: 'What was acknowledged is in the book. The window germane serve runs in says more.',
}

function statusOf(fault: Fault | undefined): Refusal['status'] {
  switch (fault?.code) {
    case 'not-found':
      return 404
    case 'book':
    case 'file':
      return 503
    case 'usage':
      return 409
    default:
      return 400
  }
}
