import { currentLimitA, type Limit, type Material, type PartType, type Polarity } from '#core/device'
import { FaultError } from '#core/fault'
import { demandDefaults, type StageVerdict } from '#core/stage'
import { publishedCutoff, type WantedCutoff } from './cutoff.ts'
import { gainAt, mainGain } from './gain.ts'
import { type Known, valueText, type Wanted } from './known.ts'
import { leakageAt } from './leakage.ts'
import { airPower, casePower, isRated } from './power.ts'
import { recoveryTime } from './recovery.ts'
import { collectorBaseVoltage, demandedCollector, emitterVoltage, reverseVoltage } from './voltage.ts'

/** Families stand-ins are looked for in. */
export const standInFamilies = ['bjt', 'diode'] as const
export type StandInFamily = (typeof standInFamilies)[number]

/** A gain window at a current, A; each end may be open. */
export interface GainNeed {
  readonly atA: number
  readonly least?: Wanted
  readonly most?: Wanted
}

/** What a part must have to take a place. What is left out is not asked for. Magnitudes in SI units. */
export interface Need {
  /** What it stands in for, for people: the type, or the part the position names. */
  readonly name: string
  /** The type whose leads and case it has to follow. */
  readonly type?: PartType
  readonly family: StandInFamily
  readonly polarity?: Polarity
  readonly material?: Material
  /** Hottest air, degC: power and leakage are asked for there. */
  readonly hottestC: number
  readonly collectorV?: Wanted
  readonly collectorBaseV?: Wanted
  readonly emitterV?: Wanted
  readonly reverseV?: Wanted
  readonly currentA?: Wanted
  /** In free air at `hottestC`, W. */
  readonly airW?: Wanted
  /** With the case held at a temperature, W. */
  readonly caseW?: Wanted & { readonly caseC: number }
  readonly gain?: GainNeed
  readonly cutoff?: WantedCutoff
  /** At `hottestC`, A. */
  readonly leakageA?: Wanted
  /** Reverse recovery time of a diode, s. */
  readonly recoveryS?: Wanted
  /** The windows of gain and leakage are those of a stage, in which each candidate is played as well. */
  readonly inStage?: true
  /** How the part the stage was made for does there. */
  readonly own?: StageVerdict
  /** Symbols of what is not published and so not asked for. */
  readonly notAsked: readonly string[]
}

/** How the part is used, where that is known better than its published limits say; SI units, degC. */
export interface Use {
  /** Hottest air. */
  readonly ambientC?: number
  readonly voltageV?: number
  readonly currentA?: number
  readonly powerW?: number
  /** Highest frequency at which the stage still needs its gain, Hz. */
  readonly frequencyHz?: number
}

/** Hottest air where nothing is said, degC; that of a position. */
export const hottestDefaultC = demandDefaults.toC

const asked = 'as you asked'

/**
 * What a stand-in for a type must have: all that is published of it, power and leakage in the hottest air, unless its use
 * is told.
 *
 * @throws {FaultError} `usage` where the type is no bipolar transistor or diode
 */
export function typeNeed(type: PartType, use: Use = {}): Need {
  const { family } = type
  if (family !== 'bjt' && family !== 'diode')
    throw new FaultError({
      code: 'usage',
      problem: `${type.type} is no bipolar transistor or diode`,
      mend: 'Stand-ins are looked for among those alone.',
    })
  const hottestC = use.ambientC ?? hottestDefaultC
  const why = `as ${type.type} has`
  const need: Omit<Need, 'notAsked'> = {
    name: type.type,
    type,
    family,
    hottestC,
    ...defined({ polarity: type.polarity, material: type.material }),
    ...voltages(type, use, why),
    ...wantedAs('currentA', use.currentA, currentLimitA(type)?.value, why),
    ...powers(type, use, hottestC, why),
    ...(family === 'bjt' ? {} : wantedAs('recoveryS', undefined, mostOf(recoveryTime(type)), why)),
    ...(family === 'bjt' ? defined({ gain: gainNeed(type, use, why), cutoff: cutoffNeed(type, use, why) }) : {}),
    ...wantedAs('leakageA', undefined, mostOf(leakageAt(type, hottestC)), why),
  }
  return { ...need, notAsked: missing(need) }
}

/** Keys that are there, without those that are undefined. */
export const defined = <T extends object>(of: T): { [K in keyof T]?: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(of).filter(([, v]) => v !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>
  }

const leastOf = (known: Known | undefined): number | undefined => known?.low ?? known?.usual
const mostOf = (known: Known | undefined): number | undefined => known?.high ?? known?.usual

/** One number of a need: as it is used, else as published; none where neither is known. */
function wantedAs<K extends string>(
  key: K,
  used: number | undefined,
  published: number | undefined,
  why: string,
): { readonly [P in K]?: Wanted } {
  const value = used ?? published
  if (value === undefined) return {}
  return { [key]: { value, why: used === undefined ? why : asked } } as { readonly [P in K]?: Wanted }
}

function voltages(type: PartType, use: Use, why: string) {
  if (type.family === 'diode') return wantedAs('reverseV', use.voltageV, leastOf(reverseVoltage(type)), why)
  if (use.voltageV !== undefined) return wantedAs('collectorV', use.voltageV, undefined, why)
  const base = type.ratings.V_CBO === undefined ? undefined : collectorBaseVoltage(type)
  return {
    ...wantedAs('collectorV', undefined, leastOf(demandedCollector(type)), why),
    ...wantedAs('collectorBaseV', undefined, leastOf(base), why),
    ...wantedAs('emitterV', undefined, leastOf(emitterVoltage(type)), why),
  }
}

function powers(type: PartType, { powerW }: Use, hottestC: number, why: string) {
  if (powerW !== undefined) return wantedAs('airW', powerW, undefined, why)
  const air = isRated(type, 'ambient') ? airPower(type, hottestC) : undefined
  const caseC = Math.max(hottestC, ...type.ratings.power.filter((p) => p.of === 'case').map((p) => p.atC))
  const cooled = isRated(type, 'case') ? leastOf(casePower(type, caseC)) : undefined
  return {
    ...wantedAs('airW', undefined, positive(leastOf(air)), why),
    ...(positive(cooled) === undefined ? {} : { caseW: { value: cooled!, why, caseC } }),
  }
}

/** A part that may do nothing at a temperature asks for nothing there. */
const positive = (x: number | undefined): number | undefined => (x !== undefined && x > 0 ? x : undefined)

function gainNeed(type: PartType, { currentA }: Use, why: string): GainNeed | undefined {
  const main = mainGain(type)
  const atA = currentA ?? main?.at.I_C ?? main?.at.I_E ?? 1e-3
  const known = main === undefined ? undefined : currentA === undefined ? boundsOf(main) : gainAt(type, atA, ampere)
  if (known === undefined) return undefined
  const least = known.low ?? (known.high === undefined ? known.usual : undefined)
  return {
    atA,
    ...(least === undefined
      ? {}
      : { least: { value: least, why: known.low === undefined ? `${why}, typically` : why } }),
    ...(known.high === undefined ? {} : { most: { value: known.high, why } }),
  }
}

const ampere = (a: number): string => valueText(a, 'A')

const boundsOf = ({ min, typ, max }: Limit): Known => ({
  ...defined({ low: min, usual: typ, high: max }),
  how: 'published',
})

function cutoffNeed(type: PartType, { frequencyHz, currentA }: Use, why: string): WantedCutoff | undefined {
  if (frequencyHz !== undefined) {
    const gain = gainNeed(type, defined({ currentA }), why)
    return frequencyNeed(frequencyHz, gain?.least?.value)
  }
  const found = publishedCutoff(type)
  const hz = found?.limit.min ?? found?.limit.typ
  return found === undefined || hz === undefined ? undefined : { symbol: found.symbol, hz, why }
}

/** A stage whose whole gain is needed up to a frequency: f_hfe = f_T / h_fe must reach it. */
export const frequencyNeed = (hz: number, gain: number | undefined): WantedCutoff => ({
  symbol: 'f_hfe',
  hz,
  gain: gain ?? 1,
  why: `for a gain of ${Math.round(gain ?? 1)} up to ${valueText(hz, 'Hz')}`,
})

function missing(n: Omit<Need, 'notAsked'>): readonly string[] {
  const open: readonly (readonly [symbol: string, isThere: boolean])[] =
    n.family === 'diode'
      ? [
          ['V_R', n.reverseV !== undefined],
          ['I_F', n.currentA !== undefined],
          ['I_R', n.leakageA !== undefined],
          ['t_rr', n.recoveryS !== undefined],
        ]
      : [
          ['V_CE or V_CB', n.collectorV !== undefined || n.collectorBaseV !== undefined],
          ['I_C', n.currentA !== undefined],
          ['power', n.airW !== undefined || n.caseW !== undefined],
          ['h_FE', n.gain?.least !== undefined || n.gain?.most !== undefined],
          ['f_T', n.cutoff !== undefined],
          ['I_CBO', n.leakageA !== undefined],
        ]
  return open.filter(([, isThere]) => !isThere).map(([symbol]) => symbol)
}
