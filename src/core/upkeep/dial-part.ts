import type { DialBridge, Tester } from '#core/tester'
import { around, type TesterPart } from './tester-part.ts'

const bridgeOf = (t: Tester): DialBridge | undefined => (t.gain.kind === 'dial' ? t.gain.bridge : undefined)

const withBridge = (t: Tester, change: Partial<DialBridge>): Tester =>
  t.gain.kind !== 'dial' || t.gain.bridge === undefined
    ? t
    : { ...t, gain: { ...t.gain, bridge: { ...t.gain.bridge, ...change } } }

/** The resistors a gain dial works with. */
export function dialParts(t: Tester): readonly TesterPart[] {
  const b = bridgeOf(t)
  if (b === undefined) return []
  return [
    {
      id: 'dial resistor',
      kind: 'dial',
      unit: 'ohm',
      nominal: b.fixedOhm,
      allowed: around(b.fixedOhm, b.tolerance),
      how: `Across the resistor in the ${b.dial === 'base' ? 'collector' : 'base'} lead, cells out.`,
      change: (was, fixedOhm) => withBridge(was, { fixedOhm }),
    },
    {
      id: 'dial pot',
      kind: 'dial',
      unit: 'ohm',
      nominal: b.potOhm,
      allowed: around(b.potOhm, b.tolerance),
      how: 'The dial end to end, cells out and one end lifted.',
      change: (was, potOhm) => withBridge(was, { potOhm }),
    },
  ]
}

/**
 * What the gain dial shows over what it should, with its resistors as they are: the scale was drawn for others. At null
 * I_B R_B = I_C R_C in a ratio bridge, and in a divider the collector resistor has a voltage that is fixed, so that the
 * gain goes with R_B / R_C in both.
 *
 * @param drawn the tester as its scale was drawn for
 */
export function dialShows(drawn: Tester, now: Tester): number {
  const [then, is] = [bridgeOf(drawn), bridgeOf(now)]
  if (then === undefined || is === undefined) return 1
  const fixed = is.fixedOhm / then.fixedOhm
  const pot = is.potOhm / then.potOhm
  return then.dial === 'base' ? fixed / pot : pot / fixed
}
