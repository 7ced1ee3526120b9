import { derive, formula, leaf, limitTerm, type Quantity, standardUncertainty, term } from '#core/quantity'
import { monteCarlo } from '#core/uncertainty'

/** The same problem as benchmarks/corrected-gain.py: three readings through one movement, two shunts. */
const gain = formula({
  id: 'benchmark/corrected-gain',
  version: 1,
  text: 'h_FE = (I_C - I_CEO) / I_B',
  unit: '1',
  inputs: { collector: 'A', leakage: 'A', base: 'A' },
  symbols: { collector: 'I_C', leakage: 'I_CEO', base: 'I_B' },
  source: { title: 'leakage with the base open is no work of the base current', standing: 'common practice' },
  domain: { collector: [1e-3, 1e-2], leakage: [1e-6, 1e-4], base: [1e-5, 1e-4] },
  evaluate: ({ collector, leakage, base }) => (collector - leakage) / base,
  partials: ({ collector, leakage, base }) => ({
    collector: 1 / base,
    leakage: -1 / base,
    base: -(collector - leakage) / base ** 2,
  }),
})

const current = (valueA: number, what: string, shunt: string, readingU: number): Quantity<'A'> =>
  leaf(valueA, 'A', { kind: 'read', what, seen: '' }, [
    term('movement', { label: 'movement', u: 0.007, slope: valueA }),
    limitTerm(shunt, shunt, 0.01, valueA),
    term(`${what} reading`, { label: 'reading', u: readingU }),
  ])

const problem = (collectorA: number): Quantity =>
  derive(gain, {
    collector: current(collectorA, 'I_C', 'collector shunt', 2e-5),
    leakage: current(2e-4, 'I_CEO', 'collector shunt', 2e-6),
    base: current(5e-5, 'I_B', 'base shunt', 2e-7),
  })

/** Seconds of five runs of a million trials, after one that does not count. */
export function correctedGain(): { readonly seconds: readonly number[] } {
  const q = problem(5e-3)
  const formulas = new Map([[gain.id, gain]])
  const seconds: number[] = []
  for (let run = 0; run < 6; run++) {
    const start = performance.now()
    const got = monteCarlo(q, { formulas, trials: 1_000_000, seed: 20 })
    const took = (performance.now() - start) / 1000
    if (Math.abs(got.mean - 96) > 0.1) throw new Error(`mean ${got.mean} is not near 96`)
    if (run > 0) seconds.push(took)
  }
  return { seconds }
}

/** Seconds for 100,000 gains to first order, readings and uncertainty included. */
export function firstOrder(): number {
  for (let i = 0; i < 1000; i++) standardUncertainty(problem(5e-3))
  const start = performance.now()
  let sum = 0
  for (let i = 0; i < 100_000; i++) sum += standardUncertainty(problem(5e-3 + i * 1e-9))
  if (!(sum > 0)) throw new Error('no uncertainty came out')
  return (performance.now() - start) / 1000
}
