import type { Gap, Step } from './sheet.ts'

/** Steps that belong together, from power off to the reading. */
export interface Group {
  readonly steps: readonly Step[]
  /** Whether it warms the part noticeably. */
  readonly warms: boolean
  /** Whether its safe time is reckoned from a cool part. */
  readonly needsCool: boolean
}

/** A group of steps that leaves the part as cool as it was. */
export const coolGroup = (steps: readonly Step[]): Group => ({ steps, warms: false, needsCool: false })

/** A piece of a plan: what to do, and what cannot be had. */
export interface Piece {
  readonly groups: readonly Group[]
  readonly gaps: readonly Gap[]
}

export const nothing: Piece = { groups: [], gaps: [] }

/** Pieces one after the other. */
export const together = (pieces: readonly Piece[]): Piece => ({
  groups: pieces.flatMap((p) => p.groups),
  gaps: pieces.flatMap((p) => p.gaps),
})

/** A piece that is one gap. */
export const gapPiece = (symbol: string, why: string, mend?: string): Piece => ({
  groups: [],
  gaps: [{ symbol, why, ...(mend === undefined ? {} : { mend }) }],
})
