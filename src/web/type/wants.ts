import { letterSymbol, letterSymbols, ratingUnits, type Span } from '#core/device'
import { parseValue, printPlain, type Unit } from '#core/quantity'

/** What was understood of "V_CEO above 20 V, h_FE 100 to 300", or what is wrong with it. */
export interface WantsRead {
  readonly within: Readonly<Record<string, Span>>
  /** One clause for each limit that was understood. */
  readonly echo: readonly string[]
  /** One sentence for each that was not. */
  readonly faults: readonly string[]
}

const units: Readonly<Record<string, Unit>> = {
  ...Object.fromEntries(Object.entries(letterSymbols).map(([symbol, s]) => [symbol, s.unit])),
  ...ratingUnits,
  P_tot: 'W',
}
const known = Object.keys(units)

const lead = /^([A-Za-z]+(?:_?[A-Za-z0-9]+)*(?:\([A-Za-z]+\))?(?:[A-Z]+)?)\s*(.*)$/
const signs: readonly (readonly [RegExp, 'min' | 'max'])[] = [
  [/^(?:>=|=>|≥|>|min\b|from\b|above\b|over\b|at least\b)\s*/i, 'min'],
  [/^(?:<=|=<|≤|<|max\b|up to\b|below\b|under\b|at most\b)\s*/i, 'max'],
]
const between = /^(?:=|between\b)?\s*(.+?)\s*(?:\.\.|–|\bto\b|\band\b)\s*(.+)$/i

type Clause = { readonly symbol: string; readonly span: Span; readonly say: string } | { readonly fault: string }

/**
 * Reads limits as people type them: `V_CEO > 20 V, hFE 100 to 300; Ptot >= 150 mW`. A bare value is a least one.
 *
 * @example readWants('vceo 20').within // { V_CEO: { min: 20 } }
 */
export function readWants(text: string): WantsRead {
  const clauses = text
    .split(/;|,(?=\s*[A-Za-z_])/)
    .map((c) => c.trim())
    .filter((c) => c !== '')
    .map(readClause)
  const within: Record<string, Span> = {}
  for (const c of clauses) if ('symbol' in c) within[c.symbol] = { ...within[c.symbol], ...c.span }
  return {
    within,
    echo: clauses.flatMap((c) => ('symbol' in c ? [c.say] : [])),
    faults: clauses.flatMap((c) => ('fault' in c ? [c.fault] : [])),
  }
}

function readClause(clause: string): Clause {
  const m = lead.exec(clause)
  const symbol = m === null ? undefined : symbolOf(m[1]!)
  if (m === null || symbol === undefined)
    return { fault: `"${m?.[1] ?? clause}" is not a symbol. Write V_CEO, I_C, P_tot, h_FE or f_T.` }
  const unit = units[symbol]!
  const span = readSpan(m[2]!.trim(), unit)
  if ('fault' in span) return { fault: `${symbol}: ${span.fault}` }
  return { symbol, span, say: `${symbol} ${spanText(span, unit)}` }
}

/** Typed in a hurry, `hfe` means the gain that testers read; `h_fe` is the small-signal one. */
const symbolOf = (typed: string): string | undefined => (typed === 'hfe' ? 'h_FE' : letterSymbol(typed, known))

function readSpan(text: string, unit: Unit): Span | { readonly fault: string } {
  if (text === '') return { fault: 'how much? Write a value, such as > 20 V.' }
  const both = between.exec(text)
  if (both !== null) {
    const min = read(both[1]!, unit)
    const max = read(both[2]!, unit)
    if (typeof min === 'object') return min
    if (typeof max === 'object') return max
    return { min, max }
  }
  const sign = signs.find(([pattern]) => pattern.test(text))
  const value = read(sign === undefined ? text.replace(/^=\s*/, '') : text.replace(sign[0], ''), unit)
  if (typeof value === 'object') return value
  return sign?.[1] === 'max' ? { max: value } : { min: value }
}

function read(text: string, unit: Unit): number | { readonly fault: string } {
  const parsed = parseValue(text, { unit })
  return parsed.ok ? parsed.value : { fault: `"${text}" ${parsed.problem}. ${parsed.mend}` }
}

function spanText({ min, max }: Span, unit: Unit): string {
  const say = (v: number): string => printPlain(v, unit)
  if (min !== undefined && max !== undefined) return `${say(min)} to ${say(max)}`
  return min === undefined ? `at most ${say(max!)}` : `at least ${say(min)}`
}
