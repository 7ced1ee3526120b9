import fc from 'fast-check'
import { expect } from 'vitest'
import { layBench } from '#bench'
import { explain, type Fault, FaultError } from '#core/fault'
import { readTester, testerExample } from '#core/tester'

/** Always the same inputs; another seed tries others. */
const seed = Number(process.env.GERMANE_FUZZ_SEED ?? 19_650_412)

/** How many inputs of each kind are tried; a factor in the surroundings tries more. */
const factor = Number(process.env.GERMANE_FUZZ_TIMES ?? 1)
export const runs = {
  values: 10_000,
  tables: 3000,
  loose: 1000,
  documents: 2000,
  testers: 1200,
  types: 1200,
  typed: 4000,
  odd: 2000,
  wishes: 2500,
  netlists: 2000,
  circuits: 1000,
  networks: 1500,
  positions: 400,
} as const

console.info(`Fuzzed inputs are made with seed ${seed}; GERMANE_FUZZ_SEED sets another.`)

export const bench = await layBench({ now: () => '2024-05-12T14:00:00.000Z' })
export const testers = bench.testers.map((t) => t.tester)

export const exampleTester = (() => {
  const read = readTester(testerExample)
  if (!read.ok) throw new FaultError(read.faults)
  return read.tester
})()

/** Numbers that are none, anywhere in a value. */
function unsound(value: unknown, path: string): string | undefined {
  if (typeof value === 'number') return Number.isFinite(value) ? undefined : `${path} is ${value}`
  if (typeof value !== 'object' || value === null) return undefined
  for (const [key, inner] of Object.entries(value)) {
    const found = unsound(inner, `${path}.${key}`)
    if (found !== undefined) return found
  }
  return undefined
}

const longestS = 1

/** Takes an input: gives a sound result, or faults with sentences; in less than a second; never anything else. */
export function take(use: () => unknown): void {
  const began = process.cpuUsage().user
  const result = outcome(use)
  const seconds = (process.cpuUsage().user - began) / 1e6
  if (seconds > longestS) throw new Error(`took ${seconds} s`)
  const found = unsound(result, 'result')
  if (found !== undefined) throw new Error(found)
}

function outcome(use: () => unknown): unknown {
  try {
    const result = use()
    if (isRefused(result)) expectSentences(result.faults)
    return result
  } catch (error) {
    if (!(error instanceof FaultError)) throw error
    expectSentences(error.faults)
    return undefined
  }
}

const isRefused = (result: unknown): result is { readonly ok: false; readonly faults: readonly Fault[] } =>
  typeof result === 'object' && result !== null && 'ok' in result && result.ok === false && 'faults' in result

function expectSentences(faults: readonly Fault[]): void {
  if (faults.length === 0) throw new Error('refused without a fault')
  for (const f of faults) {
    const sentence = explain(f)
    if (!/[.?!:)]$/.test(sentence.trim()) || sentence.includes('[object')) throw new Error(`no sentence: ${sentence}`)
  }
}

/** Tries many inputs. */
export function tryAll<T>(inputs: fc.Arbitrary<T>, kind: keyof typeof runs, use: (input: T) => unknown): void {
  let tried = 0
  fc.assert(
    fc.property(inputs, (input) => {
      tried++
      take(() => use(input))
    }),
    { seed, numRuns: runs[kind] * factor },
  )
  expect(tried).toBe(runs[kind] * factor)
}
