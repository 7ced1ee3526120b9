import { type Fault, FaultError } from '#core/fault'
import type { Wishes } from './sheet.ts'

/** What a plan takes where the person says nothing: an ordinary room, known to two kelvin. */
export const wishDefaults = { ambientC: 23, ambientU: 2 } as const satisfies Wishes

type Span = readonly [low: number, high: number, unit: string]

const spans: Readonly<Record<string, Span>> = {
  ambientC: [-20, 60, 'degC'],
  ambientU: [0, 20, 'K'],
  collectorA: [1e-9, 100, 'A'],
  supplyV: [0.1, 1000, 'V'],
  forwardA: [1e-9, 100, 'A'],
}

const words: Readonly<Record<string, readonly string[]>> = {
  polarity: ['NPN', 'PNP'],
  material: ['Ge', 'Si'],
  family: ['bjt', 'diode'],
}

function faultOf(field: string, value: unknown): Fault | undefined {
  const bad = (problem: string, mend: string): Fault => ({
    code: 'bad-input',
    place: { field },
    value: String(value),
    problem,
    mend,
  })
  const span = spans[field]
  if (span !== undefined) {
    const [low, high, unit] = span
    if (typeof value === 'number' && value >= low && value <= high) return undefined
    return bad(`is not between ${low} and ${high} ${unit}`, `Give a number from ${low} to ${high} (${unit}).`)
  }
  const allowed = words[field]
  if (allowed === undefined) return bad('is not something a plan can be asked', `Leave out ${field}.`)
  return allowed.includes(String(value)) ? undefined : bad('is not known here', `Write ${allowed.join(' or ')}.`)
}

/**
 * Wishes made whole with the defaults and checked.
 *
 * @throws {FaultError} `bad-input` for every wish that makes no sense, all together
 */
export function wishesOf(wishes: Partial<Wishes>): Wishes {
  const given = Object.entries(wishes).filter(([, value]) => value !== undefined)
  const faults = given.map(([field, value]) => faultOf(field, value)).filter((f) => f !== undefined)
  if (faults.length > 0) throw new FaultError(faults)
  return { ...wishDefaults, ...(Object.fromEntries(given) as Partial<Wishes>) }
}
