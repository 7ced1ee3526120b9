import { FaultError } from '#core/fault'
import { cholesky, Random } from '#core/numeric'
import type { AnyFormula, Correlation, Quantity, Term } from '#core/quantity'
import { blockSize, FormulaRows } from './formula-rows.ts'

/** Errors of one cause in units of its standard uncertainty, for the trials of one block. */
export interface CauseColumn {
  readonly random: Random
  readonly distribution: Term['distribution']
  readonly dof: number
  readonly column: Float64Array
}

/** A value read, stated or assumed, moved by its causes. */
interface LeafColumn {
  readonly value: number
  readonly parts: readonly { readonly weight: number; readonly cause: Float64Array }[]
  readonly column: Float64Array
}

interface DerivedColumn {
  readonly rows: FormulaRows
  readonly inputs: readonly Float64Array[]
  readonly column: Float64Array
}

/** Correlated causes: column i becomes the sum of lower[i][k] times the independent column k. */
interface Mixture {
  readonly columns: readonly Float64Array[]
  readonly lower: readonly (readonly number[])[]
}

/** A derivation made ready for sampling: every cause once, then leaves, then formulas in the order they need. */
export interface SamplingPlan {
  readonly causes: readonly CauseColumn[]
  readonly mixture: Mixture
  readonly leaves: readonly LeafColumn[]
  readonly derived: readonly DerivedColumn[]
  /** Where the values of the quantity stand after a block. */
  readonly result: Float64Array
}

/**
 * Columns that are used again by the next plan, so that thousands of small runs make no garbage. A plan made with a
 * scratch is over when the next one is made with it.
 */
export class Scratch {
  readonly #columns: Float64Array[] = []
  #used = 0
  #size: number = blockSize

  /** @param size trials in a block */
  begin(size: number): void {
    this.#used = 0
    this.#size = size
  }

  take(): Float64Array {
    if (this.#used === this.#columns.length) this.#columns.push(new Float64Array(blockSize))
    const column = this.#columns[this.#used++]!
    return this.#size === blockSize ? column : column.subarray(0, this.#size)
  }
}

/**
 * Makes the plan for a quantity.
 *
 * @param room columns to use (left out, the plan has its own), and trials in a block
 * @throws {FaultError} `unknown-formula` where a formula or its version is not among `formulas`; `out-of-domain` where
 *   the stated correlations cannot hold together
 */
export function samplingPlan(
  q: Quantity,
  formulas: ReadonlyMap<string, AnyFormula>,
  seed: number,
  { scratch = new Scratch(), size = blockSize }: { readonly scratch?: Scratch; readonly size?: number } = {},
): SamplingPlan {
  scratch.begin(size)
  const build = new PlanBuilder(formulas, seed, scratch)
  const result = build.columnOf(q)
  return { ...build, mixture: build.mixture(), result }
}

class PlanBuilder {
  readonly causes: CauseColumn[] = []
  readonly leaves: LeafColumn[] = []
  readonly derived: DerivedColumn[] = []
  readonly #byCause = new Map<string, CauseColumn>()
  readonly #byQuantity = new Map<Quantity, Float64Array>()
  readonly #correlations = new Map<string, Correlation>()
  readonly #formulas: ReadonlyMap<string, AnyFormula>
  readonly #seed: number
  readonly #scratch: Scratch

  constructor(formulas: ReadonlyMap<string, AnyFormula>, seed: number, scratch: Scratch) {
    this.#formulas = formulas
    this.#seed = seed
    this.#scratch = scratch
  }

  columnOf(q: Quantity): Float64Array {
    const known = this.#byQuantity.get(q)
    if (known !== undefined) return known
    for (const c of q.correlations ?? []) this.#correlations.set(c.a < c.b ? `${c.a}\n${c.b}` : `${c.b}\n${c.a}`, c)
    const column = q.origin.kind === 'derived' ? this.#derive(q.origin) : this.#leaf(q)
    this.#byQuantity.set(q, column)
    return column
  }

  #leaf(q: Quantity): Float64Array {
    const parts = q.budget
      .filter((t) => t.slope * t.u !== 0)
      .map((t) => ({ weight: t.slope * t.u, cause: this.#cause(t).column }))
    const column = this.#scratch.take().fill(q.value)
    if (parts.length > 0) this.leaves.push({ value: q.value, parts, column })
    return column
  }

  #cause(t: Term): CauseColumn {
    const known = this.#byCause.get(t.cause)
    if (known !== undefined) return known
    const column = this.#scratch.take()
    const dof = t.dof ?? Number.POSITIVE_INFINITY
    // a stream of its own for each cause: its errors do not depend on what else is sampled
    const made = { random: new Random(this.#seed, t.cause), distribution: t.distribution, dof, column }
    this.#byCause.set(t.cause, made)
    this.causes.push(made)
    return made
  }

  #derive(origin: Extract<Quantity['origin'], { kind: 'derived' }>): Float64Array {
    const f = this.#formulas.get(origin.formula)
    if (f === undefined || f.version !== origin.version)
      throw new FaultError({
        code: 'unknown-formula',
        id: f === undefined ? origin.formula : `${origin.formula}, version ${origin.version}`,
      })
    const inputs = Object.keys(f.inputs).map((name) => this.columnOf(origin.inputs[name]!))
    const column = this.#scratch.take()
    this.derived.push({ rows: FormulaRows.of(f), inputs, column })
    return column
  }

  /** Correlated causes are drawn jointly normal, whatever their own shape (JCGM 101:2008, 6.4.8). */
  mixture(): Mixture {
    const pairs = [...this.#correlations.values()].filter((c) => this.#byCause.has(c.a) && this.#byCause.has(c.b))
    const names = [...new Set(pairs.flatMap((c) => [c.a, c.b]))].sort()
    const matrix: number[][] = names.map((_, i) => names.map((_, j) => (i === j ? 1 : 0)))
    for (const c of pairs) {
      const [i, j] = [names.indexOf(c.a), names.indexOf(c.b)]
      matrix[i]![j] = c.r
      matrix[j]![i] = c.r
    }
    const lower = names.length === 0 ? [] : cholesky(matrix)
    const columns = names.map((n) => this.#byCause.get(n)!.column)
    for (const [k, c] of this.causes.entries())
      if (columns.includes(c.column)) this.causes[k] = { ...c, distribution: 'normal' }
    return { columns, lower }
  }
}

/** Draws one block: afterwards `plan.result` holds a value for each trial. */
export function sampleBlock(plan: SamplingPlan): void {
  drawCauses(plan)
  evaluateBlock(plan)
}

export function drawCauses(plan: SamplingPlan): void {
  for (const c of plan.causes) draws[c.distribution](c)
  mix(plan.mixture)
}

/** Works out the values from the causes as they stand in their columns; of the first trials alone where a count is given. */
export function evaluateBlock(plan: SamplingPlan, count: number = plan.result.length): void {
  for (const l of plan.leaves) {
    l.column.fill(l.value, 0, count)
    for (const p of l.parts) addScaled(l.column, p.cause, p.weight, count)
  }
  for (const d of plan.derived) d.rows.evaluate(d.inputs, d.column, count)
}

const draws: Readonly<Record<Term['distribution'], (c: CauseColumn) => void>> = {
  normal: (c) => c.random.fillNormal(c.column),
  rectangular: (c) => c.random.fillRectangular(c.column),
  triangular: (c) => c.random.fillTriangular(c.column),
  arcsine: (c) => c.random.fillArcsine(c.column),
  t: (c) =>
    c.dof === Number.POSITIVE_INFINITY ? c.random.fillNormal(c.column) : c.random.fillStudent(c.column, c.dof),
}

function addScaled(into: Float64Array, from: Float64Array, weight: number, count: number = into.length): void {
  for (let i = 0; i < count; i++) into[i] = into[i]! + weight * from[i]!
}

/** From the last row up, so that every column is still independent where it is used. */
function mix(m: Mixture): void {
  for (let i = m.columns.length - 1; i >= 0; i--) {
    const column = m.columns[i]!
    const own = m.lower[i]![i]!
    for (let t = 0; t < column.length; t++) column[t] = column[t]! * own
    for (let k = 0; k < i; k++) addScaled(column, m.columns[k]!, m.lower[i]![k]!)
  }
}
