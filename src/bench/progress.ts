import { FaultError } from '#core/fault'

/** How long work tells how far it is, and whether it is to go on. */
export interface Progress {
  readonly tell: (done: number, of: number, say: string) => void
  readonly isCancelled: () => boolean
}

/** For work nobody watches. */
export const unwatched: Progress = { tell: () => undefined, isCancelled: () => false }

/** Thrown by work that was cancelled. */
export class Cancelled extends FaultError {
  constructor() {
    super({ code: 'usage', problem: 'It was cancelled', mend: 'Nothing of the step that was under way was kept.' })
  }
}

/** Tells how far it is. @throws {Cancelled} where it is to stop */
export function step(progress: Progress, done: number, of: number, say: string): void {
  if (progress.isCancelled()) throw new Cancelled()
  progress.tell(done, of, say)
}
