import type { PartType } from '#core/device'
import type { Tester } from '#core/tester'
import { type Bench, benchOf, coolGroup, type Group, gapPiece, type Piece, together } from './bench.ts'
import { cautionsOf } from './cautions.ts'
import { forwardPlan } from './forward.ts'
import { gainPlan } from './gain.ts'
import { limitGaps } from './gap.ts'
import { type LeakageSymbol, leakagePiece } from './leakage.ts'
import { rules } from './rule.ts'
import { say } from './say.ts'
import type { SeriesResistor } from './series-resistor.ts'
import type { Gap, RunSheet, Step, Wishes } from './sheet.ts'
import { shortGroup } from './short.ts'
import { materialWord } from './usual.ts'
import { ownBaseVoltagePiece, saturationPiece } from './voltage.ts'
import { wishesOf } from './wish.ts'

/** Collector leakages in the order of their stress. */
const transistorLeakages: readonly LeakageSymbol[] = ['I_CBO', 'I_CES', 'I_CEO', 'I_EBO']

const polarityWord: Readonly<Record<Bench['kind'], string>> = {
  transistor: 'transistor',
  diode: 'diode',
  other: 'part',
}

const nounOf = (b: Bench): string => (b.partType?.family === 'zener' ? 'Zener diode' : polarityWord[b.kind])

function titleOf(b: Bench): string {
  const what = b.partType === undefined ? `unknown ${polarityWord[b.kind]}` : b.partType.type
  const nature = [b.polarity, b.material === undefined ? undefined : materialWord(b.material), nounOf(b)]
  const kind = b.partType === undefined ? '' : ` (${nature.filter((n) => n !== undefined).join(' ')})`
  return `${what}${kind} on ${b.tester.name}`
}

/** Polarity of the tester: the part's own, or both tried for an unknown part. */
function polaritySteps(b: Bench): readonly Step[] {
  if (b.kind !== 'transistor') return []
  const tried = b.polarity ?? (b.tester.polarities.includes('PNP') ? 'PNP' : 'NPN')
  const isGuess = b.polarity === undefined
  return [
    {
      kind: 'set',
      id: 'polarity',
      what: 'polarity',
      value: tried,
      say: isGuess
        ? `Set the polarity switch to ${tried} first. If the needle goes the wrong way or nothing amplifies, switch off and go through the sheet again at the other.`
        : `Set the polarity switch to ${tried}.`,
      why: isGuess
        ? 'Old germanium parts are mostly PNP; with so little voltage and current the wrong one does little harm.'
        : 'The wrong polarity reverses the emitter junction, which stands the least.',
    },
  ]
}

function leadSteps(b: Bench): readonly Step[] {
  const leads = b.partType?.leads
  const isKnown = leads !== undefined && !/verify/i.test(leads.order)
  const own = isKnown
    ? `Put the part in: leads ${leads.order}, seen: ${leads.view}.`
    : b.kind === 'diode'
      ? 'Find the cathode, mostly the end with the band, with a diode check before you put the part in.'
      : 'Find the leads with an ohmmeter or diode check before you put the part in.'
  return [
    {
      kind: 'set',
      id: 'leads',
      what: 'leads',
      value: isKnown ? leads.order : 'find out',
      say: own,
      why: isKnown
        ? `Some makers sold the same type with reversed leads: strange results are a reason to suspect it.${leads.variants === undefined ? '' : ` Known: ${leads.variants}.`}`
        : 'The lead order is not known. A wrong one reverses a junction.',
    },
  ]
}

/** The room: germanium leaks twice as much each ten kelvin. */
function settleGroup(b: Bench): Group {
  const isGermanium = b.material === undefined || b.material === 'Ge'
  const seconds = isGermanium ? rules.settleS : rules.settleS / 4
  return coolGroup([
    {
      kind: 'wait',
      id: 'settle',
      seconds,
      say: `Wait ${seconds} s with fingers off the part, and read the thermometer.`,
      why: isGermanium
        ? 'Leakage doubles with each 10 K or less: a part warm from your fingers reads far too high.'
        : 'The part should have the temperature of the room that is noted with it.',
    },
  ])
}

const endGroup = coolGroup([
  {
    kind: 'set',
    id: 'end',
    what: 'supply',
    value: 'off',
    say: 'Bring the bias to zero, switch the supply off, then take the part out.',
    why: 'A part pulled out under power can be hurt by the spark and the movement by the jolt.',
  },
])

interface Body extends Piece {
  readonly seriesResistor?: SeriesResistor
}

function transistorBody(b: Bench): Body {
  const wrongPolarity = b.polarity !== undefined && !b.tester.polarities.includes(b.polarity)
  if (wrongPolarity || b.tester.polarities.length === 0)
    return gapPiece(
      'all',
      `The tester cannot be switched to ${b.polarity ?? 'either polarity'}: nothing but the short check is safe.`,
    )
  const gain = gainPlan(b)
  const leakages = transistorLeakages.map((s) => leakagePiece(b, s, gain.main?.feed.supplyV))
  const g = b.tester.gain
  const ownVoltage = g.kind === 'digital' ? [ownBaseVoltagePiece(b, g.collectorA)] : []
  const measured = together([...leakages, gain, ...ownVoltage, saturationPiece(b, gain.nextPoint)])
  return measured.groups.length === 0 ? measured : { ...measured, groups: [settleGroup(b), ...measured.groups] }
}

function diodeBody(b: Bench): Body {
  const forward = forwardPlan(b)
  const measured = together([leakagePiece(b, 'I_R'), forward])
  const groups = measured.groups.length === 0 ? [] : [settleGroup(b), ...measured.groups]
  return {
    ...measured,
    groups,
    ...(forward.seriesResistor === undefined ? {} : { seriesResistor: forward.seriesResistor }),
  }
}

const otherBody = (b: Bench): Body =>
  gapPiece(
    'all',
    `A ${b.partType?.family ?? 'part'} is not planned yet: only its leads can be checked here.`,
    'Check each pair of leads with an ohmmeter as its kind should show.',
  )

function bodyOf(b: Bench): Body {
  if (b.ceiling.powerW <= 0)
    return gapPiece(
      'all',
      `The room is too warm: ${say(b.ceiling.ambientC, 'degC')} leaves this part nothing to warm by.`,
      'Wait for a cooler room.',
    )
  if (b.kind === 'transistor') return transistorBody(b)
  return b.kind === 'diode' ? diodeBody(b) : otherBody(b)
}

const coolStep = (n: number): Step => ({
  kind: 'wait',
  id: `cool-${n}`,
  seconds: rules.coolS,
  say: `Bring the bias to zero, switch the supply off and let the part cool for ${rules.coolS} s.`,
  why: 'The safe time of the next step is worked out from a cool part. Maximum ratings hold with a heat sink; this sheet reckons with none.',
})

/** Steps of all groups, with a pause before each that warms the part after another that did. */
function withCooling(groups: readonly Group[]): readonly Step[] {
  const steps: Step[] = []
  let pauses = 0
  let isWarm = false
  for (const group of groups) {
    if (group.needsCool && isWarm) steps.push(coolStep(++pauses))
    steps.push(...group.steps)
    isWarm = isWarm || group.warms
  }
  return steps
}

/** Settings that stay as they are until changed: setting them again to the same is left out. */
const lasting = ['supply', 'range', 'test', 'gain range', 'bias']

function withoutRepeats(steps: readonly Step[]): readonly Step[] {
  const now = new Map<string, number | string>()
  let isTouched = true
  return steps.filter((s) => {
    if (s.kind === 'wait') now.delete('supply')
    if (s.kind !== 'set') return true
    const isCurrent = s.what.endsWith('current')
    const setting = s.what === 'supply' ? s.say : s.value
    const canRepeat = lasting.includes(s.what) || (isCurrent && !isTouched)
    if (canRepeat && now.get(s.what) === setting) return false
    if (isCurrent) now.delete('bias')
    isTouched = !isCurrent
    now.set(s.what, setting)
    return true
  })
}

/** Gaps said twice are said once. */
const uniqueGaps = (gaps: readonly Gap[]): readonly Gap[] =>
  gaps.filter((g, i) => gaps.findIndex((h) => h.symbol === g.symbol && h.why === g.why) === i)

/**
 * Plans a safe run: what to set, wait for, read and decide, each step with its reason, where the needle is expected, how
 * long it may stay on; and what this tester cannot tell of this part.
 *
 * @param partType published record; undefined for an unknown part, which is taken for the weakest
 * @param wishes what the person wants; the rest is taken from `wishDefaults`
 * @throws {FaultError} `bad-input` for wishes that make no sense, `out-of-domain` for ratings that contradict each other
 */
export function planSheet(tester: Tester, partType: PartType | undefined, wishes: Partial<Wishes> = {}): RunSheet {
  const b = benchOf(tester, partType, wishesOf(wishes))
  const body = bodyOf(b)
  const start = coolGroup([...leadSteps(b), ...polaritySteps(b)])
  const steps = withoutRepeats(withCooling([start, shortGroup(b), ...body.groups, endGroup]))
  const gaps = uniqueGaps([...body.gaps, ...limitGaps(b, steps, body.gaps)])
  return {
    format: 'germane/sheet/1',
    tester,
    ...(partType === undefined ? {} : { partType }),
    wishes: b.wishes,
    title: titleOf(b),
    steps,
    gaps,
    ...(b.ceiling.assumed.length === 0 ? {} : { assumed: b.ceiling.assumed }),
    cautions: cautionsOf(b, steps),
    ...(body.seriesResistor === undefined ? {} : { seriesResistor: body.seriesResistor }),
  }
}
