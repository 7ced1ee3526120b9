import { type AnyFormula, type Quantity, standardUncertainty } from '#core/quantity'

/** Above this share of the standard uncertainty a bend of the formula is worth sampling for. */
export const bendWorthSampling = 0.1

/**
 * How far the formulas of a derivation bend within the doubt of their inputs, as a share of the standard uncertainty of
 * the result: a quick screen that tells when first order wants checking by random trials.
 *
 * Each input is moved by twice its standard uncertainty either way, the others held; what the mean of the two departs
 * from the middle is the bend. Bends further down the derivation count with the slope they arrive with.
 *
 * @see JCGM 100:2008, 5.1.2 note, and JCGM 101:2008, 8.1: when higher orders matter
 */
export const curvature = (q: Quantity, formulas: ReadonlyMap<string, AnyFormula>): number => share(q, formulas, same)

/**
 * The same for the logarithm of a positive quantity: leakage carried by an exponential law is straight there. Infinite
 * where the quantity is not clearly positive.
 */
export const logCurvature = (q: Quantity, formulas: ReadonlyMap<string, AnyFormula>): number =>
  q.value > 0 ? share(q, formulas, Math.log) : Number.POSITIVE_INFINITY

type View = (x: number) => number

const same: View = (x) => x

function share(q: Quantity, formulas: ReadonlyMap<string, AnyFormula>, view: View): number {
  const u = standardUncertainty(q)
  if (u === 0) return 0
  return bend(q, formulas, view) / (view === same ? u : u / q.value)
}

function bend(q: Quantity, formulas: ReadonlyMap<string, AnyFormula>, view: View): number {
  if (q.origin.kind !== 'derived') return 0
  const f = formulas.get(q.origin.formula)
  if (f === undefined) return 0
  const { inputs } = q.origin
  const at: Record<string, number> = {}
  for (const name of Object.keys(inputs)) at[name] = inputs[name]!.value
  const middle = view(q.value)
  let sum = 0
  for (const name of Object.keys(inputs)) {
    const input = inputs[name]!
    const step = 2 * standardUncertainty(input)
    if (step === 0) continue
    at[name] = input.value + step
    const above = view(f.evaluate(at))
    at[name] = input.value - step
    const below = view(f.evaluate(at))
    at[name] = input.value
    if (!Number.isFinite(above) || !Number.isFinite(below)) return Number.POSITIVE_INFINITY
    const slope = Math.abs(above - below) / (2 * step)
    sum += Math.abs(above + below - 2 * middle) / 2 + slope * bend(input, formulas, same)
  }
  return sum
}
