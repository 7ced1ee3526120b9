import type { PartType } from '#core/device'
import { calibrationAt, distrustOf, type Tester, unitOf } from '#core/tester'
import { arrange } from './arrange.ts'
import { type Bench, benchOf } from './bench.ts'
import { cautionsOf } from './cautions.ts'
import { forwardPlan } from './forward.ts'
import { gainPlan } from './gain.ts'
import { limitGaps } from './gap.ts'
import { gapPiece, type Piece, together } from './group.ts'
import { type LeakageSymbol, leakagePiece } from './leakage.ts'
import { say } from './say.ts'
import type { SeriesResistor } from './series-resistor.ts'
import type { Gap, RunSheet, Step, Wishes } from './sheet.ts'
import { shortGroup } from './short.ts'
import { endGroup, settleGroup, startGroup } from './start.ts'
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
  if (b.ceiling.powerW <= 0 || b.ceiling.junctionC <= b.ceiling.ambientC)
    return gapPiece(
      'all',
      `The room is too warm: ${say(b.ceiling.ambientC, 'degC')} leaves this part nothing to warm by.`,
      'Wait for a cooler room.',
    )
  if (b.kind === 'transistor') return transistorBody(b)
  return b.kind === 'diode' ? diodeBody(b) : otherBody(b)
}

/** Gaps said twice are said once. */
const uniqueGaps = (gaps: readonly Gap[]): readonly Gap[] =>
  gaps.filter((g, i) => gaps.findIndex((h) => h.symbol === g.symbol && h.why === g.why) === i)

/** A reading on a range that its calibration found bad says so where it is taken. */
function withTrust(tester: Tester, step: Step): Step {
  if (step.kind !== 'read' || step.range === undefined) return step
  const inForce = calibrationAt(tester, { id: step.range, unit: unitOf(step.reads) ?? 'A' })
  const distrust = inForce === undefined ? undefined : distrustOf(inForce)
  return distrust === undefined ? step : { ...step, why: `${step.why} ${distrust} Take the reading for a rough one.` }
}

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
  const planned = arrange([startGroup(b), shortGroup(b), ...body.groups, endGroup])
  const steps = planned.map((s) => withTrust(tester, s))
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
