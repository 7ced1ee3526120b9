import type { Group } from './group.ts'
import { rules } from './rule.ts'
import type { Step } from './sheet.ts'

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

/** Says of a reading near a rating why it is so short. */
const withHeatSink = (s: Step): Step =>
  s.kind === 'read' && (s.safeSeconds ?? rules.longestReadS) <= rules.nearRatingS
    ? {
        ...s,
        why: `${s.why} Near a maximum rating: keep it short even with a heat sink, for the ratings hold with one.`,
      }
    : s

/** The steps of a sheet in order: pauses put in, repeats left out, short times explained. */
export const arrange = (groups: readonly Group[]): readonly Step[] =>
  withoutRepeats(withCooling(groups)).map(withHeatSink)
