import type { DoubtfulNumber, LawMaterial } from '#core/physics'
import { leaf, limitTerm, type Quantity, type Unit } from '#core/quantity'

/** How leakage grows with voltage: exponent `m` of `reduce/leakage-at-voltage`. */
export const leakageExponent: DoubtfulNumber = {
  centre: 0.5,
  halfWidth: 0.5,
  says: 'leakage against voltage somewhere between flat (junction) and proportional (surface)',
  source: { title: 'junction leakage is flat, surface leakage proportional to voltage', standing: 'common practice' },
}

/** The same for open-base leakage in silicon, where gain rises with the leakage it multiplies. */
export const openBaseExponent: Readonly<Record<LawMaterial, DoubtfulNumber>> = {
  Ge: leakageExponent,
  Si: {
    centre: 0.9,
    halfWidth: 0.9,
    says: 'open-base leakage against voltage somewhere between flat and rising faster than voltage',
    source: { title: 'surface leakage times a gain that rises with current', standing: 'common practice' },
  },
}

/** How gain goes with collector current: exponent `p` of `reduce/gain-at-point`, near the gain's peak. */
export const gainCurrentExponent: DoubtfulNumber = {
  centre: 0,
  halfWidth: 0.25,
  says: 'gain against collector current: at most a third up or down for three times the current',
  source: { title: 'gain is flat near its peak and falls on both sides', standing: 'common practice' },
}

/** How gain goes with collector voltage: exponent `s` of `reduce/gain-at-point`. */
export const gainVoltageExponent: Readonly<Record<LawMaterial, DoubtfulNumber>> = {
  Ge: {
    centre: 0.1,
    halfWidth: 0.1,
    says: 'gain against collector voltage: up to 10 % more for 1.6 times the voltage (germanium alloy)',
    source: { title: 'Early effect with V_A of 20 V to 60 V', standing: 'common practice' },
  },
  Si: {
    centre: 0.05,
    halfWidth: 0.05,
    says: 'gain against collector voltage: up to 7 % more for twice the voltage (silicon)',
    source: { title: 'Early effect with V_A of 50 V to 150 V', standing: 'common practice' },
  },
}

/** Ideality of a base-emitter junction that conducts milliamperes. */
export const baseIdeality: DoubtfulNumber = {
  centre: 1.05,
  halfWidth: 0.05,
  says: 'ideality of the base-emitter junction between 1.0 and 1.1',
  source: { title: 'collector current follows V_BE with n close to 1', standing: 'common practice' },
}

/** The same with the resistance of base and emitter counted in, for carrying V_BE over some change of current. */
export const baseIdealityLoaded: DoubtfulNumber = {
  centre: 1.25,
  halfWidth: 0.25,
  says: 'ideality of the base-emitter junction between 1.0 and 1.5, its resistance counted in',
  source: { title: 'V_BE rises 60 mV to 90 mV for ten times the current', standing: 'common practice' },
}

/** The same for a diode. */
export const diodeIdeality: DoubtfulNumber = {
  centre: 1.6,
  halfWidth: 0.6,
  says: 'ideality of a diode between 1.0 and 2.2, its series resistance counted in',
  source: { title: 'V_F rises 60 mV to 130 mV for ten times the current', standing: 'common practice' },
}

/** How far a part has warmed up towards steady heat while it was read. */
export const warmShare: DoubtfulNumber = {
  centre: 0.5,
  halfWidth: 0.5,
  says: 'somewhere between cold and fully warmed by its own heat while it was read',
  source: { title: 'a short reading stops before steady heat', standing: 'common practice' },
}

/**
 * A doubtful number as a quantity, its doubt a cause of its own.
 *
 * @param cause identity of the cause; it names the part where the number is the part's own
 */
export const assumed = <U extends Unit>(n: DoubtfulNumber, unit: U, cause: string): Quantity<U> =>
  leaf(n.centre, unit, { kind: 'assumed', what: n.says, why: `${n.source.title} (${n.source.standing})` }, [
    limitTerm(cause, n.says, n.halfWidth),
  ])
