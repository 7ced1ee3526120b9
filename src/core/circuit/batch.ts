import type { Circuit } from './circuit.ts'
import { type Compiled, type CompileOptions, compileCircuit } from './compile.ts'
import { reset, settle, solve } from './solve.ts'

/** How a batch went. */
export interface BatchOutcome {
  readonly solved: number
  /** Variations, counted from 0, for which no operating point was found. */
  readonly failed: readonly number[]
}

/**
 * Solves one circuit for many variations, each from the point of the one before; where that fails, from nothing with
 * every method. Nothing is allocated for a variation that settles at once.
 *
 * @param vary sets values, cards or temperature of the compiled circuit for variation k
 * @param take reads the point of variation k: `c.x` by `c.nodeRow`
 * @example solveMany(stage, 1000, (c, k) => setValue(c, 'RB', 470e3 + k), (c, k) => { out[k] = c.x[row]! })
 */
export function solveMany(
  circuit: Circuit,
  count: number,
  vary: (c: Compiled, k: number) => void,
  take: (c: Compiled, k: number) => void,
  options: CompileOptions = {},
): BatchOutcome {
  const c = compileCircuit(circuit, options)
  const failed: number[] = []
  for (let k = 0; k < count; k++) {
    vary(c, k)
    if (!settle(c)) {
      reset(c)
      if (!solve(c).converged) {
        failed.push(k)
        reset(c)
        continue
      }
    }
    take(c, k)
  }
  return { solved: count - failed.length, failed }
}
