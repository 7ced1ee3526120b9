import type { bipolarOrder } from './bipolar-currents.ts'
import type { Curve, CurvePoint } from './curve.ts'
import { logLine, type Target } from './law.ts'

export type CardName = (typeof bipolarOrder)[number]

/**
 * First values of a transistor, in stages, each from the part of the curves where it shows most: I_S and N_F from the
 * straight part of ln I_C, B_F from the largest gain, I_SE from the smallest base current, the Early voltage from the
 * output family, the knee from the fall of gain at the largest current, resistances from what is left of V_BE there.
 */
export function bipolarStarts(
  curve: Curve,
  collector: readonly Target[],
  base: readonly Target[],
  vt: number,
): Record<CardName, number> {
  const most = collector.reduce((m, t) => Math.max(m, t.value), 0)
  const line = exponentialOf(collector, most, vt)
  const bf = gainOf(curve, collector.length > 0)
  const nf = line === undefined ? 1 : Math.min(2, Math.max(0.9, 1 / (line.slope * vt)))
  const top = base.reduce<Target | undefined>((m, t) => (m === undefined || t.value > m.value ? t : m), undefined)
  const first = base.reduce<Target | undefined>((m, t) => (m === undefined || t.value < m.value ? t : m), undefined)
  const topBase = top?.value ?? 1e-5
  const alone = top === undefined ? 1e-14 : topBase / Math.exp(top.point.values.V_BE! / vt)
  const is = line === undefined ? alone : Math.exp(line.at0)
  const ne = 1.6
  const ise = first === undefined ? 0 : (first.value / Math.expm1(first.point.values.V_BE! / (ne * vt))) * 0.7
  return {
    is,
    nf,
    bf,
    ise,
    ne,
    ikf: (most || 1e-3) * 3,
    vaf: earlyOf(curve) ?? 60,
    re: (0.05 * vt) / (most || 1e-3),
    rb: (0.2 * vt) / topBase,
    rc: (0.5 * vt) / (most || 1e-3),
    ...(top === undefined ? {} : highCurrents(top.point, { is, nf, bf }, vt)),
  }
}

/** The line of ln I_C against V_BE where neither knee nor resistance shows. */
function exponentialOf(collector: readonly Target[], most: number, vt: number): ReturnType<typeof logLine> {
  const gummel = collector.filter((t) => t.point.values.V_BE !== undefined)
  const low = gummel.filter((t) => t.value < most / 20 && t.point.values.V_BE! > 3 * vt)
  const used = low.length >= 2 ? low : gummel
  return logLine(
    used.map((t) => t.point.values.V_BE!),
    used.map((t) => t.value),
  )
}

function gainOf(curve: Curve, hasCollector: boolean): number {
  let most = 0
  for (const { values: v } of curve.points)
    if (v.I_C !== undefined && v.I_C > 0 && (v.I_B ?? 0) > 0) most = Math.max(most, v.I_C / v.I_B!)
  return most > 0 ? most : hasCollector ? 100 : 1
}

/** Voltage above which an output curve is taken to be straight, V. */
const straightV = 1

/** Median over the base currents of an output family of I_C at V_CE = 0 over its slope, V. */
function earlyOf(curve: Curve): number | undefined {
  const families = new Map<number, CurvePoint['values'][]>()
  for (const { values: v } of curve.points) {
    if (v.V_BE !== undefined || v.I_B === undefined || v.I_C === undefined || !(v.V_CE! > straightV)) continue
    const known = families.get(v.I_B)
    if (known === undefined) families.set(v.I_B, [v])
    else known.push(v)
  }
  const found = [...families.values()]
    .flatMap((rows) => {
      const mx = rows.reduce((s, v) => s + v.V_CE!, 0) / rows.length
      const my = rows.reduce((s, v) => s + v.I_C!, 0) / rows.length
      const xx = rows.reduce((s, v) => s + (v.V_CE! - mx) ** 2, 0)
      const xy = rows.reduce((s, v) => s + (v.V_CE! - mx) * (v.I_C! - my), 0)
      return xy > 0 ? [(my * xx) / xy - mx] : []
    })
    .sort((a, b) => a - b)
  const middle = found[found.length >> 1]
  return middle !== undefined && middle > 0 ? middle : undefined
}

/** Knee and resistances from the row of the largest base current, where it shows them. */
function highCurrents(
  { values }: CurvePoint,
  { is, nf, bf }: { readonly is: number; readonly nf: number; readonly bf: number },
  vt: number,
): Partial<Record<CardName, number>> {
  const { V_BE: vbe, I_B: ib, I_C: ic } = values
  if (vbe === undefined || ib === undefined || ic === undefined || !(ic > 0)) return {}
  const ideal = bf * ib
  const qb = ideal / ic
  const drop = vbe - nf * vt * Math.log1p(ideal / is)
  return {
    ...(qb > 1.05 ? { ikf: ideal / (qb * (qb - 1)) } : {}),
    ...(drop > 0.2 * vt ? { re: drop / (2 * (ic + ib)), rb: drop / (2 * ib) } : {}),
  }
}
