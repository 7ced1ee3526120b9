/**
 * The rules of a run sheet as numbers, each of them `common practice`: chosen for a bench, on the safe side. The reasons
 * stand in docs/explanation/run-sheet-rules.md.
 */
export const rules = {
  /** Share of a published rating that a sheet uses. */
  ratingShare: 0.8,
  /** The same for records of low confidence. */
  lowConfidenceShare: 0.5,
  /** The junction stays this far below T_Jmax, K. */
  junctionMarginK: 15,
  /** A person needs this long to read a needle, s. */
  shortestReadS: 3,
  /** Nothing that warms stays on longer, s. */
  longestReadS: 60,
  /** A step that warms the junction less than this may stay on, K. */
  stayOnRiseK: 5,
  /** From this share of a power or current rating on, a reading is short whatever the heat model says. */
  nearRatingShare: 0.5,
  /** Such a reading lasts at most this long, s. */
  nearRatingS: 5,
  /** Pause without power before a timed step, s: three of the shortest case time constants. */
  coolS: 90,
  /** Wait for a part to reach room temperature before its leakage is read, s. */
  settleS: 120,
  /** A leakage this many times the largest expected need not be followed further. */
  leakyTimes: 5,
  /** Largest loop gain of self-heating in a leakage test. */
  loopGain: 0.5,
  /** Extra current allowed for when the collector voltage is raised at a fixed base current. */
  earlyShare: 1.3,
  /** Limits apply where their temperature is this near to the ambient one, K. */
  temperatureNearK: 15,
  /** A condition within this share of the published one counts as reached. */
  conditionShare: 0.2,
  /** Supply above which it counts as hazardous, V: IEC 61010-1, normal condition. */
  hazardousV: 60,
  /** A short check may let this much through a part of which nothing is known, A. */
  unknownShortA: 0.02,
  /** Where no current is known: a gentle one for small parts, A. */
  gentleA: 1e-3,
  /** Share of the rated current that is gentle for a power part. */
  gentleShare: 0.02,
  /** Voltage a part without any voltage rating is trusted with, V. */
  unknownV: 6,
  /** Supply over forward drop at a diode's series resistor, at least. */
  forwardHeadroom: 2,
} as const

/** What is taken for granted where T_Jmax is not published, degC (common practice). */
export const usualJunctionC = { Ge: 75, Si: 125, GaAs: 125 } as const
