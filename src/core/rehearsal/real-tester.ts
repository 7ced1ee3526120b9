import {
  burdenOf,
  type Circuit,
  causes,
  drawnOf,
  fullScaleAtPart,
  type Movement,
  type Range,
  type Supply,
  seriesOhmOf,
  shuntOhmOf,
  supplyAtTap,
  type Tester,
} from '#core/tester'
import type { ErrorDraw } from './error-draw.ts'

/**
 * A tester as it really is: one that its description fits, with one draw of every error the budget of a reading names.
 * Movement, shunts, multipliers and supplies have values of their own, so that the needle is moved by its real network.
 */
export interface RealTester {
  /** As described: what its owner knows. */
  readonly described: Tester
  readonly draw: ErrorDraw
  /** The described tester with the real movement in it. */
  readonly real: Tester
}

/** Draws the tester that one really has. */
export function realTester(described: Tester, draw: ErrorDraw): RealTester {
  const m = described.movement
  return { described, draw, real: m === undefined ? described : { ...described, movement: realMovement(m) } }

  function realMovement(stated: Movement): Movement {
    return {
      ...stated,
      fullScaleA: stated.fullScaleA + draw.error(causes.sensitivity(described, stated)),
      coilOhm: stated.coilOhm + draw.errors(causes.coil(described, stated)),
    }
  }
}

/** A range with the real values of its network. */
export const realRange = (t: RealTester, range: Range): Range => ({ ...range, circuit: realCircuit(t, range) })

function realCircuit({ described, draw }: RealTester, range: Range): Circuit {
  const c = range.circuit
  switch (c.kind) {
    case 'shunt': {
      const { asFound: _, ...plain } = c
      const shuntOhm = shuntOhmOf(c) + draw.errors(causes.component(described, range, 'shunt'))
      const contactOhm = c.contactOhm + draw.errors(causes.contact(described, range, c.contactOhm))
      return { ...plain, shuntOhm, contactOhm }
    }
    case 'universal': {
      const ringOhm = c.ringOhm + draw.errors(causes.ring(described, c.tolerance, c.ringOhm))
      const tapOhm = c.tapOhm + draw.errors(causes.tap(described, range, c.tolerance, c.tapOhm))
      return { ...c, ringOhm, tapOhm }
    }
    case 'multiplier': {
      const { asFound: _, ...plain } = c
      return { ...plain, seriesOhm: seriesOhmOf(c) + draw.errors(causes.component(described, range, 'multiplier')) }
    }
    case 'movement':
    case 'stated':
    case 'unknown':
      return c
  }
}

/** A supply at a tap as it really is: its open voltage and the resistance in series with it. */
export function realSupply(
  t: RealTester,
  supply: Supply,
  tapV: number,
): { readonly emfV: number; readonly ohm: number } {
  const { open, source } = supplyAtTap(t.described, supply, tapV)
  return { emfV: t.draw.really(open), ohm: Math.max(0, t.draw.really(source)) }
}

/** Current or voltage at the part that really takes the needle of a range to its end. */
export const realFullScale = (t: RealTester, range: Range, ambientC: number): number =>
  fullScaleAtPart(t.real, realRange(t, range), ambientC)

/** Resistance that a current range really puts in series with the part, ohm. */
export const realSeriesOhm = (t: RealTester, range: Range, ambientC: number): number =>
  burdenOf(realRange(t, range), t.real.movement, 1, ambientC)

/** Resistance that a voltage range really puts across the part, ohm; infinite where nothing is stated. */
export const realAcrossOhm = (t: RealTester, range: Range): number =>
  1 / drawnOf(realRange(t, range), t.real.movement, 1)
