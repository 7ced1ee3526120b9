const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91] as const

/** Geometric steps rounded to three digits, but for 9.20, where the rounded step would be 9.19. */
const E192 = Array.from({ length: 192 }, (_, i) => (i === 185 ? 920 : Math.round(10 ** (2 + i / 192))))

const every = (step: number, series: readonly number[]): readonly number[] => series.filter((_, i) => i % step === 0)

/** Preferred values of a decade, two digits each up to E24 and three beyond. Source: IEC 60063:2015. */
export const eSeries = {
  E3: every(8, E24),
  E6: every(4, E24),
  E12: every(2, E24),
  E24: E24 as readonly number[],
  E48: every(4, E192),
  E96: every(2, E192),
  E192: E192 as readonly number[],
} as const

export type ESeries = keyof typeof eSeries

/** The series, coarsest first. */
export const eSeriesNames = Object.keys(eSeries) as readonly ESeries[]

/** Limit of error resistors of a series are usually sold with. Source: IEC 60063:2015. */
export const usualTolerance = {
  E3: 0.4,
  E6: 0.2,
  E12: 0.1,
  E24: 0.05,
  E48: 0.02,
  E96: 0.01,
  E192: 0.005,
} as const satisfies Readonly<Record<ESeries, number>>

/** Rounding of a double never parts a value from the preferred value it is. */
const rounding = 1e-12

/** Preferred values of the decade a value lies in and the first of the next, rising. */
function decadeOf(ohm: number, series: ESeries): readonly number[] {
  const digits = eSeries[series]
  const width = String(digits[0]).length
  const power = Math.floor(Math.log10(ohm) + rounding) + 1 - width
  return [...digits.map((d) => Number(`${d}e${power}`)), Number(`1e${power + width}`)]
}

/**
 * Smallest preferred value that is not below a resistance.
 *
 * @param ohm above 0
 * @example preferredAbove(413, 'E12') // 470
 */
export const preferredAbove = (ohm: number, series: ESeries): number =>
  decadeOf(ohm, series).find((value) => value >= ohm * (1 - rounding))!

/**
 * Largest preferred value that is not above a resistance.
 *
 * @param ohm above 0
 * @example preferredBelow(413, 'E12') // 390
 */
export const preferredBelow = (ohm: number, series: ESeries): number =>
  decadeOf(ohm, series).findLast((value) => value <= ohm * (1 + rounding))!

/**
 * The preferred value nearest to a resistance by ratio, as a tolerance counts.
 *
 * @param ohm above 0
 * @example nearestPreferred(11.1, 'E24') // 11
 */
export function nearestPreferred(ohm: number, series: ESeries): number {
  const [below, above] = [preferredBelow(ohm, series), preferredAbove(ohm, series)]
  return ohm / below <= above / ohm ? below : above
}

/** The series a value is a member of, coarsest first. @example seriesOf(4700) // ['E3', 'E6', 'E12', 'E24'] */
export const seriesOf = (ohm: number): readonly ESeries[] =>
  eSeriesNames.filter((name) => Math.abs(nearestPreferred(ohm, name) / ohm - 1) <= 2 * rounding)

/** Preferred values from one resistance to another, both counted, rising. */
export function preferredBetween(fromOhm: number, toOhm: number, series: ESeries): readonly number[] {
  const values: number[] = []
  for (let v = preferredAbove(fromOhm, series); v <= toOhm * (1 + rounding); ) {
    values.push(v)
    v = preferredAbove(v * (1 + 1e-6), series)
  }
  return values
}
