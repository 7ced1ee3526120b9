import type { Tester } from '#core/tester'

/** Parts of the page of a tester's upkeep, in the order one goes through them. */
export const upkeepParts = {
  health: 'Health',
  calibration: 'Calibration',
  standards: 'Check standards',
  agreement: 'Two testers',
  hands: 'Several hands',
  dial: 'Gain dial',
  protection: 'Protection',
  cells: 'Cells',
} as const

export type UpkeepPart = keyof typeof upkeepParts

const isFor: Readonly<Partial<Record<UpkeepPart, (t: Tester) => boolean>>> = {
  dial: (t) => t.gain.kind === 'dial',
  protection: (t) => t.movement !== undefined,
  cells: (t) => t.supplies.some((s) => s.kind === 'cells'),
}

/** The parts that a tester has. */
export const partsFor = (t: Tester): readonly UpkeepPart[] =>
  (Object.keys(upkeepParts) as UpkeepPart[]).filter((part) => isFor[part]?.(t) ?? true)
