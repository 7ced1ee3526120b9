import {
  collectorBaseLimitV,
  collectorLimitV,
  currentLimitA,
  emitterLimitV,
  type Material,
  type PartType,
  type PowerRating,
  reverseLimitV,
} from '#core/device'
import { deratedPower, type HeatPath, heatPath, junctionAfter, pathResistance, safeTime } from '#core/physics'
import type { Group } from './group.ts'
import { rules, usualJunctionC } from './rule.ts'
import { say, sentence } from './say.ts'
import type { Step, Wishes } from './sheet.ts'

/** The most a sheet asks of one part: ratings derated for this room, with their margins. SI units, magnitudes. */
export interface Ceiling {
  /** Ambient temperature with twice its uncertainty added, degC. */
  readonly ambientC: number
  /** Highest junction temperature, T_Jmax less its margin, degC. */
  readonly junctionC: number
  readonly path: HeatPath
  readonly powerW: number
  /** Collector or forward current, A. */
  readonly currentA: number
  readonly baseA: number
  readonly collectorV: number
  readonly collectorBaseV: number
  /** Left out where V_EBO is not published: the junction is then never reversed. */
  readonly emitterBaseV?: number
  readonly reverseV: number
  /** Rated power at this ambient temperature and rated current, where published: near them a reading is short. */
  readonly ratedW?: number
  readonly ratedA?: number
  /** What was taken for granted, one sentence each. */
  readonly assumed: readonly string[]
}

const largest = (numbers: readonly (number | undefined)[]): number | undefined => {
  const known = numbers.filter((n) => n !== undefined)
  return known.length === 0 ? undefined : Math.max(...known)
}

const smallest = (numbers: readonly (number | undefined)[]): number | undefined => {
  const known = numbers.filter((n) => n !== undefined)
  return known.length === 0 ? undefined : Math.min(...known)
}

/** Share of ratings to use: less where the record is not trusted. */
const shareOf = (t: PartType | undefined): number =>
  t?.provenance.confidence === 'low' ? rules.lowConfidenceShare : rules.ratingShare

/** Voltage ceilings of a transistor, and what they stand on. */
function transistorVoltages(t: PartType | undefined, share: number, assumed: string[]) {
  const collector = t === undefined ? undefined : collectorLimitV(t)
  const base = t === undefined ? undefined : collectorBaseLimitV(t)
  const emitter = t === undefined ? undefined : emitterLimitV(t)
  if (collector === undefined)
    assumed.push(`No collector voltage is published: at most ${say(rules.unknownV, 'V')}, and the lowest supply.`)
  else if (!collector.published) assumed.push(`${sentence(collector.how)}: ${say(collector.value, 'V')}.`)
  return {
    collectorV: collector === undefined ? rules.unknownV : collector.value * share,
    collectorBaseV: base === undefined ? rules.unknownV : base.value * share,
    ...(emitter === undefined ? {} : { emitterBaseV: emitter.value * share }),
  }
}

/** Reverse voltage a diode is trusted with, V; a Zener diode stays where its leakage is published, below its knee. */
function reverseVoltage(t: PartType | undefined, share: number): number {
  if (t?.family !== 'zener') {
    const rating = t === undefined ? undefined : reverseLimitV(t)?.value
    return rating === undefined ? rules.unknownV : rating * share
  }
  const knee = smallest(t.limits.filter((l) => l.symbol === 'V_Z').map((l) => l.min ?? l.typ ?? l.max))
  const leakage = largest(t.limits.filter((l) => l.symbol === 'I_R').map((l) => l.at.V_R))
  const below = (knee ?? rules.unknownV / 2) * share
  return Math.min(below, leakage ?? below / 2)
}

/** Highest current at which the part is published to be measured, A: it bears that at least. */
function measuredA(t: PartType | undefined, isDiode: boolean): number | undefined {
  const limits = t?.limits ?? []
  if (isDiode) return largest(limits.filter((l) => l.symbol === 'V_F').map((l) => l.at.I_F))
  return largest(limits.filter((l) => l.symbol === 'h_FE').map((l) => l.at.I_C))
}

/** Rated collector or forward current, A. That of a Zener diode is rated for breakdown and says little forward. */
function ratedCurrent(t: PartType | undefined): number | undefined {
  if (t === undefined) return undefined
  return t.family === 'zener' ? smallest([t.ratings.I_F, t.ratings['I_F(AV)']]) : currentLimitA(t)?.value
}

/** The worse of two ways out for heat. */
const worsePath = (a: HeatPath, b: HeatPath): HeatPath => (pathResistance(a) >= pathResistance(b) ? a : b)

/** Power a diode is taken to bear where none is rated: its rated forward current times its forward drop. */
function forwardPower(t: PartType | undefined): PowerRating | undefined {
  const forward = ratedCurrent(t)
  if (t === undefined || forward === undefined || t.ratings.power.length > 0 || t.ratings.R_thJA !== undefined)
    return undefined
  const drop = largest(t.limits.filter((l) => l.symbol === 'V_F').map((l) => l.max ?? l.typ)) ?? 1
  return { powerW: forward * drop, of: 'ambient', atC: 25 }
}

/** Ratings of heat made whole: T_Jmax by material; a diode's power from its forward current where no power is rated. */
function heatOf(t: PartType | undefined, material: Material, isDiode: boolean, assumed: string[]) {
  const r = t?.ratings
  const tJmax = r?.T_Jmax ?? usualJunctionC[material]
  if (r?.T_Jmax === undefined)
    assumed.push(`T_Jmax is not published: ${tJmax} degC is taken, usual for the material (common practice).`)
  const own = {
    T_Jmax: tJmax,
    power: r?.power ?? [],
    ...(r?.R_thJA === undefined ? {} : { R_thJA: r.R_thJA }),
    ...(r?.R_thJC === undefined ? {} : { R_thJC: r.R_thJC }),
  }
  const forward = isDiode ? forwardPower(t) : undefined
  if (forward === undefined) return { tJmax, power: own.power, path: heatPath(own, t?.outline) }
  assumed.push('No power is rated: rated forward current times forward drop is taken (common practice).')
  const power = [forward]
  const path = heatPath({ ...own, power })
  const byOutline = heatPath(own, t?.outline)
  return { tJmax, power, path: byOutline.from.startsWith('typical') ? worsePath(path, byOutline) : path }
}

/** Rated power at ambient: free-air ratings count first, for a sheet assumes no heat sink; else the case at ambient. */
function ratedPower(heat: ReturnType<typeof heatOf>, ambientC: number): number | undefined {
  const free = heat.power.filter((p) => p.of === 'ambient')
  return smallest((free.length > 0 ? free : heat.power).map((p) => deratedPower(p, heat.tJmax, ambientC)))
}

/**
 * The ceiling of one part in one room. Where a rating is missing the weaker of what is usual is taken, and said.
 *
 * @param t published record; left out for an unknown part
 * @param isDiode for an unknown part, what it is taken for
 */
export function ceilingOf(t: PartType | undefined, wishes: Wishes, isDiode: boolean): Ceiling {
  const assumed: string[] = []
  const share = shareOf(t)
  const ambientC = wishes.ambientC + 2 * wishes.ambientU
  const heat = heatOf(t, t?.material ?? 'Ge', isDiode, assumed)
  const junctionC = heat.tJmax - rules.junctionMarginK
  const rated = ratedPower(heat, ambientC)
  const ratedA = ratedCurrent(t)
  const trusted = ratedA ?? measuredA(t, isDiode)
  if (trusted === undefined)
    assumed.push(`No current is published: at most ${say(rules.gentleA, 'A')} (common practice).`)
  const currentA = trusted === undefined ? rules.gentleA : trusted * share
  const baseRating = t?.ratings.I_B
  return {
    ambientC,
    junctionC,
    path: heat.path,
    powerW: Math.max(0, rated === undefined ? (junctionC - ambientC) / pathResistance(heat.path) : rated * share),
    currentA,
    baseA: Math.min(currentA / 5, baseRating === undefined ? Number.POSITIVE_INFINITY : baseRating * share),
    ...(isDiode ? { collectorV: 0, collectorBaseV: 0 } : transistorVoltages(t, share, assumed)),
    reverseV: reverseVoltage(t, share),
    ...(rated === undefined ? {} : { ratedW: rated }),
    ...(ratedA === undefined ? {} : { ratedA }),
    assumed,
  }
}

/** Whether a power may be applied at all, and how long. */
export interface OnTime {
  readonly isAllowed: boolean
  /** Left out where it may stay on. */
  readonly safeSeconds?: number
  /** Whether the time holds for a part that was cool before. */
  readonly needsCool: boolean
}

const never: OnTime = { isAllowed: false, needsCool: false }

/**
 * Longest time for a power and a current: the junction stays at its ceiling, a reading near a rating is short, and
 * nothing that warms stays on longer than a minute.
 */
export function onTime(c: Ceiling, powerW: number, currentA: number): OnTime {
  if (powerW > c.powerW || currentA > c.currentA * (1 + 1e-9)) return never
  const heatS = safeTime(c.path, c.ambientC, powerW, c.junctionC)
  if (heatS < rules.shortestReadS) return never
  const needsCool = heatS !== Number.POSITIVE_INFINITY
  const isNear =
    (c.ratedW !== undefined && powerW > c.ratedW * rules.nearRatingShare) ||
    (c.ratedA !== undefined && currentA > c.ratedA * rules.nearRatingShare)
  const warms = powerW * pathResistance(c.path) > rules.stayOnRiseK
  if (!isNear && !needsCool && !warms) return { isAllowed: true, needsCool }
  const longest = isNear ? rules.nearRatingS : rules.longestReadS
  return { isAllowed: true, safeSeconds: Math.min(longest, Math.floor(heatS)), needsCool }
}

/** Time limit as a step carries it. */
export const timed = (t: OnTime): { readonly safeSeconds?: number } =>
  t.safeSeconds === undefined ? {} : { safeSeconds: t.safeSeconds }

/** A group of steps under one power. */
export const heated = (t: OnTime, steps: readonly Step[]): Group => ({
  steps,
  warms: t.safeSeconds !== undefined,
  needsCool: t.needsCool,
})

/** Largest power that may be on for the time a reading takes, W. */
export function readablePower(c: Ceiling): number {
  const perWatt = junctionAfter(c.path, 0, 1, rules.shortestReadS)
  return Math.max(0, Math.min(c.powerW, (c.junctionC - c.ambientC) / perWatt) * (1 - 1e-9))
}
