/** Power ratings resistors are sold in, W (common practice). */
export const resistorPowerW = [0.125, 0.25, 0.5, 1, 2, 3, 5, 7, 10, 15, 25, 50, 100] as const

/** Smallest rating sold that a resistor uses at most by half, so that it stays cool (common practice), W. */
export const resistorRating = (powerW: number): number =>
  resistorPowerW.find((w) => w >= 2 * powerW) ?? Math.ceil(2 * powerW)

/** Voltage a resistor of a quarter to half a watt bears, whatever its power (common practice), V. */
export const resistorVoltageV = 250
