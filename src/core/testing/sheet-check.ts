import type { PartType, PowerRating } from '#core/device'
import { heatPath } from '#core/physics'
import { type RunSheet, type Step, usualJunctionC } from '#core/sheet'
import type { Tester } from '#core/tester'

/**
 * What no run sheet may ever ask, worked out from the ratings and the tester's limits alone, apart from the planner. Each
 * function lists what is wrong in sentences; an empty list is a good sheet.
 */

type ReadStep = Extract<Step, { kind: 'read' }>

const share = 0.8 * (1 + 1e-9)

const least = (values: readonly (number | undefined)[]): number => Math.min(...values.filter((v) => v !== undefined))

const readsOf = (sheet: RunSheet): readonly ReadStep[] => sheet.steps.filter((s) => s.kind === 'read')

/** Reads that put a supply on the part. */
const fed = (sheet: RunSheet): readonly ReadStep[] => readsOf(sheet).filter((s) => s.supplyV !== undefined)

const leakages = ['I_CBO', 'I_CES', 'I_CEO', 'I_EBO', 'I_R']
const driven = ['I_C', 'I_B', 'h_FE', 'V_BE', 'V_CE(sat)', 'V_F', 'I_F']

/** Highest voltage a reading may put on the part, V. */
function ratedV(t: PartType, s: ReadStep): number {
  const r = t.ratings
  switch (s.reads) {
    case 'I_CBO':
      return share * (r.V_CBO ?? Math.max(r.V_CES ?? 0, r.V_CER ?? 0, r.V_CEO ?? 0, 6 / 0.8))
    case 'I_EBO':
      return share * (r.V_EBO ?? 0)
    case 'I_R':
      return t.family === 'zener'
        ? Math.min(...t.limits.filter((l) => l.symbol === 'V_Z').map((l) => l.min ?? l.max ?? 0), Number.MAX_VALUE)
        : share * least([r.V_R, r.V_RRM, r.V_R === undefined && r.V_RRM === undefined ? 6 / 0.8 : undefined])
    case 'V_F':
    case 'I_F':
      return t.family === 'zener' ? Number.POSITIVE_INFINITY : share * least([r.V_R, r.V_RRM, Number.POSITIVE_INFINITY])
    case 'short':
      if (t.family === 'zener') return Number.POSITIVE_INFINITY
      if (t.family === 'diode') return share * least([r.V_R, r.V_RRM, Number.POSITIVE_INFINITY])
      return openBaseV(t)
    default:
      return openBaseV(t)
  }
}

function openBaseV(t: PartType): number {
  const r = t.ratings
  const breakdown = t.limits.filter((l) => /CEO\(sus\)|BR\)CEO/.test(l.symbol)).map((l) => l.min)
  const stated = [r.V_CEO, ...breakdown].filter((v) => v !== undefined)
  const upper = stated.length > 0 ? least(stated) : least([r.V_CES, r.V_CER, r.V_CBO, Number.POSITIVE_INFINITY])
  const rating = least([upper, r.V_PT])
  return Number.isFinite(rating) ? share * rating : 6 * (1 + 1e-9)
}

/** Highest current a reading may set or let through, A; published ratings only. */
function ratedA(t: PartType, s: ReadStep): number {
  const r = t.ratings
  if (s.reads === 'I_B') return share * least([r.I_B, r.I_C, Number.POSITIVE_INFINITY])
  const current = t.family === 'bjt' ? r.I_C : least([r.I_F, r['I_F(AV)'], Number.POSITIVE_INFINITY])
  return current === undefined ? Number.POSITIVE_INFINITY : share * current
}

const junctionC = (t: PartType): number => t.ratings.T_Jmax ?? usualJunctionC[t.material ?? 'Ge']

/** Permitted power at a temperature, straight from the rating. */
function deratedW(p: PowerRating, tJ: number, atC: number): number {
  if (atC <= p.atC) return p.powerW
  const line = (p.powerW * (tJ - atC)) / (tJ - p.atC)
  const slope = p.powerW - (p.deratingWPerK ?? 0) * (atC - p.atC)
  return Math.max(0, Math.min(line, slope))
}

/** Power a reading may bring to the part at most, W. */
function powerOf(s: ReadStep): number {
  const volt = s.supplyV ?? 0
  const amp = s.currentA ?? 0
  if (s.reads === 'short') return 0
  if (s.reads === 'V_F' || s.reads === 'I_F') return amp * Math.min(volt, dropOf(s))
  if (s.reads === 'V_CE(sat)') return (amp * volt) / 4
  return s.reads === 'I_B' ? 0 : amp * volt
}

/** Largest forward drop a forward step reckons with, V. */
const dropOf = (s: ReadStep): number => (s.reads === 'V_F' ? (s.window?.value.max ?? 1) : 0.5)

const hottestC = (sheet: RunSheet): number => sheet.wishes.ambientC + 2 * sheet.wishes.ambientU

/** Steps that pass a derated rating of the part. */
export function ratingFaults(sheet: RunSheet, t: PartType): readonly string[] {
  const free = t.ratings.power.filter((p) => p.of === 'ambient')
  const power = free.length > 0 ? free : t.ratings.power
  const limitW = Math.min(...power.map((p) => deratedW(p, junctionC(t), hottestC(sheet))), Number.MAX_VALUE) * share
  return fed(sheet).flatMap((s) => {
    const faults: string[] = []
    if (s.supplyV! > ratedV(t, s)) faults.push(`${s.id}: ${s.supplyV} V of ${ratedV(t, s)} V`)
    if (s.reads !== 'short' && (s.currentA ?? 0) > ratedA(t, s))
      faults.push(`${s.id}: ${s.currentA} A of ${ratedA(t, s)} A`)
    if (powerOf(s) > limitW) faults.push(`${s.id}: ${powerOf(s)} W of ${limitW} W`)
    return faults
  })
}

/** Power ratings; where a diode has none, its rated forward current stands for what heat it bears. */
function heatRatings(t: PartType): readonly PowerRating[] {
  const r = t.ratings
  const forwardA = least([r.I_F, r['I_F(AV)'], Number.POSITIVE_INFINITY])
  if (t.family === 'bjt' || r.power.length > 0 || r.R_thJA !== undefined || forwardA === Number.POSITIVE_INFINITY)
    return r.power
  const drops = t.limits.filter((l) => l.symbol === 'V_F').flatMap((l) => l.max ?? l.typ ?? [])
  return [{ powerW: forwardA * (drops.length > 0 ? Math.max(...drops) : 1), of: 'ambient', atC: 25 }]
}

/** Time constants from case to air a part may have, s. */
const caseTaus = [30, 100, 300]

/** Steps at whose end the junction is hotter than T_Jmax, the whole sheet gone through without a pause of its own. */
export function heatFaults(sheet: RunSheet, t: PartType): readonly string[] {
  const ratings = { ...t.ratings, power: heatRatings(t), T_Jmax: junctionC(t) }
  const path = heatPath(ratings, t.outline)
  return caseTaus.flatMap((tau) => {
    let caseRise = 0
    const faults: string[] = []
    for (const s of sheet.steps) {
      if (s.kind === 'wait') caseRise *= Math.exp(-s.seconds / tau)
      if (s.kind !== 'read') continue
      const watt = s.reads === 'I_B' ? companionPower(sheet, s) : powerOf(s)
      const steady = watt * path.slowKPerW
      const left = Math.exp(-(s.safeSeconds ?? 600) / tau)
      caseRise = steady + (caseRise - steady) * left
      const junction = hottestC(sheet) + caseRise + watt * path.fastKPerW
      if (junction > junctionC(t)) faults.push(`${s.id}: ${junction} degC of ${junctionC(t)} degC, tau ${tau} s`)
    }
    return faults
  })
}

/** The base current is read while the collector current flows. */
function companionPower(sheet: RunSheet, s: ReadStep): number {
  const collector = readsOf(sheet).find((o) => o.reads === 'I_C' && o.point === s.point)
  return collector === undefined ? powerOf(s) : powerOf(collector) + (s.currentA ?? 0)
}

/** Steps that pass what the tester can give, set or read. */
export function testerFaults(sheet: RunSheet, tester: Tester): readonly string[] {
  return fed(sheet).flatMap((s) => {
    const faults: string[] = []
    const supply = tester.supplies.find((x) => x.id === s.supply)
    const most = Math.min(tester.limits.maxCurrentA, supply?.maxA ?? Number.POSITIVE_INFINITY) * (1 + 1e-9)
    if (s.supplyV! > tester.limits.maxVoltageV) faults.push(`${s.id}: ${s.supplyV} V is above the tester's limit`)
    if ((s.currentA ?? 0) > most) faults.push(`${s.id}: ${s.currentA} A is above the tester's limit ${most} A`)
    const isTap =
      supply === undefined ||
      (supply.kind === 'cells'
        ? supply.taps.includes(s.supplyV!)
        : s.supplyV! >= (supply.min ?? 0) && s.supplyV! <= (supply.max ?? 0))
    if (!isTap) faults.push(`${s.id}: ${s.supplyV} V cannot be set on ${s.supply}`)
    const offers = tester.tests.filter((o) => o.reads === s.reads || (s.reads === 'I_C' && o.reads === 'h_FE'))
    if (s.range !== undefined && !offers.some((o) => o.ranges.includes(s.range!) || s.reads === 'h_FE'))
      faults.push(`${s.id}: ${s.reads} is not offered on ${s.range}`)
    const g = tester.gain
    if (s.reads === 'I_B' && g.kind === 'ratio' && s.currentA! > g.maxBaseA * (1 + 1e-9))
      faults.push(`${s.id}: more base current than the tester gives`)
    return faults
  })
}

/** What is wrong with the order and wording of the steps. */
export function orderFaults(sheet: RunSheet): readonly string[] {
  const faults: string[] = []
  const first = sheet.steps.findIndex((s) => s.kind === 'read')
  const short = sheet.steps[first]
  const decide = sheet.steps[first + 1]
  if (short?.kind !== 'read' || short.reads !== 'short') faults.push('the first reading is not the short check')
  if (decide?.kind !== 'decide' || decide.stopWhen !== 'short' || decide.after !== short?.id)
    faults.push('no decision follows the short check')
  const reads = readsOf(sheet)
  const firstDriven = reads.findIndex((s) => driven.includes(s.reads))
  const lastLeakage = reads.findLastIndex((s) => leakages.includes(s.reads))
  if (firstDriven >= 0 && lastLeakage > firstDriven) faults.push('a leakage comes after a driven reading')
  for (const s of sheet.steps) {
    if (s.say.trim() === '' || s.why.trim() === '') faults.push(`${s.id}: nothing said or no reason given`)
    if (/undefined|NaN|Infinity/.test(JSON.stringify(s))) faults.push(`${s.id}: carries something that is no number`)
    if (s.kind === 'read' && s.odd.length === 0) faults.push(`${s.id}: no advice`)
    if (s.kind === 'read' && s.reads !== 'short' && s.window === undefined) faults.push(`${s.id}: no window`)
    if (s.kind === 'read' && s.safeSeconds !== undefined && s.safeSeconds < 3) faults.push(`${s.id}: no time to read`)
  }
  const ids = sheet.steps.map((s) => s.id)
  for (const id of ids.filter((x, i) => ids.indexOf(x) < i)) faults.push(`two steps are called ${id}`)
  return faults
}

/** Readings taken after a change of range without setting the collector current again. */
export function resetFaults(sheet: RunSheet): readonly string[] {
  const faults: string[] = []
  let isSet = false
  let isStale = false
  for (const s of sheet.steps) {
    if (s.kind === 'set' && s.what === 'collector current') [isSet, isStale] = [true, false]
    if (s.kind === 'set' && (s.what === 'bias' || s.what === 'test')) isSet = false
    if (s.kind === 'set' && (s.what === 'range' || s.what === 'gain range') && isSet) isStale = true
    if (s.kind !== 'read' || !['I_C', 'I_B', 'h_FE', 'V_BE'].includes(s.reads)) continue
    const isHeld = sheet.steps.some(
      (o) => o.kind === 'read' && o.point === s.point && o.say.includes('without touching'),
    )
    if (isSet && isStale && !isHeld) faults.push(`${s.id}: the range was changed and the current not set again`)
  }
  return faults
}
