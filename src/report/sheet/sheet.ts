import type { CoursePlot } from '#report/plot'
import type { Outcome } from '#report/typeset'

/** A table of texts; a head that begins with `>` stands over numbers. */
export interface SheetTable {
  readonly kind: 'table'
  readonly caption: string
  readonly head: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

export interface SheetPlot {
  readonly kind: 'plot'
  readonly caption: string
  readonly plot: CoursePlot
}

export interface SheetProse {
  readonly kind: 'prose'
  readonly heading: string
  readonly lines: readonly string[]
}

/** A drawing made elsewhere, as SVG. */
export interface SheetDrawing {
  readonly kind: 'drawing'
  readonly caption: string
  readonly svg: string
}

export interface SheetPhoto {
  readonly kind: 'photo'
  readonly caption: string
  readonly type: string
  readonly base64: string
}

export type SheetBlock = SheetTable | SheetPlot | SheetProse | SheetDrawing | SheetPhoto

/**
 * One page about the tester itself, or a job: a comparison, a chart, a certificate. Terminal, page and file print the same sheet,
 * so that they say the same.
 */
export interface Sheet {
  /** What sort of page it is: "Two testers compared". */
  readonly kind: string
  readonly title: string
  /** What matters, first. */
  readonly lead: readonly { readonly outcome?: Outcome; readonly say: string }[]
  readonly facts: readonly (readonly [name: string, text: string])[]
  readonly blocks: readonly SheetBlock[]
  /** How it was computed and what was left out. */
  readonly notes: readonly string[]
}
