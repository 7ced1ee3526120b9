import type { Scale } from '#report/plot'
import { isPlaced } from './cloud.ts'

/** Parts counted by value. */
export interface Bins {
  /** Ends of the bins, one more than there are bins. */
  readonly ends: readonly number[]
  readonly counts: readonly number[]
  readonly chosen: readonly number[]
}

/** Counts rows into bins of equal width on the scale. */
export function binsOf(
  rows: Int32Array,
  values: Float64Array,
  scale: Scale,
  chosen: ReadonlySet<number>,
  number = 48,
): Bins {
  const isLog = scale.kind === 'log'
  const at = (v: number): number => (isLog ? Math.log(v) : v)
  const [low, high] = [at(scale.low), at(scale.high)]
  const step = (high - low) / number
  const counts = new Array<number>(number).fill(0)
  const ofChosen = new Array<number>(number).fill(0)
  for (let i = 0; i < rows.length; i++) {
    const v = values[rows[i]!]!
    if (!isPlaced(v, scale)) continue
    const bin = Math.min(number - 1, Math.max(0, Math.floor((at(v) - low) / step)))
    counts[bin]! += 1
    if (chosen.has(rows[i]!)) ofChosen[bin]! += 1
  }
  const back = (t: number): number => (isLog ? Math.exp(t) : t)
  return { ends: Array.from({ length: number + 1 }, (_, i) => back(low + i * step)), counts, chosen: ofChosen }
}
