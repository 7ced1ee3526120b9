/**
 * A part of a whole with two digits, or three where it is a percent or more.
 *
 * @example printPercent(-0.0045) // '-0.45 %'
 * @example printPercent(0.0393) // '3.93 %'
 */
export const printPercent = (part: number): string =>
  Math.abs(part) < 1e-9 ? '0 %' : `${Number((part * 100).toPrecision(Math.abs(part) >= 0.01 ? 3 : 2))} %`
