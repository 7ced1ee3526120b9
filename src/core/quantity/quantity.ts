import type { Unit } from './unit.ts'

/**
 * The shape of a cause's error. `t` is a normal estimate known from few readings: in random sampling it is drawn from
 * the scaled t distribution with the cause's degrees of freedom (JCGM 101:2008, 6.4.9).
 */
export type Distribution = 'normal' | 'rectangular' | 'triangular' | 'arcsine' | 't'

/** One line of a budget: how far one named cause moves this value. Terms with the same `cause` are the same error. */
export interface Term {
  /** Identity of the cause. The same id in two quantities means one shared error. */
  readonly cause: string
  /** What it is, for people: "class 2 movement". */
  readonly label: string
  /** Change of the quantity (in its unit) for one unit of the cause. */
  readonly slope: number
  /** Standard uncertainty of the cause, in the cause's own unit. */
  readonly u: number
  /** Degrees of freedom; left out when they are infinite. */
  readonly dof?: number
  readonly distribution: Distribution
}

/** Correlation between two causes, where it is known from repeated readings taken together (JCGM 100:2008, 5.2). */
export interface Correlation {
  readonly a: string
  readonly b: string
  readonly r: number
}

/** Where a published fact comes from. */
export interface Source {
  readonly title: string
  readonly where?: string
  /** `common practice` and `from memory` are said wherever the value is shown. */
  readonly standing?: 'published' | 'common practice' | 'from memory'
}

/** Where a quantity comes from. */
export type Origin =
  /** Read off an instrument; `seen` is what the person typed. */
  | { readonly kind: 'read'; readonly what: string; readonly seen: string }
  /** Stated by a document or a description. */
  | { readonly kind: 'stated'; readonly what: string; readonly source?: Source }
  /** Taken for granted, and why. */
  | { readonly kind: 'assumed'; readonly what: string; readonly why: string }
  | {
      readonly kind: 'derived'
      readonly what: string
      /** Formula id, `module/kebab-name`. */
      readonly formula: string
      readonly version: number
      readonly inputs: Readonly<Record<string, Quantity>>
    }

/** A number we can defend: value, unit, budget of named causes, and where all of them came from. Plain JSON. */
export interface Quantity<U extends Unit = Unit> {
  readonly value: number
  readonly unit: U
  readonly budget: readonly Term[]
  readonly correlations?: readonly Correlation[]
  readonly origin: Origin
}
