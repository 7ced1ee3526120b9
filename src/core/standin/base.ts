import type { PartType } from '#core/device'

/** How leads come out of a case: along the axis, in a line, round a circle, or as pins of a case that is bolted down. */
export type BaseShape = 'axial' | 'line' | 'ring' | 'bolted'

/** The leads of a type as they are seen from below, where they go into the board. */
export interface Base {
  readonly shape: BaseShape
  /** Electrodes: from left to right in a line with the flat or printed side up, clockwise round a circle. */
  readonly leads: readonly string[]
  /** Leads beside the electrodes: shield, can. */
  readonly beside: readonly string[]
  /** Whether the case has a flat or printed side, which is drawn up. */
  readonly hasFront: boolean
}

/** Names of leads that are no electrode. */
const others: ReadonlySet<string> = new Set(['S', 'case'])

/**
 * The base of a type as its record has it. Leads that are told from the front, left to right, have the same order from
 * below with the front up.
 *
 * @returns undefined where the order or the side it is seen from is not settled
 */
export function baseOf({ leads, family }: PartType): Base | undefined {
  if (leads === undefined || leads.order === 'verify') return undefined
  const shape = shapeOf(leads.view)
  if (shape === undefined) return undefined
  const names = leads.order.split('-')
  const isTransistor = family === 'bjt'
  return {
    shape,
    leads: isTransistor ? names.filter((n) => !others.has(n)) : names,
    beside: isTransistor ? names.filter((n) => others.has(n)) : [],
    hasFront: /facing you/.test(leads.view),
  }
}

function shapeOf(view: string): BaseShape | undefined {
  if (/axial/.test(view)) return 'axial'
  if (/pin 1, pin 2, case/.test(view)) return 'bolted'
  if (/clockwise|triangle, bottom/.test(view)) return 'ring'
  if (/in line|facing you/.test(view)) return 'line'
  return undefined
}
