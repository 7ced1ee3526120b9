/** The smallest and the largest values of a sample, each sorted upwards; what lies between is never sorted. */
export interface Tails {
  readonly low: Float64Array
  readonly high: Float64Array
}

/**
 * The `count` smallest and `count` largest values.
 *
 * Limits are guessed from an evenly spaced part of the sample, a little too wide, and only what lies beyond them is
 * sorted. Where a guess turns out too narrow the whole is sorted, so the answer is always exact.
 */
export function sortedTails(values: Float64Array, count: number): Tails {
  const guess = guessLimits(values, count)
  const found = guess === undefined ? undefined : collect(values, guess)
  if (found !== undefined && found.low.length >= count && found.high.length >= count)
    return { low: found.low.sort().slice(0, count), high: found.high.sort().slice(found.high.length - count) }
  const sorted = values.slice().sort()
  return { low: sorted.slice(0, count), high: sorted.slice(sorted.length - count) }
}

const partSize = 8192

interface Limits {
  readonly low: number
  readonly high: number
  /** How many values may lie beyond either. */
  readonly room: number
}

function guessLimits(values: Float64Array, count: number): Limits | undefined {
  if (values.length < 4 * partSize) return undefined
  const part = new Float64Array(partSize)
  const stride = values.length / partSize
  for (let i = 0; i < partSize; i++) part[i] = values[Math.floor(i * stride)]!
  part.sort()
  const share = count / values.length
  // four standard deviations of the count that falls into the tail of the part
  const margin = 4 * Math.sqrt(partSize * share * (1 - share)) + 1
  const place = Math.min(partSize - 1, Math.ceil(partSize * share + margin))
  const room = Math.ceil(values.length * ((place + margin) / partSize))
  return { low: part[place]!, high: part[partSize - 1 - place]!, room }
}

/** The values beyond the limits, or nothing where there is no room for them. */
function collect(values: Float64Array, { low, high, room }: Limits): Tails | undefined {
  const below = new Float64Array(room)
  const above = new Float64Array(room)
  let n = 0
  let m = 0
  for (let i = 0; i < values.length; i++) {
    const v = values[i]!
    if (v <= low) {
      if (n === room) return undefined
      below[n++] = v
    } else if (v >= high) {
      if (m === room) return undefined
      above[m++] = v
    }
  }
  return { low: below.subarray(0, n), high: above.subarray(0, m) }
}
