import type { Limit, PartType } from '#core/device'
import type { Known } from './known.ts'

/** The three frequencies a maker may publish. */
export const cutoffSymbols = ['f_T', 'f_hfb', 'f_hfe'] as const
export type CutoffSymbol = (typeof cutoffSymbols)[number]

/**
 * f_hfb over f_T by the base: uniform in alloy transistors, graded in diffused and drift ones. Textbook: one pole gives 1
 * and a little more, the delay of the base 1.2, a graded base up to 2 (from memory: Pritchard; Phillips, Transistor
 * Engineering).
 */
export const excessPhase = { uniform: 1.2, graded: 2 } as const

/**
 * Common-base cut-off frequency of one pole: f_hfb = (1 + h_fe) f_hfe, Hz (Millman and Halkias; from memory).
 *
 * @example commonBaseCutoff(50e3, 99) // 5e6
 */
export const commonBaseCutoff = (fHfeHz: number, hFe: number): number => (1 + hFe) * fHfeHz

/** Transition frequency of one pole: f_T = h_fe f_hfe, Hz (Millman and Halkias; from memory). */
export const transitionFrequency = (fHfeHz: number, hFe: number): number => hFe * fHfeHz

/** A frequency that is asked for. */
export interface WantedCutoff {
  readonly symbol: CutoffSymbol
  readonly hz: number
  readonly why: string
  /** Gain it belongs to, for f_hfe. */
  readonly gain?: number
}

const limitOf = (type: PartType, symbol: CutoffSymbol): Limit | undefined =>
  type.limits.find((l) => l.symbol === symbol)

/** The frequency a type is known by, as it is published. */
export function publishedCutoff(type: PartType): { readonly symbol: CutoffSymbol; readonly limit: Limit } | undefined {
  for (const symbol of cutoffSymbols) {
    const limit = limitOf(type, symbol)
    if (limit !== undefined) return { symbol, limit }
  }
  return undefined
}

/** What a type is known to reach of a frequency, and under which symbol the two are compared. */
export interface Comparable {
  readonly symbol: CutoffSymbol
  /** What is needed of that symbol, Hz, on the strict side. */
  readonly neededHz: number
  readonly known: Known
}

/**
 * A type's frequency, comparable with what is needed: as it stands where both are published alike, else both as f_T, what
 * is needed on the strict side and what is offered on the safe side.
 *
 * @returns undefined where nothing is published
 */
export function comparableCutoff(wanted: WantedCutoff, type: PartType): Comparable | undefined {
  const same = wanted.symbol === 'f_hfe' ? undefined : limitOf(type, wanted.symbol)
  if (same !== undefined)
    return { symbol: wanted.symbol, neededHz: wanted.hz, known: knownOf(same, 1, `published ${wanted.symbol}`) }
  const found = publishedCutoff(type)
  if (found === undefined) return undefined
  const neededHz = wanted.symbol === 'f_hfe' ? transitionFrequency(wanted.hz, wanted.gain ?? 1) : wanted.hz
  const known = asTransition(found.symbol, found.limit, type)
  return known === undefined ? undefined : { symbol: 'f_T', neededHz, known }
}

/** A published frequency as f_T, on the safe side; nothing where the gain it takes is not known. */
function asTransition(symbol: CutoffSymbol, limit: Limit, type: PartType): Known | undefined {
  const how = `from the published ${symbol} by the textbook, on the safe side`
  switch (symbol) {
    case 'f_T':
      return knownOf(limit, 1, 'published f_T')
    case 'f_hfb':
      return knownOf(limit, 1 / excessPhase[hasUniformBase(type) ? 'uniform' : 'graded'], how)
    case 'f_hfe': {
      const gain = type.limits.find((l) => l.symbol === 'h_fe' || l.symbol === 'h_FE')
      const least = gain?.min ?? gain?.typ
      if (least === undefined) return undefined
      const { high: _, ...known } = knownOf(limit, transitionFrequency(1, least), how)
      return known
    }
  }
}

/** Alloy transistors have a uniform base, but those called drift or diffused. */
const hasUniformBase = ({ construction = '' }: PartType): boolean =>
  /alloy/i.test(construction) && !/drift|diffused/i.test(construction)

/** f_T is never above f_hfb, so that a highest value bounds it as it stands. */
const knownOf = ({ min, typ, max }: Limit, by: number, how: string): Known => ({
  ...(min === undefined ? {} : { low: min * by }),
  ...(max === undefined ? {} : { high: max }),
  ...(typ === undefined ? {} : { usual: typ * by }),
  how,
})
