import type { AnyFormula } from '#core/quantity'

/** Trials computed together; small enough that all columns of a derivation stay near the processor. */
export const blockSize = 2048

/**
 * Evaluates a formula over columns of inputs. Its one argument object has properties that read the current row, so that
 * nothing is allocated per trial; it is kept with the formula, so that compiled code meets one shape of object for ever.
 */
export class FormulaRows {
  readonly formula: AnyFormula
  readonly #columns: Float64Array[]
  readonly #row: Record<string, number> = {}
  #at = 0

  private constructor(formula: AnyFormula) {
    this.formula = formula
    const names = Object.keys(formula.inputs)
    this.#columns = names.map(() => new Float64Array(0))
    for (const [k, name] of names.entries())
      Object.defineProperty(this.#row, name, { enumerable: true, get: () => this.#columns[k]![this.#at]! })
  }

  static of(formula: AnyFormula): FormulaRows {
    const known = kept.get(formula)
    if (known !== undefined) return known
    const made = new FormulaRows(formula)
    kept.set(formula, made)
    return made
  }

  /** @param inputs a column for each input, in the order the formula lists them */
  evaluate(inputs: readonly Float64Array[], into: Float64Array, count: number = into.length): void {
    for (const [k, c] of inputs.entries()) this.#columns[k] = c
    const { evaluate } = this.formula
    for (let i = 0; i < count; i++) {
      this.#at = i
      into[i] = evaluate(this.#row)
    }
  }
}

const kept = new WeakMap<AnyFormula, FormulaRows>()
