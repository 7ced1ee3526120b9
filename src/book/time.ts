import { FaultError } from '#core/fault'

const shape = /^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})?)?$/

/** The book keeps no clock: each time comes from the caller, as ISO date and time. */
export function requireTime(at: string): void {
  if (!shape.test(at) || Number.isNaN(Date.parse(at)))
    throw new FaultError({ code: 'out-of-domain', name: 'time', value: at, allowed: 'an ISO date and time' })
}
