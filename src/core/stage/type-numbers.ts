import { currentLimitA, type Limit, type PartType, reverseLimitV } from '#core/device'
import { FaultError } from '#core/fault'
import { heatPath, leakageDoublings, pathResistance } from '#core/physics'
import { lawMaterial } from '#core/reduce'
import { type Between, type PartNumbers, type StageRatings, usualNumbers, usualSurface } from './part-numbers.ts'
import { atCurrent, numbersAtC } from './transistor-device.ts'

/** A collector current that is usual in a small stage, A. */
export const usualCurrentA = 1e-3

/**
 * Highest published collector-emitter voltage. In a stage the base never hangs free, so that V_CBO counts where nothing
 * nearer is published; estimates of V_CEO do not.
 */
function collectorV({ ratings: { V_CEO, V_CER, V_PT, V_CES, V_CBO } }: PartType): number | undefined {
  const near = [V_CEO, V_CER, V_PT].filter((v) => v !== undefined)
  const far = [V_CES, V_CBO].filter((v) => v !== undefined)
  const all = near.length > 0 ? near : far
  return all.length === 0 ? undefined : Math.min(...all)
}

/** Ratings of a type that count in a stage. */
export function stageRatings(type: PartType): StageRatings {
  const voltageV = type.family === 'bjt' ? collectorV(type) : reverseLimitV(type)?.value
  const currentA = currentLimitA(type)?.value
  const { T_Jmax, R_thJC, power } = type.ratings
  const isCaseKnown = R_thJC !== undefined || power.some((p) => p.of === 'case')
  const heat = T_Jmax === undefined ? undefined : heatPath({ ...type.ratings, T_Jmax }, type.outline)
  return {
    ...(voltageV === undefined ? {} : { voltageV }),
    ...(currentA === undefined ? {} : { currentA }),
    ...(T_Jmax === undefined ? {} : { junctionMaxC: T_Jmax }),
    ...(heat === undefined ? {} : { rthKPerW: pathResistance(heat) }),
    ...(heat !== undefined && isCaseKnown ? { rthCaseKPerW: heat.fastKPerW } : {}),
  }
}

/**
 * What is published of a type, as the numbers a stage needs. Where only one end of a range is published the rest is
 * taken: the usual gain is 1.6 times the least and the highest 3 times; the usual leakage a third of the highest and the
 * least a tenth (common practice). What is not published at all is taken from parts of the material, and noted.
 *
 * @param nearA collector current of the stage: the gain published nearest to it is taken
 * @throws {FaultError} `usage` where the type is no bipolar transistor or diode of germanium or silicon
 */
export function typeNumbers(type: PartType, nearA = usualCurrentA): PartNumbers {
  const material = lawMaterial(type)
  if (material === undefined || (type.family !== 'bjt' && type.family !== 'diode'))
    throw new FaultError({
      code: 'usage',
      problem: `${type.type} is no germanium or silicon transistor or diode`,
      mend: 'Stages are computed with those; see germane circuit for others.',
    })
  const notes: string[] = []
  const shared = { name: type.type, material, ratings: stageRatings(type), notes }
  if (type.family === 'diode') return { ...shared, kind: 'diode', ...diodeNumbers(type, notes) }
  const polarity = type.polarity === 'NPN' ? 'NPN' : 'PNP'
  const gainLimit = nearest(type, ['h_FE', 'h_fe'], nearA)
  const atA = gainLimit?.at.I_C ?? gainLimit?.at.I_E ?? nearA
  const usual = usualNumbers[material]
  if (gainLimit === undefined) notes.push(`No gain is published: ${usual.gain.usual} is taken (from memory).`)
  const gain = gainLimit === undefined ? usual.gain : gainBetween(gainLimit)
  const atV = gainLimit?.at.V_CE ?? (gainLimit?.at.V_CB ?? 4.5) + usual.vbeAt1mA
  const { leakageA, leakageAtV } = leakageOf(type, gain.usual, notes)
  const vbeV = baseVoltage(type, atA, notes)
  return {
    ...shared,
    kind: 'bipolar',
    polarity,
    gain,
    atA,
    atV,
    leakageA,
    leakageAtV,
    surface: usualSurface[material],
    vbeV,
  }
}

/** The limit of a symbol whose current is nearest by ratio; earlier symbols come first. */
function nearest(type: PartType, symbols: readonly string[], nearA: number): Limit | undefined {
  for (const symbol of symbols) {
    const found = type.limits.filter((l) => l.symbol === symbol && !((l.at.f ?? 0) > 1000))
    const far = ({ at }: Limit): number => Math.abs(Math.log((at.I_C ?? at.I_E ?? nearA) / nearA))
    if (found.length > 0) return found.reduce((a, b) => (far(b) < far(a) ? b : a))
  }
  return undefined
}

function gainBetween({ min, typ, max }: Limit): Between {
  if (min !== undefined && max !== undefined) return { low: min, usual: typ ?? Math.sqrt(min * max), high: max }
  const usual = typ ?? (min === undefined ? max! / 1.6 : min * 1.6)
  return { low: min ?? usual / 2, usual, high: max ?? Math.max(2 * usual, (min ?? 0) * 3) }
}

const upTo = ({ typ, max, min }: Limit): Between => {
  const high = max ?? 3 * (typ ?? min!)
  const usual = typ ?? high / 3
  return { low: Math.min(high, usual) / 10, usual: Math.min(high, usual), high }
}

const scaled = (b: Between, by: number): Between => ({ low: b.low * by, usual: b.usual * by, high: b.high * by })

/** I_CBO at 25 degC: as published there, brought from another temperature, or from I_CEO by the gain. */
function leakageOf(type: PartType, gain: number, notes: string[]) {
  const material = lawMaterial(type)!
  const of = (symbol: string): readonly Limit[] => type.limits.filter((l) => l.symbol === symbol)
  const warm = (l: Limit): number => Math.abs((l.at.T ?? numbersAtC) - numbersAtC)
  const coolest = (all: readonly Limit[]): Limit | undefined =>
    all.reduce<Limit | undefined>((a, b) => (a === undefined || warm(b) < warm(a) ? b : a), undefined)
  const direct = coolest(of('I_CBO')) ?? coolest(of('I_CES'))
  const found = direct ?? coolest(of('I_CEO'))
  if (found === undefined) {
    const { leakageA } = usualNumbers[material]
    notes.push('No leakage is published: that of small parts of its material is taken (from memory).')
    return { leakageA, leakageAtV: 5 }
  }
  const away = (found.at.T ?? numbersAtC) - numbersAtC
  const cooled = 2 ** (-away * leakageDoublings[material].centre)
  if (away !== 0) notes.push(`Its leakage is published at ${found.at.T} °C and was brought to ${numbersAtC} °C.`)
  if (direct === undefined) notes.push('Its I_CBO was worked out from the published I_CEO and the gain.')
  const leakageA = scaled(upTo(found), cooled * (direct === undefined ? 1 / (gain + 1) : 1))
  return { leakageA, leakageAtV: found.at.V_CB ?? found.at.V_CE ?? 5 }
}

/** V_BE at a current: published, or that of the material; moved along the exponential to the current. */
function baseVoltage(type: PartType, atA: number, notes: string[]): Between {
  const material = lawMaterial(type)!
  const found = nearest(type, ['V_BE(on)', 'V_BE'], atA)
  const around = (v: number, half: number): Between => ({ low: v - half, usual: v, high: v + half })
  const fromA = found?.at.I_C ?? found?.at.I_E
  const published =
    found?.typ ?? (found?.min === undefined || found.max === undefined ? undefined : (found.min + found.max) / 2)
  if (published !== undefined && fromA !== undefined) return atCurrent(around(published, 0.05), fromA, atA)
  notes.push('No V_BE is published at a current: that of its material is taken (from memory).')
  return atCurrent(around(usualNumbers[material].vbeAt1mA, 0.03), 1e-3, atA)
}

function diodeNumbers(type: PartType, notes: string[]) {
  const material = lawMaterial(type)!
  const v = nearest(type, ['V_F'], usualCurrentA)
  const r = type.limits.find((l) => l.symbol === 'I_R' && (l.at.T ?? numbersAtC) <= numbersAtC + 5)
  if (v === undefined) notes.push('No forward voltage is published: that of its material is taken (from memory).')
  if (r === undefined) notes.push('No reverse current is published: that of its material is taken (from memory).')
  const usual = material === 'Ge' ? 0.3 : 0.6
  const middle = v === undefined ? usual : (v.typ ?? 0.8 * (v.max ?? v.min!))
  return {
    forwardV: { low: 0.9 * middle, usual: middle, high: Math.max(v?.max ?? 0, 1.1 * middle) },
    atA: v?.at.I_F ?? usualCurrentA,
    leakageA: r === undefined ? scaled(usualNumbers[material].leakageA, 5) : upTo(r),
    leakageAtV: r?.at.V_R ?? 10,
  }
}
