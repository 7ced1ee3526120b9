import { loadCatalog, sampleTester } from '#catalog'
import { needType } from '#core/device'
import { standardUncertainty } from '#core/quantity'
import { allFormulas, reduceReadings } from '#core/reduce'
import { firstPoint, rehearse, specimen } from '#core/rehearsal'
import { planSheet } from '#core/sheet'
import type { Tester } from '#core/tester'
import { bestInterval } from '#core/uncertainty'
import { type KnownName, knownParts } from './known-parts.ref.ts'

/** How often the 95 % intervals of one parameter held the truth. */
export interface Tally {
  readonly symbol: string
  runs: number
  /** Runs in which the whole interval lay below the truth, and above it. */
  below: number
  above: number
  /** Sums over the runs: squared error in standard uncertainties, half-width of the interval in them, the truth. */
  squares: number
  factors: number
  truths: number
}

export const insideShare = (t: Tally): number => (t.runs - t.below - t.above) / t.runs

const types = await loadCatalog()

/** The parameters a kind of part is asked for. */
export const symbolsOf = (name: KnownName): readonly string[] =>
  knownParts[name].device.kind === 'diode' ? ['V_F'] : ['h_FE', 'h_FE0', 'I_CEO', 'I_CBO']

const counted = ['short', 'I_CEO', 'I_CBO', 'I_C', 'I_B', 'h_FE', 'I_F', 'V_F'] as const

/**
 * Runs with a known truth: each on a tester of its own (one that the description fits), with a specimen of its own.
 *
 * @param runs how many; run k has the seed k
 */
export function countCoverage(named: string | Tester, name: KnownName, runs: number): readonly Tally[] {
  const tester = typeof named === 'string' ? sampleTester(named)! : named
  const { type, device } = knownParts[name]
  const partType = needType(types, type).partType
  const sheet = firstPoint(planSheet(tester, partType), counted)
  const tallies = new Map<string, Tally>()
  for (let seed = 1; seed <= runs; seed++) {
    const one = specimen(device, { spread: 0.3, seed, name: 'K1' })
    const { readings, truths } = rehearse(sheet, { part: 'K1', device: one }, { seed })
    const [result] = reduceReadings(sheet.tester, readings, { types: () => partType, at25: false })
    for (const p of result!.parameters.filter((q) => symbolsOf(name).includes(q.symbol))) {
      const truth = truths.find((t) => t.symbol === p.symbol && t.point === p.points[0])!.value
      const [low, high] = bestInterval(p.quantity, allFormulas).interval
      const u = standardUncertainty(p.quantity)
      const { symbol } = p
      const t = tallies.get(symbol) ?? { symbol, runs: 0, below: 0, above: 0, squares: 0, factors: 0, truths: 0 }
      tallies.set(symbol, t)
      t.runs++
      if (high < truth) t.below++
      if (low > truth) t.above++
      t.squares += ((p.quantity.value - truth) / u) ** 2
      t.factors += (high - low) / (2 * u)
      t.truths += truth
    }
  }
  return [...tallies.values()]
}
