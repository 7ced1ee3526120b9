/** Preferred values of a decade. Source: IEC 60063:2015. */
export const eSeries = {
  E12: [10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82],
  E24: [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91],
} as const

export type ESeries = keyof typeof eSeries

/**
 * Smallest preferred value that is not below a resistance.
 *
 * @param ohm above 0
 * @example preferredAbove(413, 'E12') // 470
 */
export function preferredAbove(ohm: number, series: ESeries): number {
  const power = Math.floor(Math.log10(ohm)) - 1
  for (const decade of [power, power + 1])
    for (const digits of eSeries[series]) {
      const value = Number(`${digits}e${decade}`)
      if (value >= ohm * (1 - 1e-12)) return value
    }
  return Number(`10e${power + 2}`)
}

/** Power ratings resistors are sold in, W (common practice). */
export const resistorPowerW = [0.125, 0.25, 0.5, 1, 2, 3, 5, 7, 10, 15, 25, 50, 100] as const

/** Smallest rating sold that a resistor uses at most by half, so that it stays cool (common practice), W. */
export const resistorRating = (powerW: number): number =>
  resistorPowerW.find((w) => w >= 2 * powerW) ?? Math.ceil(2 * powerW)
