import { printPlain, type Unit } from '#core/quantity'

/**
 * What is known of a number of a part: it is no less than `low` and no more than `high`, as far as these are known. A
 * typical value bounds nothing and is kept apart.
 */
export interface Known {
  readonly low?: number
  readonly high?: number
  readonly usual?: number
  /** Where it comes from, as a clause: "published V_CEO". */
  readonly how: string
}

export const exactlyKnown = (value: number, how: string): Known => ({ low: value, high: value, how })

/** A number that is asked for, and why that much, as a clause: "as 2N404 has". */
export interface Wanted {
  readonly value: number
  readonly why: string
}

/**
 * `enough`: all that is asked for. `care`: some parts of the type will do, or something has to be done. `unknown`:
 * nothing is known that would tell. `short`: it cannot stand in.
 */
export type CheckWord = 'enough' | 'care' | 'unknown' | 'short'

/** One thing a stand-in is held to. */
export interface Check {
  /** What is compared, as a name that stays: `voltage`, `gain`, `leads`. */
  readonly what: string
  /** Symbol of the number, where it is one. */
  readonly symbol?: string
  readonly unit?: Unit
  readonly needed?: number
  readonly offered?: number
  /** What is offered over what is needed, or the other way round for what must stay small: 1 is just enough. */
  readonly ratio?: number
  readonly word: CheckWord
  /** A sentence. */
  readonly says: string
}

/** What a number is called, for a check of it. */
export interface Named {
  readonly what: string
  readonly symbol: string
  readonly unit: Unit
  /** Why a part that is not sure to have enough may still do, and what to do about it; a sentence. */
  readonly care?: string
}

export const valueText = (value: number, unit: Unit): string => printPlain(value, unit, { digits: 3 })

/** Whether a number is as large as it must be. */
export function atLeast(named: Named, wanted: Wanted, known: Known | undefined): Check {
  if (known === undefined) return unknown(named, wanted)
  const { low, usual, high } = known
  const isShort = high !== undefined && high < wanted.value
  const offered = low ?? usual ?? (isShort ? high : undefined)
  const ratio = offered === undefined ? undefined : offered / wanted.value
  const word =
    low !== undefined && low >= wanted.value ? 'enough' : isShort ? 'short' : low === undefined ? 'unknown' : 'care'
  return said(named, wanted, known, { word, offered, ratio, bound: 'at least' })
}

/** Whether a number is as small as it must be. */
export function atMost(named: Named, wanted: Wanted, known: Known | undefined): Check {
  if (known === undefined) return unknown(named, wanted)
  const { low, usual, high } = known
  const isShort = low !== undefined && low > wanted.value
  const offered = high ?? usual ?? (isShort ? low : undefined)
  const ratio = offered === undefined ? undefined : wanted.value / offered
  const word =
    high !== undefined && high <= wanted.value ? 'enough' : isShort ? 'short' : high === undefined ? 'unknown' : 'care'
  return said(named, wanted, known, { word, offered, ratio, bound: 'at most' })
}

function unknown({ what, symbol, unit }: Named, wanted: Wanted): Check {
  const says = `${symbol} is not published: unknown. ${needText(wanted, unit)}`
  return { what, symbol, unit, needed: wanted.value, word: 'unknown', says }
}

interface Outcome {
  readonly word: CheckWord
  readonly offered: number | undefined
  readonly ratio: number | undefined
  readonly bound: 'at least' | 'at most'
}

function said(named: Named, wanted: Wanted, known: Known, { word, offered, ratio, bound }: Outcome): Check {
  const { what, symbol, unit, care } = named
  const numbers = `${symbol} ${offeredText(known, unit)}, ${known.how}; ${bound} ${valueText(wanted.value, unit)} is needed, ${wanted.why}.`
  const says = word === 'care' && care !== undefined ? `${numbers} ${care}` : numbers
  const compared = offered === undefined || ratio === undefined || !Number.isFinite(ratio) ? {} : { offered, ratio }
  return { what, symbol, unit, needed: wanted.value, ...compared, word, says }
}

const needText = ({ value, why }: Wanted, unit: Unit): string => `${valueText(value, unit)} is needed, ${why}.`

/** What is known of a number: `20 V`, `40 to 120`, `at least 30`, `typically 47`. */
function offeredText({ low, high, usual }: Known, unit: Unit): string {
  const text = (v: number): string => valueText(v, unit)
  if (low !== undefined && high !== undefined) return low === high ? text(low) : `${text(low)} to ${text(high)}`
  if (low !== undefined) return `at least ${text(low)}`
  if (high !== undefined) return `at most ${text(high)}`
  return `typically ${text(usual ?? Number.NaN)}`
}
