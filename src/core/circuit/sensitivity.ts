import { FaultError } from '#core/fault'
import type { Compiled } from './compile.ts'
import { type Instance, warm, width } from './instance.ts'
import { factor, solveTransposed } from './lu.ts'
import { leadRows, type Output, outputSlopes, outputValue } from './output.ts'
import { assemble } from './solve.ts'
import { stamp } from './stamp.ts'

/** How one number of an operating point moves with everything that made it. */
export interface Sensitivity {
  readonly value: number
  /**
   * Change of the output for one unit of each cause: components by name (ohm, V, A; a cell's resistance as
   * `E.resistance`), card parameters as `Q1.bf`, `temperature` in K. Parameters that are 0 are left out, and those a
   * little beside which the law has no value.
   */
  readonly slopes: Readonly<Record<string, number>>
}

/**
 * Sensitivities of one output to every component and card parameter by the adjoint: one transposed solve gives them
 * all. Slopes with components are exact; those with card parameters and temperature rest on differences of the device
 * law at fixed voltages with a Richardson step, good to about 1e-8.
 *
 * @param c a circuit that stands at its operating point
 * @throws {FaultError} where the matrix is singular there
 * @see L. O. Chua and P. M. Lin, Computer-Aided Analysis of Electronic Circuits (1975), ch. 15, adjoint network
 */
export function sensitivity(c: Compiled, output: Output): Sensitivity {
  assemble(c, 0, 1, true)
  const value = outputValue(c, output)
  const adjoint = new Float64Array(c.n + 1)
  outputSlopes(c, output, adjoint)
  adjoint[c.n] = 0
  if (factor(c.matrix, c.n, c.n + 1, c.order) >= 0)
    throw new FaultError({ code: 'usage', problem: 'The circuit has a node that nothing holds', mend: 'Tie it down.' })
  solveTransposed(c.matrix, c.n, c.n + 1, c.order, adjoint)
  const slopes: Record<string, number> = {}
  linearSlopes(c, adjoint, slopes)
  let byTemperature = 0
  for (const i of c.instances) {
    const pull = pullOf(c, i, output, adjoint)
    const restore = i.card
    // a part that heats itself keeps its own
    const { modelK } = i
    for (const [name, now] of Object.entries(i.card) as [string, number][]) {
      if (name === 'tnom' || now === 0) continue
      slopes[`${i.ref}.${name}`] = difference(Math.abs(now) * 1e-4, (h) => {
        i.card = { ...restore, [name]: now + h }
        warm(i, modelK, c.setting)
        return pull()
      })
      i.card = restore
    }
    byTemperature += difference(0.05, (h) => {
      warm(i, modelK + h, c.setting)
      return pull()
    })
    warm(i, modelK, c.setting)
  }
  slopes.temperature = byTemperature
  return { value, slopes: Object.fromEntries(Object.entries(slopes).filter(([, x]) => Number.isFinite(x))) }
}

/** Central difference with one Richardson step. */
function difference(h: number, f: (h: number) => number): number {
  const wide = (f(h) - f(-h)) / (2 * h)
  const narrow = (f(h / 2) - f(-h / 2)) / h
  return (4 * narrow - wide) / 3
}

/** Output less adjoint times the device's currents, at the circuit's voltages and the device's model as it stands. */
function pullOf(c: Compiled, i: Instance, output: Output, adjoint: Float64Array): () => number {
  const weights = new Float64Array(width)
  for (let k = 0; k < i.size; k++) weights[k] = -adjoint[i.at[k]!]!
  if (output.kind === 'current' && output.ref === i.ref) for (const k of leadRows(i, output.lead)) weights[k]! += i.sign
  return () => {
    stamp(i, c.x, true)
    let sum = 0
    for (let k = 0; k < i.size; k++) sum += weights[k]! * i.f[k]!
    return sum
  }
}

function linearSlopes(c: Compiled, adjoint: Float64Array, slopes: Record<string, number>): void {
  const { resistors: r, currents: s, sources: v, x } = c
  r.refs.forEach((ref, k) => {
    const a = r.a[k]!
    const b = r.b[k]!
    slopes[ref] = ((adjoint[a]! - adjoint[b]!) * (x[a]! - x[b]!)) / r.value[k]! ** 2
  })
  s.refs.forEach((ref, k) => {
    slopes[ref] = adjoint[s.b[k]!]! - adjoint[s.a[k]!]!
  })
  v.refs.forEach((ref, k) => {
    const row = v.rows[k]!
    slopes[ref] = adjoint[row]!
    if (v.extra[k]! > 0) slopes[`${ref}.resistance`] = adjoint[row]! * x[row]!
  })
}
