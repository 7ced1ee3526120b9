import type { PartType } from '#core/device'
import type { Reading } from '#core/tester'
import { isLeakage } from './carry.ts'
import type { Doubt, PartResult } from './parameter.ts'
import { reducePart } from './reduce-part.ts'
import { type Against, type AmbientOptions, ambientOf, hold, type SeenReading, type Thermometer } from './seen.ts'

export interface ReduceOptions extends AmbientOptions {
  /** Published record of a type by name; it gives material and thermal resistance. */
  readonly types?: (name: string) => PartType | undefined
  /** Whether parameters are brought to 25 degC as well; true unless one wants what was measured alone. */
  readonly at25?: boolean
  /** What is known against readings beside the description: every parameter from them says so (`range-as-found`). */
  readonly against?: Against
}

/** Readings of one part: those that gave a value, and those that gave a state. */
interface PartReadings {
  readonly values: SeenReading[]
  readonly states: Reading[]
}

/**
 * Reduces readings that the tester's inverse model has understood.
 *
 * @param seen readings that gave a value
 * @param states readings that gave a state: a short check, a needle against its stop, no null
 * @param thermometer the one that room temperatures were read on
 */
export function reduceSeen(
  seen: readonly SeenReading[],
  states: readonly Reading[],
  options: ReduceOptions = {},
  thermometer: Thermometer = { cause: 'thermometer' },
): PartResult[] {
  const parts = new Map<string, PartReadings>()
  const of = (part: string): PartReadings => {
    const have = parts.get(part)
    if (have !== undefined) return have
    const made: PartReadings = { values: [], states: [] }
    parts.set(part, made)
    return made
  }
  for (const s of seen) of(s.reading.part).values.push(s)
  for (const r of states) of(r.part).states.push(r)
  return [...parts.entries()]
    .map(([part, readings]) => ({ part, readings, pieces: part.match(/\d+|\D+/g) ?? [] }))
    .sort((a, b) => comparePieces(a.pieces, b.pieces))
    .map(({ part, readings }) => onePart(part, readings, options, thermometer))
}

/** Tags, cut into numbers and the rest, in the order people count them: T2 before T10. */
function comparePieces(a: readonly string[], b: readonly string[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i++) {
    const [p, q] = [a[i]!, b[i]!]
    if (p === q) continue
    const difference = Number(p) - Number(q)
    if (Number.isFinite(difference) && difference !== 0) return difference
    return p < q ? -1 : 1
  }
  return a.length - b.length
}

function onePart(part: string, r: PartReadings, options: ReduceOptions, thermometer: Thermometer): PartResult {
  const name = typeNameOf(r)
  const head = { part, ...(name === undefined ? {} : { type: name }) }
  const ended = r.states.find((s) => stateOf(s) === 'short') ?? r.states.find((s) => stateOf(s) === 'open')
  if (ended !== undefined) {
    const state = stateOf(ended) === 'short' ? 'short' : 'open'
    return { ...head, state, parameters: [], doubts: [endDoubt(ended, state)] }
  }
  const held = hold(r.values, (reading) => ambientOf(reading, options, thermometer))
  const type = name === undefined ? undefined : options.types?.(name)
  const context = {
    part,
    ...(name === undefined ? {} : { typeName: name }),
    ...(type === undefined ? {} : { type }),
    leakages: held.filter((h) => isLeakage(h.symbol)),
    at25: options.at25 ?? true,
  }
  return reducePart(
    context,
    held,
    r.states.map(stateDoubt).filter((d) => d !== undefined),
  )
}

const stateOf = (r: Reading): string => (r.shown.kind === 'state' ? r.shown.state : '')

/** The type written with the readings; where they differ, the first by name, so that order does not matter. */
const typeNameOf = (r: PartReadings): string | undefined =>
  [...r.values.map((s) => s.reading.type), ...r.states.map((s) => s.type)].filter((t) => t !== undefined).sort()[0]

const endDoubt = (r: Reading, state: 'short' | 'open'): Doubt => ({
  code: state,
  say:
    state === 'short'
      ? 'The part is shorted; nothing else of it was worked out. Check the leads, and if it stays shorted set it aside.'
      : `The part reads open at ${r.reads}; nothing else of it was worked out. Check the leads and their order.`,
  weight: 'notice',
})

function stateDoubt(r: Reading): Doubt | undefined {
  const state = stateOf(r)
  if (state === 'over')
    return {
      code: 'over-scale',
      say: `${r.reads} went over the scale${r.range === undefined ? '' : ` of the range ${r.range}`} and was not used. Read it on a higher range.`,
      weight: 'notice',
    }
  if (state === 'no null')
    return {
      code: 'no-null',
      say: `The gain dial found no null at point ${r.point}, so there is no gain from it. Try another span; if none nulls, suspect the lead order or much leakage.`,
      weight: 'notice',
    }
  return undefined
}
