import { normalQuantile, Random } from '#core/numeric'
import type { Distribution, Quantity, Term } from '#core/quantity'

const one = new Float64Array(1)

/** A draw with standard deviation 1 (a t estimate keeps the wider spread of its degrees of freedom). */
function unitDraw(random: Random, distribution: Distribution, dof: number): number {
  switch (distribution) {
    case 'normal':
      return normalQuantile(random.uniform())
    case 'rectangular':
      return (2 * random.uniform() - 1) * Math.sqrt(3)
    case 'triangular':
      random.fillTriangular(one)
      return one[0]!
    case 'arcsine':
      random.fillArcsine(one)
      return one[0]!
    case 't':
      random.fillStudent(one, dof)
      return one[0]!
  }
}

/**
 * One draw of every error there may be. Each cause has a stream of its own, so that a cause has the same error wherever
 * it stands, and one seed means one tester: its errors do not hang on what is read or in which order.
 */
export class ErrorDraw {
  readonly #seed: number
  readonly #drawn = new Map<string, number>()

  /** @param seed the same seed gives the same errors */
  constructor(seed: number) {
    this.#seed = seed
  }

  /** The error that the cause of a term makes, in the unit of its quantity. */
  error({ cause, slope, u, distribution, dof }: Term): number {
    let drawn = this.#drawn.get(cause)
    if (drawn === undefined) {
      drawn = unitDraw(this.stream(cause), distribution, dof ?? Number.POSITIVE_INFINITY)
      this.#drawn.set(cause, drawn)
    }
    return slope * u * drawn
  }

  /** The errors of several causes together. */
  errors(terms: readonly Term[]): number {
    let sum = 0
    for (const t of terms) sum += this.error(t)
    return sum
  }

  /** What a quantity really is, when its value is what is known of it. */
  really(q: Quantity): number {
    return q.value + this.errors(q.budget)
  }

  /** Random numbers of a name of their own. */
  stream(name: string): Random {
    return new Random(this.#seed, name)
  }
}
