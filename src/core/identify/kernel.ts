import { logGamma } from '#core/numeric'
import { type Meter, rangeNamed } from './meter.ts'
import type { Observation, Scale } from './observation.ts'
import type { Prediction } from './prediction.ts'

/** Spread that a few imagined parts leave unknown, by how many there are: standard deviation, V or decades. */
const unknownSpread: Readonly<Record<Scale, readonly [few: number, least: number]>> = {
  volts: [0.06, 0.0008],
  leak: [2.5, 0.06],
  ohms: [1.5, 0.03],
  open: [0, 1],
  gain: [1.5, 0.03],
  breakdown: [2, 0.1],
}

/**
 * Degrees of freedom of a kernel: its tails reach further than those of a normal one, for parts that a table of some
 * dozens does not hold the like of.
 */
const tailDof = 6

/** Imagined parts that agree in kind with what was seen, each standing for those around it. */
export interface Kernel {
  /** Places of the readings that are numbers, among those seen. */
  readonly numbers: readonly number[]
  /** The imagined parts. */
  readonly members: readonly number[]
  /** What each shows, row by row, and the mean of all. */
  readonly at: Float64Array
  readonly mean: Float64Array
  /** Cholesky factor of the covariance about each. */
  readonly factor: Float64Array
  /** How far what was seen lies from each, row by row: the distances with the covariance taken out. */
  readonly behind: Float64Array
}

/** How much narrower a kernel is than the spread of all members, by how many numbers and members there are. */
export const kernelWidth = (numbers: number, members: number): number =>
  Math.min(1, (4 / ((numbers + 2) * members)) ** (1 / (numbers + 4)))

/** A number on a scale, and the range it was read on where it is one of ohms. */
export type ReadNumber = Pick<Observation, 'scale' | 'range' | 'y'>

/** Variance of a reading about an imagined part: the doubt that few members leave, and the meter's own. */
export function ownVariance(o: ReadNumber, members: number, meter: Meter): number {
  const [few, least] = unknownSpread[o.scale]
  const own = o.scale === 'volts' ? meter.digitU : meter.decadesU
  return (few / members) ** 2 + least ** 2 + own ** 2 + digitVariance(o, meter)
}

/** Variance that rounding to the last digit of a range of ohms leaves, decades squared. */
function digitVariance({ range, y }: ReadNumber, meter: Meter): number {
  if (range === undefined) return 0
  const share = rangeNamed(meter, range).leastOhm / 10 ** y
  return (share * Math.LOG10E) ** 2 / 12
}

interface Ingredients {
  readonly seen: readonly Observation[]
  readonly predicted: readonly Prediction[]
  readonly numbers: readonly number[]
  readonly members: readonly number[]
  readonly meter: Meter
}

/** The kernel of members that agree in kind: their spread made narrower, with the centres drawn together as much. */
export function kernelOf({ seen, predicted, numbers, members, meter }: Ingredients): Kernel {
  const [d, count] = [numbers.length, members.length]
  const at = new Float64Array(count * d)
  const mean = new Float64Array(d)
  for (let i = 0; i < d; i++) {
    const { y, perK } = predicted[numbers[i]!]!
    const { warmerK } = seen[numbers[i]!]!
    for (let row = 0; row < count; row++) {
      const n = members[row]!
      const value = y[n]! + perK[n]! * warmerK
      at[row * d + i] = value
      mean[i]! += value / count
    }
  }
  const width = kernelWidth(d, count)
  const factor = covariance(at, mean, width)
  addOwn(factor, { seen, numbers, count, meter })
  factorInPlace(factor, d)
  const closer = Math.sqrt(1 - width * width)
  const behind = new Float64Array(count * d)
  for (let row = 0; row < count; row++) {
    for (let i = 0; i < d; i++)
      behind[row * d + i] = seen[numbers[i]!]!.y - (closer * at[row * d + i]! + (1 - closer) * mean[i]!)
    solveInPlace(factor, d, behind, row * d)
  }
  return { numbers, members, at, mean, factor, behind }
}

/** Lower triangle of the spread of the members about their mean, times the square of the width. */
function covariance(at: Float64Array, mean: Float64Array, width: number): Float64Array {
  const d = mean.length
  const m = new Float64Array(d * d)
  const count = at.length / d
  const scale = (width * width) / Math.max(1, count - 1)
  for (let row = 0; row < at.length; row += d)
    for (let i = 0; i < d; i++) {
      const away = scale * (at[row + i]! - mean[i]!)
      for (let j = 0; j <= i; j++) m[i * d + j]! += away * (at[row + j]! - mean[j]!)
    }
  return m
}

interface Own {
  readonly seen: readonly Observation[]
  readonly numbers: readonly number[]
  readonly count: number
  readonly meter: Meter
}

/** Adds the doubt of few members, and the errors of the meter: that of its gain is one for all its voltages. */
function addOwn(m: Float64Array, { seen, numbers, count, meter }: Own): void {
  const d = numbers.length
  for (let i = 0; i < d; i++) {
    const o = seen[numbers[i]!]!
    m[i * d + i]! += ownVariance(o, count, meter)
    if (o.scale !== 'volts') continue
    for (let j = 0; j <= i; j++) {
      const other = seen[numbers[j]!]!
      if (other.scale === 'volts') m[i * d + j]! += meter.gainU ** 2 * o.y * other.y
    }
  }
}

/** Logarithm of the density of Student's t of `d` dimensions at its middle. */
function scaleLog(factor: Float64Array, d: number): number {
  let log = logGamma((tailDof + d) / 2) - logGamma(tailDof / 2) - 0.5 * d * Math.log((tailDof - 2) * Math.PI)
  for (let i = 0; i < d; i++) log -= Math.log(factor[i * d + i]!)
  return log
}

/** Density that each member gives to what was seen: Student's t with the covariance of the kernel. */
export function kernelDensities({ numbers, members, factor, behind }: Kernel): Float64Array {
  const d = numbers.length
  const scale = scaleLog(factor, d)
  const densities = new Float64Array(members.length)
  for (let row = 0; row < densities.length; row++) {
    let square = 0
    for (let i = row * d; i < (row + 1) * d; i++) square += behind[i]! * behind[i]!
    densities[row] = Math.exp(scale - 0.5 * (tailDof + d) * Math.log1p(square / (tailDof - 2)))
  }
  return densities
}

/** Cholesky factor of the lower triangle, in its place. */
function factorInPlace(m: Float64Array, d: number): void {
  for (let i = 0; i < d; i++)
    for (let j = 0; j <= i; j++) {
      let sum = m[i * d + j]!
      for (let k = 0; k < j; k++) sum -= m[i * d + k]! * m[j * d + k]!
      m[i * d + j] = i === j ? Math.sqrt(Math.max(sum, 1e-12)) : sum / m[j * d + j]!
    }
}

/** Takes a Cholesky factor out of a row of numbers, in its place. */
export function solveInPlace(factor: Float64Array, d: number, x: Float64Array, from = 0): void {
  for (let i = 0; i < d; i++) {
    let sum = x[from + i]!
    for (let k = 0; k < i; k++) sum -= factor[i * d + k]! * x[from + k]!
    x[from + i] = sum / factor[i * d + i]!
  }
}
