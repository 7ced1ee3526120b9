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
  if (guess !== undefined) {
    const low = collect(values, guess.room, (v) => v <= guess.low)
    const high = collect(values, guess.room, (v) => v >= guess.high)
    if (low !== undefined && high !== undefined && low.length >= count && high.length >= count)
      return { low: low.sort().slice(0, count), high: high.sort().slice(high.length - count) }
  }
  const sorted = values.slice().sort()
  return { low: sorted.slice(0, count), high: sorted.slice(sorted.length - count) }
}

const partSize = 8192

function guessLimits(
  values: Float64Array,
  count: number,
): { readonly low: number; readonly high: number; readonly room: number } | undefined {
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

/** The values that pass, or nothing where there is no room for them. */
function collect(values: Float64Array, room: number, passes: (v: number) => boolean): Float64Array | undefined {
  const found = new Float64Array(room)
  let n = 0
  for (let i = 0; i < values.length; i++) {
    const v = values[i]!
    if (!passes(v)) continue
    if (n === room) return undefined
    found[n++] = v
  }
  return found.slice(0, n)
}
