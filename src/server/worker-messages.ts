import type { WorkBody } from '#api'
import type { Fault } from '#core/fault'

/** What a thread is to do. */
export interface WorkerTask {
  readonly bookFile: string
  readonly wanted: WorkBody
  /** Becomes 1 when it is to stop. */
  readonly flag: Int32Array
}

/** What a thread made. */
export interface Made {
  readonly run?: number
  readonly parts?: number
  /** HTML. */
  readonly page?: string
  readonly notes?: string[]
}

/** What a thread tells. */
export type FromWorker =
  | { readonly kind: 'progress'; readonly done: number; readonly of: number; readonly say: string }
  | { readonly kind: 'made'; readonly made: Made }
  | { readonly kind: 'failed'; readonly faults: readonly Fault[] }
  | { readonly kind: 'cancelled' }
