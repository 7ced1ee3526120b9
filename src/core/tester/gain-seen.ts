import { leaf, type Quantity } from '#core/quantity'
import { nearNames } from '#core/text'
import { calibrated } from './calibrated.ts'
import * as cause from './cause.ts'
import type { Reading } from './reading.ts'
import { type DialSpan, findSpan, spanReadout } from './readout.ts'
import type { Seen } from './seen-at-part.ts'
import { readingFault, refused, stateFault } from './shown.ts'
import type { Gain, Tester } from './tester.ts'

type Dial = Extract<Gain, { kind: 'dial' }>

/**
 * A gain read off a dial or a display, with its budget by cause. The dial's tolerance is shared by all readings on one
 * span; how finely it is read and how sharply it nulls belong to the reading. A span that is calibrated is corrected.
 */
export function gainSeen(tester: Tester, r: Reading): Seen {
  const { gain } = tester
  if (r.shown.kind === 'state') return refused(stateFault(r, r.shown.state))
  if (gain.kind === 'none' || gain.kind === 'ratio')
    return refused(
      readingFault(
        'reads',
        r.reads,
        `is not read on ${tester.name}`,
        gain.kind === 'ratio' ? 'Enter I_C and I_B; the gain is their ratio.' : 'Leave it out.',
      ),
    )
  if (r.shown.kind === 'deflection')
    return refused(
      readingFault('shown', r.seen, 'is a deflection, not a gain', 'Write the number on the dial or display.'),
    )
  if (r.shown.unit !== '1')
    return refused(
      readingFault('shown', r.seen, `is in ${r.shown.unit}, and a gain has no unit`, 'Write the plain number.'),
    )
  const value = r.shown.value
  if (!(value >= 0)) return refused(readingFault('shown', r.seen, 'is not a gain', 'Write the number as it was shown.'))
  return gain.kind === 'dial' ? dialled(tester, gain, r, value) : displayed(tester, gain, r, value)
}

function dialled(tester: Tester, gain: Dial, r: Reading, value: number): Seen {
  const found = spanOf(gain, r, value)
  if (!('span' in found)) return found
  const { span, notes } = found
  const quantity = leaf(value, '1', { kind: 'read', what: 'h_FE', seen: r.seen }, [
    ...cause.gainLimit(
      `${tester.id}/gain/${span.id}/dial`,
      `gain dial, within ${cause.percent(gain.tolerance)}`,
      gain.tolerance,
      value,
    ),
    cause.resolution(r, gain.readable * span.to, 'reading the dial'),
    ...cause.ownLimit(r, 'null', 'sharpness of the null', gain.nullWithin * value),
  ])
  const shown = (): Quantity => leaf(value, '1', { kind: 'read', what: 'h_FE', seen: r.seen }, [])
  return calibrated(tester, spanReadout(span), r, { ok: true, quantity, notes }, { value, quantity: shown })
}

function spanOf(
  gain: Dial,
  r: Reading,
  value: number,
): { readonly span: DialSpan; readonly notes: readonly string[] } | Extract<Seen, { ok: false }> {
  const holds = (s: DialSpan): boolean => value >= s.from * (1 - 1e-9) && value <= s.to * (1 + 1e-9)
  const names = gain.spans.map((s) => s.id)
  const words = gain.spans.map((s) => `${s.id} (${s.from} to ${s.to})`).join(', ')
  if (r.range !== undefined) {
    const wanted = r.range
    const span = findSpan(gain.spans, wanted)
    if (span === undefined) {
      const mend = `Spans of the dial: ${words}.`
      return refused({
        code: 'not-found',
        what: 'span of the gain dial',
        name: wanted,
        near: nearNames(wanted, names),
        mend,
      })
    }
    if (holds(span)) return { span, notes: [] }
    const mend = `Check the number; spans of the dial: ${words}.`
    return refused(readingFault('shown', r.seen, `is off the span ${span.id}`, mend))
  }
  const [span, ...others] = gain.spans.filter(holds)
  if (span === undefined)
    return refused(readingFault('shown', r.seen, 'is off every span of the dial', `They are: ${words}.`))
  const note = `The span was not noted: ${span.id} was taken.`
  return { span, notes: others.length === 0 ? [] : [note] }
}

function displayed(tester: Tester, gain: Extract<Gain, { kind: 'digital' }>, r: Reading, value: number): Seen {
  const isStated = gain.ofReading !== undefined || gain.counts !== undefined
  const part = isStated ? (gain.ofReading ?? 0) : cause.assumedDoubts.gain
  const label = `displayed gain, within ${cause.percent(part)}${isStated ? '' : ' (assumed)'}`
  const quantity = leaf(value, '1', { kind: 'read', what: 'h_FE', seen: r.seen }, [
    ...cause.gainLimit(`${tester.id}/gain/display`, label, part, value),
    ...cause.ownLimit(r, 'counts', `${gain.counts ?? 0} counts`, (gain.counts ?? 0) * gain.step),
    cause.resolution(r, gain.step, 'last digit'),
  ])
  const note = `The maker says nothing of how accurate the gain of ${tester.name} is: ${cause.percent(part)} was taken for granted.`
  return { ok: true, quantity, notes: isStated ? [] : [note] }
}
