/** Values of a model at a vector of parameters, written into `values`; what is not finite is refused as a step. */
export type Evaluate = (parameters: Float64Array, values: Float64Array) => void

/** How a slope is taken: `quick` on the way (two points, error about 1e-10), `fine` at the end (four, about 1e-12). */
export type SlopeCare = 'quick' | 'fine'

const relativeStep = { quick: 6e-6, fine: 1e-4 } as const

/**
 * Slopes of a model with respect to one parameter, by central differences.
 *
 * @param size natural size of the parameter, where its value is 0
 * @see M. Abramowitz, I. Stegun, Handbook of Mathematical Functions (1964), 25.3.21 (two points) and 25.3.24 (four)
 */
export function differenceSlopes(
  evaluate: Evaluate,
  parameters: Float64Array,
  index: number,
  size: number,
  care: SlopeCare,
  into: Float64Array,
): void {
  const at = parameters[index]!
  const wish = relativeStep[care] * (at === 0 ? size : Math.abs(at))
  const step = at + wish - at
  const probe = new Float64Array(into.length)
  into.fill(0)
  const add = (offset: number, weight: number): void => {
    parameters[index] = at + offset * step
    evaluate(parameters, probe)
    for (let i = 0; i < into.length; i++) into[i]! += weight * probe[i]!
  }
  if (care === 'quick') {
    add(1, 1)
    add(-1, -1)
  } else {
    add(1, 8)
    add(-1, -8)
    add(2, -1)
    add(-2, 1)
  }
  parameters[index] = at
  const whole = (care === 'quick' ? 2 : 12) * step
  for (let i = 0; i < into.length; i++) into[i]! /= whole
}
