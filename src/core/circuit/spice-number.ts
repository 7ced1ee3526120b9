const factors: Readonly<Record<string, number>> = {
  t: 1e12,
  g: 1e9,
  meg: 1e6,
  k: 1e3,
  mil: 25.4e-6,
  m: 1e-3,
  u: 1e-6,
  n: 1e-9,
  p: 1e-12,
  f: 1e-15,
}

/**
 * A number as SPICE reads it: `4.7k`, `1meg` (a million), `1m` (a thousandth, also as `1M`), `10kohm`. Letters after the
 * suffix are a unit and do not count; figures after it are refused, where SPICE would drop them (`4k7`).
 *
 * @returns undefined where it is not a number
 */
export function spiceNumber(text: string): number | undefined {
  const found = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)([a-z%]*)$/i.exec(text)
  if (found === null) return undefined
  const suffix = found[2]!.toLowerCase()
  const key = /^(?:meg|mil|[tgkmunpf])/.exec(suffix)?.[0]
  const value = Number(key === undefined ? found[1] : scaled(found[1]!, factors[key]!))
  return Number.isFinite(value) ? value : undefined
}

/** Decimal scaling by way of the exponent, so that 4.7k is exactly 4700. */
function scaled(mantissa: string, factor: number): string {
  const power = Math.log10(factor)
  if (!Number.isInteger(Math.round(power * 1e9) / 1e9)) return String(Number(mantissa) * factor)
  const [digits, exponent] = mantissa.toLowerCase().split('e') as [string, string?]
  return `${digits}e${Number(exponent ?? 0) + Math.round(power)}`
}
