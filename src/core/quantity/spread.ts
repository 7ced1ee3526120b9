import type { Quantity, Term } from './quantity.ts'

/** How much one cause contributes, in the quantity's own unit and without sign. */
export const contribution = (t: Term): number => Math.abs(t.slope * t.u)

/** Standard uncertainty, in the quantity's own unit (JCGM 100:2008, eq. 10, and eq. 13 where causes are correlated). */
export function standardUncertainty(q: Quantity): number {
  if (q.correlations !== undefined) return Math.sqrt(Math.max(0, covariance(q, q)))
  let squares = 0
  for (const t of q.budget) squares += (t.slope * t.u) ** 2
  return squares > 1e-280 && squares < 1e280 ? Math.sqrt(squares) : Math.hypot(...q.budget.map(contribution))
}

/** Covariance of two quantities from the causes they share, and from correlated causes (JCGM 100:2008, F.1.2.3). */
export function covariance(p: Quantity, q: Quantity): number {
  const inQ = new Map(q.budget.map((t) => [t.cause, t.slope * t.u]))
  const inP = new Map(p.budget.map((t) => [t.cause, t.slope * t.u]))
  let sum = 0
  for (const [cause, a] of inP) sum += a * (inQ.get(cause) ?? 0)
  const seen = new Set<string>()
  for (const c of [...(p.correlations ?? []), ...(q.correlations ?? [])]) {
    const key = c.a < c.b ? `${c.a}\n${c.b}` : `${c.b}\n${c.a}`
    if (seen.has(key)) continue
    seen.add(key)
    sum += c.r * ((inP.get(c.a) ?? 0) * (inQ.get(c.b) ?? 0) + (inP.get(c.b) ?? 0) * (inQ.get(c.a) ?? 0))
  }
  return sum
}

/** Correlation coefficient of two quantities; 0 where either is without doubt. */
export function correlation(p: Quantity, q: Quantity): number {
  const both = standardUncertainty(p) * standardUncertainty(q)
  return both === 0 ? 0 : covariance(p, q) / both
}
