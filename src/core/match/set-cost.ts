import type { Points } from './point-tree.ts'
import type { Objective } from './request.ts'

/** Mismatch of parts taken as one set. */
export function setCost(points: Points, members: ArrayLike<number>, objective: Objective): number {
  if (objective === 'sum-of-ranges') return ranges(points, members)
  let sum = 0
  let most = 0
  for (let i = 1; i < members.length; i++)
    for (let j = 0; j < i; j++) {
      const square = squareApart(points, members[i]!, members[j]!)
      sum += objective === 'squared-deviations' ? square : Math.sqrt(square)
      if (square > most) most = square
    }
  if (objective === 'largest-distance') return Math.sqrt(most)
  // squared distances from the middle come to those of every two over the number of parts
  return objective === 'squared-deviations' ? sum / members.length : sum
}

function squareApart({ at, dimensions: d }: Points, i: number, j: number): number {
  let sum = 0
  for (let k = 0; k < d; k++) sum += (at[i * d + k]! - at[j * d + k]!) ** 2
  return sum
}

function ranges({ at, dimensions: d }: Points, members: ArrayLike<number>): number {
  let sum = 0
  for (let k = 0; k < d; k++) {
    let low = Number.POSITIVE_INFINITY
    let high = Number.NEGATIVE_INFINITY
    for (let i = 0; i < members.length; i++) {
      const x = at[members[i]! * d + k]!
      if (x < low) low = x
      if (x > high) high = x
    }
    sum += high - low
  }
  return sum
}

/**
 * What any choice of so many sets costs at least: each part has `size - 1` others in its set, no nearer than its
 * nearest neighbours, and every set has `size` parts.
 */
export function neighbourBound(points: Points, size: number, sets: number, objective: Objective): number {
  const n = points.count
  const isSum = objective === 'sum-of-ranges'
  const least = Array.from({ length: n }, (_, i) => {
    const near: number[] = []
    for (let j = 0; j < n; j++) {
      if (j === i) continue
      near.push(isSum ? ranges(points, [i, j]) : squareApart(points, i, j))
    }
    const nearest = near.sort((a, b) => a - b).slice(0, size - 1)
    return shareOf(nearest, size, objective)
  })
  return least
    .sort((a, b) => a - b)
    .slice(0, sets * size)
    .reduce((sum, x) => sum + x, 0)
}

function shareOf(nearest: readonly number[], size: number, objective: Objective): number {
  if (objective === 'sum-of-ranges') return nearest.at(-1)! / size
  if (objective === 'largest-distance') return Math.sqrt(nearest.at(-1)!) / size
  if (objective === 'squared-deviations') return nearest.reduce((sum, x) => sum + x, 0) / (2 * size)
  return nearest.reduce((sum, x) => sum + Math.sqrt(x), 0) / 2
}
