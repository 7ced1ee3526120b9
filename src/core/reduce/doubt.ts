import { derive, printPlain, printQuantity, type Quantity, standardUncertainty } from '#core/quantity'
import { leakageVoltage } from './carry.ts'
import { shareOf } from './cause-kind.ts'
import { currentDifference } from './gain.ts'
import type { Doubt } from './parameter.ts'
import { leakageAt, type PartContext, type Point } from './point.ts'
import { type Held, lawMaterial } from './seen.ts'

/** When a number looks odd enough to say so (common practice). */
export const doubtDefaults = {
  /** Gains outside this span are no gains of a working transistor. */
  gainFrom: 1,
  gainTo: 5000,
  /** Leakage as a share of collector current: from here it is said, from there the plain gain is useless. */
  leakageNotable: 0.1,
  leakageRules: 0.5,
  /** Reading resolution (half-width) as a share of the base current: said from here, useless from there. */
  coarse: 0.2,
  useless: 0.5,
  /** A needle below this share of full scale reads poorly. */
  lowNeedle: 0.2,
  /** Two points whose difference has this relative uncertainty are too close. */
  closeNotable: 0.25,
  closeRules: 0.6,
  /** V_BE of a conducting transistor, V. */
  baseVoltage: { Ge: [0.05, 0.48], Si: [0.48, 1.1] },
  /** A difference this many standard uncertainties from nothing is real. */
  clear: 2,
} as const

/** Code of a doubt that stands on what is known beside the description: never kept with a result. */
export const asFoundCode = 'range-as-found'

const notice = (code: string, say: string): Doubt => ({ code, say, weight: 'notice' })
const nonsense = (code: string, say: string): Doubt => ({ code, say, weight: 'nonsense' })
const percent = (x: number): string => `${Math.round(100 * x)} %`
const text = (q: Quantity): string => printQuantity(q)

/** Half-width of what the eye or the last digit leaves open. */
const halfStep = (q: Quantity): number => Math.sqrt(3) * shareOf(q, 'resolution')

/** Doubts about the readings behind a value: a needle low on its scale, a room temperature nobody wrote down. */
export function readingDoubts(h: Held, c: PartContext): Doubt[] {
  const doubts: Doubt[] = []
  const low = h.readings.find((s) => s.deflection !== undefined && Math.abs(s.deflection) < doubtDefaults.lowNeedle)
  if (low !== undefined) doubts.push(lowNeedle(h.symbol, low.deflection!, low.finerRange))
  const said = (sentences: readonly (string | undefined)[]): readonly string[] => [
    ...new Set(sentences.filter((s) => s !== undefined)),
  ]
  for (const say of said(h.readings.map((s) => s.distrust))) doubts.push(notice('range-not-trusted', say))
  for (const say of said(h.readings.map((s) => s.against))) doubts.push(notice(asFoundCode, say))
  if (h.ambient.isAssumed && lawMaterial(c.type) === 'Ge')
    doubts.push(
      notice(
        'ambient-missing',
        `No room temperature was written down with ${h.symbol}; ${printPlain(h.ambient.quantity.value, 'degC')} is taken for granted, give or take ${h.ambient.u} K. Germanium leakage doubles every 10 K: write the temperature with each reading.`,
      ),
    )
  return doubts
}

function lowNeedle(symbol: string, deflection: number, finer: string | undefined): Doubt {
  const found = `${symbol} was read at ${percent(Math.abs(deflection))} of full scale, in the lowest fifth of it.`
  const mend =
    finer === undefined
      ? 'No finer range holds it: take it as a rough value.'
      : `Read it again on the finer range ${finer}.`
  return notice('low-needle', `${found} ${mend}`)
}

/** Doubts about a gain: sign, size, and what leakage and base range do to it. */
export function gainDoubts(symbol: string, gain: Quantity, c: PartContext, p: Point): Doubt[] {
  const doubts: Doubt[] = []
  const h = gain.value
  if (h < 0)
    doubts.push(
      nonsense(
        'gain-negative',
        `${symbol} comes out negative (${text(gain)}), which no transistor does. Check the polarity switch and the lead order, let the part cool and read leakage and collector current again.`,
      ),
    )
  else if (h < doubtDefaults.gainFrom || h > doubtDefaults.gainTo)
    doubts.push(
      nonsense(
        'gain-unlikely',
        `${symbol} comes out as ${text(gain)}, outside ${doubtDefaults.gainFrom} to ${doubtDefaults.gainTo}. Check the ranges written down, the lead order (some makers reverse it) and whether the leads were crossed.`,
      ),
    )
  return [...doubts, ...leakageDoubts(symbol, c, p), ...baseDoubts(p)]
}

function leakageDoubts(symbol: string, c: PartContext, p: Point): Doubt[] {
  const plain = symbol === 'h_FE'
  const doubts: Doubt[] = []
  const collector = p.values.get('I_C')?.value
  const leakage = leakageAt(c, 'I_CEO', p)?.value
  if (
    leakage !== undefined &&
    collector !== undefined &&
    leakage > doubtDefaults.leakageNotable * Math.abs(collector)
  ) {
    const found = `${percent(leakage / collector)} of the collector current is leakage`
    const rules = leakage > doubtDefaults.leakageRules * Math.abs(collector)
    const mend = `${plain ? 'Go by h_FE0, which takes it out, or set' : 'Set'} a larger collector current.`
    doubts.push((plain && rules ? nonsense : notice)('leakage-in-gain', `${found}, not the work of the base. ${mend}`))
  }
  const cutoff = leakageAt(c, 'I_CBO', p)?.value
  const base = p.values.get('I_B')?.value
  if (cutoff !== undefined && base !== undefined && cutoff > Math.abs(base))
    doubts.push(
      (plain ? nonsense : notice)(
        'leakage-outweighs-base',
        `I_CBO (${printPlain(cutoff, 'A')}) outweighs the base current (${printPlain(base, 'A')}): leakage, not you, drives the part. Set a larger collector current, or let the part cool.`,
      ),
    )
  return doubts
}

function baseDoubts(p: Point): Doubt[] {
  const held = p.read.get('I_B')
  if (held === undefined) return []
  const base = Math.abs(held.quantity.value)
  const half = halfStep(held.quantity)
  if (half <= doubtDefaults.coarse * base) return []
  const finer = held.readings.find((s) => s.finerRange !== undefined)?.finerRange
  const mend =
    finer === undefined
      ? 'Set a larger collector current so that the base needle stands higher.'
      : `Read I_B on the finer range ${finer}.`
  const found = `The base range is too coarse: the scale leaves I_B open by ${printPlain(half, 'A', { digits: 2 })} either way, and I_B is ${printPlain(held.quantity.value, 'A')}.`
  return [(half > doubtDefaults.useless * base ? nonsense : notice)('base-range-coarse', `${found} ${mend}`)]
}

/** A V_BE that does not fit the material of the type. */
export function materialDoubt(v: Quantity, c: PartContext): Doubt | undefined {
  const material = lawMaterial(c.type)
  if (material === undefined) return undefined
  const [from, to] = doubtDefaults.baseVoltage[material]
  const u = doubtDefaults.clear * standardUncertainty(v)
  if (v.value + u >= from && v.value - u <= to) return undefined
  const name = { Ge: 'germanium', Si: 'silicon' }[material]
  const usual = { Ge: '0.2 V', Si: '0.65 V' }[material]
  return nonsense(
    'material-unlike',
    `V_BE is ${text(v)}, but ${name} shows about ${usual}. Check that the part is a ${c.type!.type} at all and of ${name}, and that the leads are not reversed.`,
  )
}

/** I_CBO above I_CEO by more than the readings leave open: no transistor does that. */
export function orderDoubt(leakage: Held | undefined, cutoff: Held | undefined): Doubt | undefined {
  if (leakage === undefined || cutoff === undefined) return undefined
  const lower = (cutoff.supply?.value ?? 0) <= 1.05 * (leakage.supply?.value ?? 0) || leakage.supply === undefined
  if (!lower || cutoff.quantity.value <= leakage.quantity.value) return undefined
  const d = derive(currentDifference, {
    first: cutoff.quantity as Quantity<'A'>,
    second: leakage.quantity as Quantity<'A'>,
  })
  if (d.value <= doubtDefaults.clear * standardUncertainty(d)) return undefined
  return nonsense(
    'cutoff-above-leakage',
    `I_CBO (${text(cutoff.quantity)}) is above I_CEO (${text(leakage.quantity)}), which cannot be: the gain multiplies leakage when the base is open. Check which leads were open, the lead order, and that both were read at one temperature and ${leakageVoltage.I_CEO}.`,
  )
}

/** Two points too close together for their difference to mean much. */
export function closeDoubt(symbol: string, q: Quantity): Doubt | undefined {
  const relative = Math.abs(standardUncertainty(q) / q.value)
  if (!(relative > doubtDefaults.closeNotable)) return undefined
  const say = `The points behind ${symbol} are too close together: their difference is known to ${percent(relative)} only. Take points further apart.`
  return (relative > doubtDefaults.closeRules ? nonsense : notice)('points-close', say)
}
