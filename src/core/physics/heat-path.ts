import type { Source } from '#core/quantity'
import { heatDefaults, type RatedPower, ratedResistance, transientRise } from './heat.ts'

/** What is published about the heat of a part; every field may be missing. Temperatures in degC, resistances in K/W. */
export interface HeatRatings {
  readonly T_Jmax: number
  readonly R_thJA?: number
  readonly R_thJC?: number
  readonly power: readonly RatedPower[]
}

/**
 * How heat leaves a part that stands alone in air: `fast` warms at once (die and header), `slow` with one time
 * constant (case to air). Their sum is the thermal resistance from junction to air.
 */
export interface HeatPath {
  readonly fastKPerW: number
  readonly slowKPerW: number
  readonly tauS: number
  /** Where the numbers come from, for people. */
  readonly from: string
}

/** A thermal resistance typical of an outline, without heat sink. */
export interface OutlineHeat {
  /** Outline as printed, `TO-18`. */
  readonly outline: string
  /** Usual span from junction to air (TO-3, TO-66, SO-55: from case to air), K/W. */
  readonly spanKPerW: readonly [low: number, high: number]
  readonly ofCase: boolean
  readonly source: Source
}

const fromRatings: Source = {
  title: 'computed from published power ratings: (T_Jmax - 25 degC) / P_25',
  standing: 'common practice',
}
const remembered: Source = { title: 'rule of thumb for a part in free air', standing: 'from memory' }

/** Typical thermal resistances to air by outline; used only where the ratings of a type do not say. */
export const outlineHeat: readonly OutlineHeat[] = [
  { outline: 'TO-18', spanKPerW: [350, 500], ofCase: false, source: fromRatings },
  { outline: 'TO-5', spanKPerW: [190, 220], ofCase: false, source: fromRatings },
  { outline: 'TO-39', spanKPerW: [190, 220], ofCase: false, source: fromRatings },
  { outline: 'TO-92', spanKPerW: [200, 250], ofCase: false, source: fromRatings },
  { outline: 'TO-1', spanKPerW: [300, 400], ofCase: false, source: remembered },
  { outline: 'TO-220', spanKPerW: [62.5, 62.5], ofCase: false, source: fromRatings },
  { outline: 'TO-126', spanKPerW: [100, 100], ofCase: false, source: fromRatings },
  { outline: 'TO-3', spanKPerW: [35, 40], ofCase: true, source: remembered },
  { outline: 'TO-66', spanKPerW: [50, 70], ofCase: true, source: remembered },
  { outline: 'SO-55', spanKPerW: [50, 70], ofCase: true, source: remembered },
  { outline: 'DO-7', spanKPerW: [400, 600], ofCase: false, source: remembered },
  { outline: 'DO-35', spanKPerW: [300, 400], ofCase: false, source: remembered },
  { outline: 'DO-41', spanKPerW: [80, 130], ofCase: false, source: remembered },
  { outline: 'DO-201AD', spanKPerW: [25, 60], ofCase: false, source: remembered },
]

/** Letters and figures of an outline, so that `TO-39 (TO-5)` is found under its first name. */
function outlineOf(name: string): OutlineHeat | undefined {
  const names = name.toUpperCase().match(/\b(?:TO|SO|DO|SOT)-?\d+[A-Z]*\b/g) ?? []
  for (const n of names) {
    const found = outlineHeat.find((o) => o.outline === n)
    if (found !== undefined) return found
  }
  return undefined
}

/** Resistance to the case: published, else from a rating at the case; the larger where both are there. */
function toCase(r: HeatRatings): number | undefined {
  const of = r.power.filter((p) => p.of === 'case').map((p) => ratedResistance(p, r.T_Jmax))
  const all = r.R_thJC === undefined ? of : [r.R_thJC, ...of]
  return all.length === 0 ? undefined : Math.max(...all)
}

/** Resistance to air and where it comes from. */
function toAir(r: HeatRatings, outline: string | undefined): readonly [rth: number, from: string] {
  const of = r.power.filter((p) => p.of === 'ambient').map((p) => ratedResistance(p, r.T_Jmax))
  if (r.R_thJA !== undefined || of.length > 0)
    return r.R_thJA !== undefined && of.every((x) => x <= r.R_thJA!)
      ? [r.R_thJA, 'published R_thJA']
      : [Math.max(...of), 'rated power in free air']
  const typical = outline === undefined ? undefined : outlineOf(outline)
  const jc = toCase(r)
  if (typical === undefined)
    return [
      heatDefaults.unknownKPerW + (jc ?? 0),
      'nothing published: a small part in free air taken (common practice)',
    ]
  const name = `typical of ${typical.outline} in free air (${typical.source.standing})`
  if (!typical.ofCase) return [Math.max(typical.spanKPerW[1], jc ?? 0), name]
  return [typical.spanKPerW[1] * (jc === undefined ? 1.25 : 1) + (jc ?? 0), name]
}

/**
 * The way heat takes out of a part without heat sink, from its ratings; from its outline where they do not say; on the
 * safe side of both.
 *
 * @param ratings published ratings; T_Jmax in degC
 * @param outline case outline as printed, `TO-39 (TO-5)`
 * @throws {FaultError} `out-of-domain` where a rating makes no sense
 */
export function heatPath(ratings: HeatRatings, outline?: string): HeatPath {
  const [air, from] = toAir(ratings, outline)
  const fast = Math.min(air, toCase(ratings) ?? air * heatDefaults.fastShare)
  return { fastKPerW: fast, slowKPerW: air - fast, tauS: heatDefaults.caseTauS, from }
}

/** Thermal resistance of a path from junction to air, K/W. */
export const pathResistance = (path: HeatPath): number => path.fastKPerW + path.slowKPerW

/** Junction temperature after a time at constant power, from a part at ambient temperature, degC. */
export const junctionAfter = (path: HeatPath, ambientC: number, powerW: number, seconds: number): number =>
  ambientC + powerW * path.fastKPerW + transientRise(powerW, path.slowKPerW, path.tauS, seconds)

/**
 * Longest time a part may stand a power so that its junction stays at or below `ceilingC`, starting from ambient.
 *
 * @returns s; 0 where even a moment is too long, Infinity where it may stay on
 */
export function safeTime(path: HeatPath, ambientC: number, powerW: number, ceilingC: number): number {
  const room = ceilingC - ambientC
  if (room <= 0) return powerW > 0 || room < 0 ? 0 : Number.POSITIVE_INFINITY
  if (powerW * pathResistance(path) <= room) return Number.POSITIVE_INFINITY
  if (powerW * path.fastKPerW >= room) return 0
  return -path.tauS * Math.log1p(-(room / powerW - path.fastKPerW) / path.slowKPerW)
}
