/** How near to a limit's condition a measurement must be, and how far a law may carry it (all common practice). */
export const nearness = {
  /** A current this near counts as the same, relative. */
  sameCurrent: 0.1,
  /** A leakage is carried over a temperature step up to this, K. */
  leakageK: 20,
  /** Gain, V_BE and V_F are carried over a temperature step up to this, K. */
  gentleK: 40,
  /** A leakage is carried over a voltage ratio up to this. */
  leakageVoltage: 3,
  /** No leakage is carried above this share of the breakdown rating: it climbs there. */
  breakdownShare: 0.8,
  /** A gain is carried over a collector current ratio up to this. */
  gainCurrent: 3,
  /** A gain is carried over a collector voltage ratio up to this. */
  gainVoltage: 6,
  /** Below this collector voltage a transistor is at the edge of saturation, where gain falls, V. */
  saturationV: 0.5,
  /** Collector voltage taken where nobody wrote one down, V. */
  usualV: 3,
  /** A junction voltage is carried over a current ratio up to this. */
  junctionCurrent: 10,
  /** Small-signal limits up to this frequency hold for slow changes too, Hz. */
  slowHz: 1000,
} as const

/** Temperature at which limits hold that state none, degC. */
export const usualLimitC = 25

/** Ratio of two positive numbers, at least 1. */
export const apart = (a: number, b: number): number => (a > b ? a / b : b / a)
