import { printPlain } from '#core/quantity'
import { ratingUnits } from './letter-symbols.ts'
import type { GainRank, Limit, PartType, PowerRating, Ratings } from './part-type.ts'

/**
 * How far printed ratings may lie from each other, as a part of them: makers round a derating to a digit or two (common
 * practice).
 */
export const ratingsRounded = 0.08

/** Ratings of which the first is never above the second. */
const inOrder = [
  ['V_CEO', 'V_CBO'],
  ['V_CEO', 'V_CER'],
  ['V_CEO', 'V_CES'],
  ['V_CER', 'V_CBO'],
  ['V_CES', 'V_CBO'],
  ['V_PT', 'V_CBO'],
  ['I_B', 'I_C'],
  ['I_C', 'I_CM'],
  ['V_R', 'V_RRM'],
  ['I_F', 'I_FRM'],
  ['I_FRM', 'I_FSM'],
  ['I_F(AV)', 'I_FSM'],
  ['R_thJC', 'R_thJA'],
] as const satisfies readonly (readonly [keyof Ratings, keyof Ratings])[]

/** Conditions of a limit, and the ratings of which the largest bounds them. */
const bounded = [
  ['V_CB', ['V_CBO']],
  ['V_EB', ['V_EBO']],
  ['V_CE', ['V_CBO', 'V_CES', 'V_CER', 'V_CEO']],
  ['V_R', ['V_R', 'V_RRM']],
  ['I_C', ['I_C', 'I_CM']],
] as const satisfies readonly (readonly [keyof Limit['at'], readonly (keyof Ratings)[]])[]

/** Breakdown voltages and the ratings they are the same as. */
const breakdown: Readonly<Record<string, keyof Ratings>> = {
  'V_(BR)CEO': 'V_CEO',
  'V_CEO(sus)': 'V_CEO',
  'V_(BR)CBO': 'V_CBO',
  'V_(BR)EBO': 'V_EBO',
  'V_(BR)CES': 'V_CES',
}

/**
 * What a published record says against itself: power against junction temperature and thermal resistance, ratings out
 * of order, tests beyond ratings, bounds and gain ranks that exclude each other, a read record without a source.
 *
 * @returns a sentence for each; none for a record that agrees with itself
 * @see IEC 60747-1: P_tot = (T_J - T_ref) / R_th, and the order of voltage ratings in IEC 60747-7 (from memory)
 * @example contradictionsIn({ ...t, ratings: { T_Jmax: 200, R_thJC: 35, power: [{ powerW: 10, of: 'case', atC: 25 }] } })
 *   // ['10 W at a case of 25 °C and 35 K/W: the junction would be at 375 °C, and T_Jmax is 200 °C.']
 */
export const contradictionsIn = (t: PartType): readonly string[] => [
  ...t.ratings.power.flatMap((p) => [...resistanceFaults(t.ratings, p), ...deratingFaults(t.ratings, p)]),
  ...orderFaults(t.ratings),
  ...t.limits.flatMap((l) => [...boundFaults(l), ...testFaults(t.ratings, l), ...breakdownFaults(t.ratings, l)]),
  ...pairFaults(t.limits),
  ...rankFaults(t),
  ...(t.provenance.kind === 'read' && t.provenance.where.length === 0 ? ['It was read, and names no source.'] : []),
]

const watts = (w: number): string => printPlain(w, 'W', { digits: 4 })
const where = ({ of, atC }: PowerRating): string => `${of === 'case' ? 'a case' : 'air'} of ${atC} °C`
const isApart = (a: number, b: number): boolean => Math.abs(a / b - 1) > ratingsRounded

function resistanceFaults({ T_Jmax, R_thJA, R_thJC }: Ratings, p: PowerRating): readonly string[] {
  const rth = p.of === 'case' ? R_thJC : R_thJA
  if (T_Jmax === undefined) return []
  if (p.atC >= T_Jmax) return [`${watts(p.powerW)} at ${where(p)}, and T_Jmax is ${T_Jmax} °C.`]
  if (rth === undefined || !isApart(p.powerW, (T_Jmax - p.atC) / rth)) return []
  const junctionC = Math.round(p.atC + rth * p.powerW)
  return [
    `${watts(p.powerW)} at ${where(p)} and ${rth} K/W: the junction would be at ${junctionC} °C, and T_Jmax is ${T_Jmax} °C.`,
  ]
}

function deratingFaults({ T_Jmax }: Ratings, p: PowerRating): readonly string[] {
  const { deratingWPerK: slope } = p
  if (slope === undefined || T_Jmax === undefined || !isApart(slope * (T_Jmax - p.atC), p.powerW)) return []
  const endC = Math.round(p.atC + p.powerW / slope)
  return [
    `${watts(p.powerW)} at ${where(p)} less ${Number((1000 * slope).toPrecision(4))} mW/K is nothing at ${endC} °C, and T_Jmax is ${T_Jmax} °C.`,
  ]
}

const orderFaults = (r: Ratings): readonly string[] =>
  inOrder.flatMap(([less, more]) => {
    const [a, b] = [r[less], r[more]]
    if (a === undefined || b === undefined || a <= b) return []
    const said = (value: number): string => printPlain(value, ratingUnits[less], { digits: 4 })
    return [`${less} ${said(a)} is above ${more} ${said(b)}.`]
  })

function boundFaults({ symbol, min, typ, max }: Limit): readonly string[] {
  const given = [min, typ, max].filter((x) => x !== undefined)
  return given.every((x, i) => i === 0 || x >= given[i - 1]!)
    ? []
    : [`${symbol}: ${given.join(', ')} are out of order.`]
}

function testFaults(r: Ratings, { symbol, at }: Limit): readonly string[] {
  if (symbol in breakdown) return []
  return bounded.flatMap(([condition, ratings]) => {
    const most = Math.max(...ratings.map((name) => r[name] ?? Number.NEGATIVE_INFINITY))
    const tested = at[condition]
    if (tested === undefined || !Number.isFinite(most) || tested <= most * (1 + 1e-9)) return []
    return [`${symbol} is tested at ${condition} ${tested}, beyond the rating of ${most}.`]
  })
}

function breakdownFaults(r: Ratings, { symbol, min }: Limit): readonly string[] {
  const rating = breakdown[symbol]
  const rated = rating === undefined ? undefined : (r[rating] as number | undefined)
  if (min === undefined || rated === undefined || min >= rated) return []
  return [`${symbol} may be ${min}, below the rating ${rating} of ${rated}.`]
}

/** Limits of one symbol at the same conditions that no part can meet together. */
function pairFaults(limits: readonly Limit[]): readonly string[] {
  const place = (l: Limit): string => JSON.stringify([l.symbol, l.note, Object.entries(l.at).sort()])
  return limits.flatMap((a, i) =>
    limits.slice(i + 1).flatMap((b) => {
      if (place(a) !== place(b)) return []
      const [low, high] = [Math.max(a.min ?? 0, b.min ?? 0), Math.min(a.max ?? Infinity, b.max ?? Infinity)]
      return low <= high ? [] : [`${a.symbol} is to be ${low} or more, and ${high} or less, at the same conditions.`]
    }),
  )
}

function rankFaults({ gainRanks, limits }: PartType): readonly string[] {
  if (gainRanks === undefined) return []
  const at = JSON.stringify(Object.entries(gainRanks.at).sort())
  const whole = limits.filter((l) => l.symbol === 'h_FE' && JSON.stringify(Object.entries(l.at).sort()) === at)
  const isOutside = (r: GainRank): boolean =>
    whole.some((l) => r.min < (l.min ?? 0) * (1 - 1e-9) || r.max > (l.max ?? Infinity) * (1 + 1e-9))
  return gainRanks.ranks.flatMap((r) => [
    ...(r.min < r.max ? [] : [`Rank ${r.suffix}: ${r.min} is not below ${r.max}.`]),
    ...(isOutside(r) ? [`Rank ${r.suffix}, ${r.min} to ${r.max}, is outside the gains of the type.`] : []),
  ])
}
