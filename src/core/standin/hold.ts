import { currentLimitA, mayCondemn, type PartType } from '#core/device'
import type { Candidate } from './candidate.ts'
import { caseCheck, outlineCheck } from './case.ts'
import { comparableCutoff } from './cutoff.ts'
import { gainAt, gainReach } from './gain.ts'
import { atLeast, atMost, type Check, exactlyKnown, type Known, valueText } from './known.ts'
import { type LeadPlan, leadCheck } from './leads.ts'
import { leakageAt, risenBy } from './leakage.ts'
import type { GainNeed, Need } from './need.ts'
import { airPower, casePower } from './power.ts'
import { recoveryTime } from './recovery.ts'
import { collectorBaseVoltage, collectorVoltage, emitterVoltage, reverseVoltage, stageVoltage } from './voltage.ts'

/**
 * Everything a candidate is held to, in the order in which a person would ask: kind, voltage, current, power, gain,
 * frequency, leakage, and then how it is fitted.
 *
 * @param leads how its leads go where the others went, where the need names a type
 */
export function holdTo(need: Need, c: Candidate, leads?: LeadPlan): readonly Check[] {
  const strange = kindCheck(need, c.type)
  if (strange !== undefined) return [strange]
  return [
    ...materialCheck(need, c.type),
    ...voltageChecks(need, c.type),
    ...currentChecks(need, c.type),
    ...powerChecks(need, c.type),
    ...gainChecks(need, c),
    ...cutoffChecks(need, c.type),
    ...leakageChecks(need, c),
    ...diodeChecks(need, c.type),
    ...fitChecks(need, c.type, leads),
    ...recordChecks(c),
  ]
}

/** The first thing that must agree: what it is. */
function kindCheck(need: Need, t: PartType): Check | undefined {
  const short = (says: string): Check => ({ what: 'kind', word: 'short', says })
  if (t.family !== need.family) return short(`It is no ${need.family === 'diode' ? 'diode' : 'bipolar transistor'}.`)
  if (need.polarity !== undefined && t.polarity !== need.polarity)
    return short(`It is ${t.polarity ?? 'of unknown polarity'}; ${need.polarity} is needed.`)
  return undefined
}

const materialNames = { Ge: 'germanium', Si: 'silicon', GaAs: 'gallium arsenide' } as const

function materialCheck({ material, family, inStage }: Need, t: PartType): readonly Check[] {
  if (material === undefined) return []
  const check = (word: Check['word'], says: string): readonly Check[] => [{ what: 'material', word, says }]
  if (t.material === undefined) return check('unknown', 'Its material is not on record: unknown.')
  if (t.material === material) return check('enough', `It is of ${materialNames[material]} as well.`)
  const drop = family === 'diode' ? 'V_F' : 'V_BE'
  const volts = { Ge: family === 'diode' ? '0.3 V' : '0.15 V', Si: '0.6 V', GaAs: '1 V' } as const
  return check(
    'care',
    `It is of ${materialNames[t.material]}, not of ${materialNames[material]}: its ${drop} is near ${volts[t.material]} in place of ${volts[material]}, ${inStage === true ? 'which moves the current of the stage' : 'so the stage has to be biased anew'}.`,
  )
}

/** A check that asks for care where it would refuse, and why. */
const softened = (check: Check, why: string): Check =>
  check.word === 'short' ? { ...check, word: 'care', says: `${check.says} ${why}` } : check

function voltageChecks(need: Need, t: PartType): readonly Check[] {
  const named = (what: string, symbol: string) => ({ what, symbol, unit: 'V' as const })
  return [
    need.collectorV &&
      atLeast(named('voltage', 'V_CE'), need.collectorV, need.inStage === true ? stageVoltage(t) : collectorVoltage(t)),
    need.collectorBaseV &&
      atLeast(named('collector-base voltage', 'V_CB'), need.collectorBaseV, collectorBaseVoltage(t)),
    need.reverseV && atLeast(named('voltage', 'V_R'), need.reverseV, reverseVoltage(t)),
    need.emitterV &&
      softened(
        atLeast(named('emitter-base voltage', 'V_EB'), need.emitterV, emitterVoltage(t)),
        'It counts only where the base is driven backwards, as in switches and multivibrators.',
      ),
  ].filter((c) => c !== undefined)
}

function currentChecks({ currentA, family }: Need, t: PartType): readonly Check[] {
  if (currentA === undefined) return []
  const bound = currentLimitA(t)
  const known = bound === undefined ? peakAlone(t) : exactlyKnown(bound.value, bound.how)
  return [atLeast({ what: 'current', symbol: family === 'diode' ? 'I_F' : 'I_C', unit: 'A' }, currentA, known)]
}

/** A peak current bounds the steady one from above. */
const peakAlone = ({ ratings: { I_CM } }: PartType): Known | undefined =>
  I_CM === undefined ? undefined : { high: I_CM, how: 'only the peak current I_CM is published' }

/** A power worked out from the outline is off by no more than this. `common practice` */
const outlineDoubt = 5

/** A hint is enough where it is far above what is needed. */
const wideEnough = (check: Check): Check =>
  check.word === 'unknown' && (check.ratio ?? 0) >= outlineDoubt ? { ...check, word: 'enough' } : check

function powerChecks({ airW, caseW, hottestC }: Need, t: PartType): readonly Check[] {
  return [
    airW && wideEnough(atLeast({ what: 'power', symbol: 'P', unit: 'W' }, airW, airPower(t, hottestC))),
    caseW && atLeast({ what: 'power on a heat sink', symbol: 'P', unit: 'W' }, caseW, casePower(t, caseW.caseC)),
  ].filter((c) => c !== undefined)
}

const ampere = (a: number): string => valueText(a, 'A')

const higherGain =
  'A higher gain does no harm where an emitter resistor or feedback holds the current; in fixed bias it does.'
const playedBelow = 'The window is that of the stage as it was made; how it does there is said below.'

function gainChecks(need: Need, c: Candidate): readonly Check[] {
  if (need.gain === undefined) return []
  const { atA, least, most } = need.gain
  const known = c.measured?.gain === undefined ? gainAt(c.type, atA, ampere) : measuredGain(c.measured.gain, atA)
  const care = c.measured === undefined ? chooseText(c.type, need.gain) : undefined
  const named = { symbol: 'h_FE', unit: '1' as const, ...(care === undefined ? {} : { care }) }
  const low = least && atLeast({ what: 'gain', ...named }, least, known)
  const isOther = need.inStage === true && need.material !== undefined && c.type.material !== need.material
  return [
    low && (isOther ? softened(low, playedBelow) : low),
    most && softened(atMost({ what: 'highest gain', ...named }, most, known), need.inStage ? playedBelow : higherGain),
  ].filter((x) => x !== undefined)
}

/** How to come by one that has the gain: by its ranks, where some lie within the window. */
function chooseText({ gainRanks, type }: PartType, { least, most }: GainNeed): string {
  const inside = (gainRanks?.ranks ?? []).filter(
    (r) => r.min >= (least?.value ?? 0) && r.max <= (most?.value ?? Number.POSITIVE_INFINITY),
  )
  if (inside.length === 0) return 'Measure, and choose one.'
  return `Take one marked ${inside.map((r) => `${type}${r.suffix}`).join(' or ')}, or measure and choose.`
}

/** What was measured far from the current in use bounds nothing. */
function measuredGain(gain: NonNullable<Candidate['measured']>['gain'] & object, atA: number): Known {
  if (Math.abs(Math.log(gain.atA / atA)) <= Math.log(gainReach) + 1e-9) return gain
  const usual = gain.usual ?? gain.low ?? gain.high!
  return { usual, how: `${gain.how}, too far from ${ampere(atA)} to tell` }
}

function cutoffChecks({ cutoff }: Need, t: PartType): readonly Check[] {
  if (cutoff === undefined) return []
  const found = comparableCutoff(cutoff, t)
  const symbol = found?.symbol ?? cutoff.symbol
  const wanted = { value: found?.neededHz ?? cutoff.hz, why: cutoff.why }
  const care = 'Try it in the stage at its highest frequency.'
  return [atLeast({ what: 'frequency', symbol, unit: 'Hz', care }, wanted, found?.known)]
}

function leakageChecks(need: Need, c: Candidate): readonly Check[] {
  const { leakageA, hottestC, family } = need
  if (leakageA === undefined) return []
  const known = c.measured?.leakage === undefined ? leakageAt(c.type, hottestC) : measuredLeakage(c, hottestC)
  const symbol = family === 'diode' ? 'I_R' : 'I_CBO'
  const care = c.measured === undefined ? { care: 'Measure, and choose one that leaks less.' } : {}
  return [atMost({ what: 'leakage', symbol, unit: 'A', ...care }, leakageA, known)]
}

/** How fast a diode lets go, and whether it is made alike: what is made otherwise has another capacitance. */
function diodeChecks({ recoveryS, family, type }: Need, t: PartType): readonly Check[] {
  if (family !== 'diode') return []
  const isAlike = type?.construction === t.construction
  const made: Check = isAlike
    ? { what: 'construction', word: 'enough', says: `It is made alike: ${t.construction ?? 'how is not on record'}.` }
    : {
        what: 'construction',
        word: 'care',
        says: `It is ${t.construction ?? 'of unknown make'} where ${type?.construction ?? 'something else'} was: its capacitance differs, and is not published. Mind it at radio frequencies.`,
      }
  return [
    ...(recoveryS === undefined
      ? []
      : [atMost({ what: 'recovery', symbol: 't_rr', unit: 's' }, recoveryS, recoveryTime(t))]),
    ...(type === undefined ? [] : [made]),
  ]
}

const measuredAtC = 25

function measuredLeakage({ measured, type }: Candidate, hottestC: number): Known {
  const { low, high, usual, how } = measured!.leakage!
  const by = risenBy(type, measuredAtC, hottestC) ?? 1
  return {
    ...(low === undefined ? {} : { low: low * by }),
    ...(high === undefined ? {} : { high: high * by }),
    ...(usual === undefined ? {} : { usual: usual * by }),
    how: `${how}, brought to ${hottestC} °C`,
  }
}

const fitChecks = ({ type }: Need, t: PartType, leads: LeadPlan | undefined): readonly Check[] =>
  type === undefined || leads === undefined ? [] : [leadCheck(leads), caseCheck(type, t), outlineCheck(type, t)]

/** What of the record itself asks for care: one that is a guide only, known trouble, the mark of the user. */
function recordChecks({ type: t, availability }: Candidate): readonly Check[] {
  const checks: Check[] = []
  if (!mayCondemn(t))
    checks.push({
      what: 'record',
      word: 'care',
      says: 'Its record is from memory and a guide only: check the datasheet.',
    })
  if (t.trouble !== undefined) checks.push({ what: 'trouble', word: 'care', says: `Known trouble: ${t.trouble}` })
  if (availability === 'gone') checks.push({ what: 'availability', word: 'care', says: 'You marked it as gone.' })
  return checks
}
