import { conditionSymbols, letterSymbol } from '#core/device'

/** A symbol with its value, as typed. */
export type Entry = readonly [symbol: string, value: string]

/** Conditions as one types them: `I_C 2 mA, V_CE 4.5 V`. A symbol that is not known stays as it is, to be said. */
export const readConditions = (text: string): readonly Entry[] =>
  text
    .split(/;|,(?=\s*(?:[A-Za-z_]|$))/)
    .map((piece) => /^\s*([^\s=]+)\s*=?\s*(.*?)\s*$/.exec(piece))
    .filter((m) => m !== null)
    .map((m): Entry => [letterSymbol(m[1]!, conditionSymbols) ?? m[1]!, m[2]!])

/** The same as one line. */
export const writeConditions = (entries: readonly Entry[]): string =>
  entries.map(([symbol, value]) => `${symbol} ${value}`.trim()).join(', ')
