import { parseValue, type Quantity } from '#core/quantity'
import type { Parameter } from '#core/reduce'

/** A value to match by: what it is of, and whether its logarithm is meant. */
export interface WantedValue {
  readonly of: string
  readonly log?: 'ln' | 'log10'
}

/** @example wantedValue('ln(h_FE)') // { of: 'h_FE', log: 'ln' } */
export function wantedValue(name: string): WantedValue {
  const found = /^(ln|log10)\((.+)\)$/.exec(name.trim())
  return found === null ? { of: name.trim() } : { of: found[2]!.trim(), log: found[1] as 'ln' | 'log10' }
}

/** The value itself or its logarithm; nothing where it has none. */
export function takeLog(value: number, log: WantedValue['log']): number | undefined {
  if (log === undefined) return value
  if (!(value > 0)) return undefined
  return log === 'ln' ? Math.log(value) : Math.log10(value)
}

/** The same with its budget: slopes of a logarithm are those of the value over the value itself. */
export function quantityTaken(q: Quantity, log: WantedValue['log']): Quantity | undefined {
  const value = takeLog(q.value, log)
  if (value === undefined || log === undefined) return value === undefined ? undefined : q
  const by = 1 / (q.value * (log === 'ln' ? 1 : Math.LN10))
  return { ...q, value, unit: '1', budget: q.budget.map((t) => ({ ...t, slope: t.slope * by })) }
}

/** Conditions within this share of those asked for are the same. */
const sameWithin = 0.1

/**
 * The value a person means by `h_FE@10mA`, `I_CBO@25C` or plain `V_BE`, among the parameters of a part: the first that
 * was measured, or was brought to 25 degC where that is said, with a current and a voltage as said.
 */
export function parameterMeant(parameters: readonly Parameter[], of: string): Parameter | undefined {
  const [symbol, ...at] = of.split('@').map((s) => s.trim())
  const isWarm = at.some((s) => /^25 ?(C|degC|°C)$/.test(s))
  const wanted = at.filter((s) => !/^25 ?(C|degC|°C)$/.test(s))
  return parameters.find(
    (p) =>
      p.symbol === symbol &&
      p.standing === (isWarm ? 'brought to 25 C' : 'measured') &&
      wanted.every((text) => isAt(p, text)),
  )
}

function isAt({ conditions }: Parameter, text: string): boolean {
  return (['A', 'V'] as const).some((unit) => {
    const parsed = parseValue(text, { unit })
    if (!parsed.ok) return false
    const letter = unit === 'A' ? 'I' : 'V'
    return Object.entries(conditions).some(
      ([symbol, x]) => symbol.startsWith(letter) && Math.abs(x - parsed.value) <= sameWithin * Math.abs(parsed.value),
    )
  })
}

/** What is wrong with a name that is to be a parameter; nothing where it can be read. */
export function badParameterName(of: string): string | undefined {
  const [symbol, ...at] = of.split('@').map((s) => s.trim())
  if (symbol === '') return 'names no parameter before the @'
  const bad = at.find((s) => !/^25 ?(C|degC|°C)$/.test(s) && !parses(s))
  return bad === undefined ? undefined : `asks for ${bad}, which is no current, no voltage and not 25C`
}

const parses = (text: string): boolean => (['A', 'V'] as const).some((unit) => parseValue(text, { unit }).ok)
