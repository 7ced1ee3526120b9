import { derive, printPlain, printQuantity, type Quantity, standardUncertainty } from '#core/quantity'
import { shareOf } from './cause-kind.ts'
import { doubtDefaults } from './doubt.ts'
import { currentDifference, gainAtLeakage, openBaseLeakage } from './gain.ts'

/** What the two leakages of a part say about each other. */
export type PairWord =
  /** I_CEO is what I_CBO and the gain give. */
  | 'consistent'
  /** I_CEO is less: the gain at that tiny current is lower than at the working current. */
  | 'low gain at leakage'
  /** I_CEO is more than gain explains: a path between collector and emitter. */
  | 'extra path'
  /** The scale does not resolve the readings; nothing follows. */
  | 'mostly resolution'

export interface LeakagePair {
  readonly word: PairWord
  /** Gain at the leakage current itself; left out where I_CBO is not resolved. */
  readonly gain?: Quantity<'1'>
  /** I_CEO that I_CBO and the gain at the working current would give; left out without a gain. */
  readonly expected?: Quantity<'A'>
  readonly say: string
}

/** Whether a reading stands clear of nothing. */
const isResolved = (q: Quantity): boolean => q.value > doubtDefaults.clear * standardUncertainty(q)

/** Whether the doubt of a reading is mostly the scale's. */
const isMostlyScale = (q: Quantity): boolean => shareOf(q, 'resolution') > 0.5 * standardUncertainty(q)

/**
 * Holds I_CEO against (1 + h_FE) I_CBO. The budgets decide: a difference within two standard uncertainties is none.
 *
 * @param leakage I_CEO
 * @param cutoff I_CBO at about the same voltage and temperature
 * @param gain gain at the working current, where it was read
 */
export function leakagePair(leakage: Quantity<'A'>, cutoff: Quantity<'A'>, gain?: Quantity<'1'>): LeakagePair {
  if (!isResolved(cutoff) || !isResolved(leakage)) return unresolved(leakage, cutoff, gain)
  const tiny = derive(gainAtLeakage, { leakage, cutoff })
  if (gain === undefined)
    return {
      word: 'consistent',
      gain: tiny,
      say: `I_CEO and I_CBO give a gain of ${printQuantity(tiny)} at the leakage current itself. Measure the gain to hold against it.`,
    }
  const expected = derive(openBaseLeakage, { gain, cutoff })
  const difference = derive(currentDifference, { first: leakage, second: expected })
  const z = difference.value / standardUncertainty(difference)
  const sums = `(1 + h_FE) I_CBO is ${printQuantity(expected)}, I_CEO reads ${printQuantity(leakage)}`
  if (Math.abs(z) <= doubtDefaults.clear)
    return { word: 'consistent', gain: tiny, expected, say: `${sums}: the pair is consistent.` }
  if (z < 0)
    return {
      word: 'low gain at leakage',
      gain: tiny,
      expected,
      say: `${sums}: consistent only if the gain at that tiny current is low, ${printQuantity(tiny)} in place of ${printQuantity(gain)}. Old germanium and small silicon often do this.`,
    }
  return {
    word: 'extra path',
    gain: tiny,
    expected,
    say: `${sums}: more than the gain explains. Suspect a leakage path from collector to emitter; clean the outside of the part and read again.`,
  }
}

function unresolved(leakage: Quantity<'A'>, cutoff: Quantity<'A'>, gain: Quantity<'1'> | undefined): LeakagePair {
  const which = isResolved(leakage) ? 'I_CBO' : isResolved(cutoff) ? 'I_CEO' : 'both'
  const scale = [leakage, cutoff].filter((q) => !isResolved(q)).every(isMostlyScale)
  const why = scale ? 'mostly the resolution of the scale' : 'not clear of nothing'
  const found = which === 'both' ? `I_CEO and I_CBO are ${why}` : `${which} is ${why}`
  const needed = gain === undefined ? '' : neededCutoff(leakage, gain)
  return {
    word: 'mostly resolution',
    ...(gain === undefined ? {} : { expected: derive(openBaseLeakage, { gain, cutoff }) }),
    say: `${found}, so nothing follows from the pair.${needed} Use a finer range to tell.`,
  }
}

const neededCutoff = (leakage: Quantity<'A'>, gain: Quantity<'1'>): string =>
  ` With the gain of ${printQuantity(gain)} an I_CBO of ${printPlain(Math.max(leakage.value, 0) / (1 + gain.value), 'A', { digits: 2 })} would do.`
