import type { Quantity, Source } from './quantity.ts'
import type { Unit } from './unit.ts'

/** A registered law: plain data with one function, so that it can be printed, checked and sampled. */
export interface Formula<
  I extends Readonly<Record<string, Unit>> = Readonly<Record<string, Unit>>,
  U extends Unit = Unit,
> {
  /** `module/kebab-name`, never reused; a changed formula gets a new id or version. */
  readonly id: string
  readonly version: number
  /** As printed in a working: `h_FE = (I_C - I_CEO) / I_B`. Input names stand for the symbols in `symbols`. */
  readonly text: string
  readonly unit: U
  readonly inputs: I
  /** Symbol of each input as it stands in `text`. */
  readonly symbols: { readonly [K in keyof I]: string }
  readonly source: Source
  readonly evaluate: (inputs: { readonly [K in keyof I]: number }) => number
  /** Partial derivatives; left out, they are found numerically. */
  readonly partials?: (inputs: { readonly [K in keyof I]: number }) => { readonly [K in keyof I]: number }
  /** Range of each input in which the law is meant to be used; laws are tested on random inputs from it. */
  readonly domain: { readonly [K in keyof I]: readonly [low: number, high: number] }
}

/** A formula of any inputs, as registries hold it. */
// biome-ignore lint/suspicious/noExplicitAny: a registry holds formulas of every input shape
export type AnyFormula = Formula<any, Unit>

/** Inputs of a formula, as quantities. */
export type InputsOf<F> = F extends Formula<infer I, Unit> ? { readonly [K in keyof I]: Quantity<I[K]> } : never

/** Declares a formula; the type parameters follow from the object. */
export const formula = <const I extends Readonly<Record<string, Unit>>, const U extends Unit>(
  f: Formula<I, U>,
): Formula<I, U> => f
