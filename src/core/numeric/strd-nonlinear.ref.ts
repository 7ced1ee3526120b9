/** A law of the NIST sets: value at parameters b and predictors x. */
export type StrdLaw = (b: ArrayLike<number>, x: readonly number[]) => number

/** NIST/ITL Statistical Reference Datasets, nonlinear regression: the laws, as published. Nelson's observes ln y. */
export const strdLaws: Readonly<Record<string, StrdLaw>> = {
  Bennett5: (b, x) => b[0]! * (b[1]! + x[0]!) ** (-1 / b[2]!),
  BoxBOD: (b, x) => b[0]! * (1 - Math.exp(-(b[1]! * x[0]!))),
  Chwirut1: (b, x) => Math.exp(-(b[0]! * x[0]!)) / (b[1]! + b[2]! * x[0]!),
  Chwirut2: (b, x) => Math.exp(-(b[0]! * x[0]!)) / (b[1]! + b[2]! * x[0]!),
  DanWood: (b, x) => b[0]! * x[0]! ** b[1]!,
  ENSO: (b, x) =>
    b[0]! +
    b[1]! * Math.cos((2 * Math.PI * x[0]!) / 12) +
    b[2]! * Math.sin((2 * Math.PI * x[0]!) / 12) +
    b[4]! * Math.cos((2 * Math.PI * x[0]!) / b[3]!) +
    b[5]! * Math.sin((2 * Math.PI * x[0]!) / b[3]!) +
    b[7]! * Math.cos((2 * Math.PI * x[0]!) / b[6]!) +
    b[8]! * Math.sin((2 * Math.PI * x[0]!) / b[6]!),
  Eckerle4: (b, x) => (b[0]! / b[1]!) * Math.exp(-0.5 * ((x[0]! - b[2]!) / b[1]!) ** 2),
  Gauss1: (b, x) =>
    b[0]! * Math.exp(-(b[1]! * x[0]!)) +
    b[2]! * Math.exp(-((x[0]! - b[3]!) ** 2 / b[4]! ** 2)) +
    b[5]! * Math.exp(-((x[0]! - b[6]!) ** 2 / b[7]! ** 2)),
  Gauss2: (b, x) =>
    b[0]! * Math.exp(-(b[1]! * x[0]!)) +
    b[2]! * Math.exp(-((x[0]! - b[3]!) ** 2 / b[4]! ** 2)) +
    b[5]! * Math.exp(-((x[0]! - b[6]!) ** 2 / b[7]! ** 2)),
  Gauss3: (b, x) =>
    b[0]! * Math.exp(-(b[1]! * x[0]!)) +
    b[2]! * Math.exp(-((x[0]! - b[3]!) ** 2 / b[4]! ** 2)) +
    b[5]! * Math.exp(-((x[0]! - b[6]!) ** 2 / b[7]! ** 2)),
  Hahn1: (b, x) =>
    (b[0]! + b[1]! * x[0]! + b[2]! * x[0]! ** 2 + b[3]! * x[0]! ** 3) /
    (1 + b[4]! * x[0]! + b[5]! * x[0]! ** 2 + b[6]! * x[0]! ** 3),
  Kirby2: (b, x) => (b[0]! + b[1]! * x[0]! + b[2]! * x[0]! ** 2) / (1 + b[3]! * x[0]! + b[4]! * x[0]! ** 2),
  Lanczos1: (b, x) =>
    b[0]! * Math.exp(-(b[1]! * x[0]!)) + b[2]! * Math.exp(-(b[3]! * x[0]!)) + b[4]! * Math.exp(-(b[5]! * x[0]!)),
  Lanczos2: (b, x) =>
    b[0]! * Math.exp(-(b[1]! * x[0]!)) + b[2]! * Math.exp(-(b[3]! * x[0]!)) + b[4]! * Math.exp(-(b[5]! * x[0]!)),
  Lanczos3: (b, x) =>
    b[0]! * Math.exp(-(b[1]! * x[0]!)) + b[2]! * Math.exp(-(b[3]! * x[0]!)) + b[4]! * Math.exp(-(b[5]! * x[0]!)),
  MGH09: (b, x) => (b[0]! * (x[0]! ** 2 + x[0]! * b[1]!)) / (x[0]! ** 2 + x[0]! * b[2]! + b[3]!),
  MGH10: (b, x) => b[0]! * Math.exp(b[1]! / (x[0]! + b[2]!)),
  MGH17: (b, x) => b[0]! + b[1]! * Math.exp(-(x[0]! * b[3]!)) + b[2]! * Math.exp(-(x[0]! * b[4]!)),
  Misra1a: (b, x) => b[0]! * (1 - Math.exp(-(b[1]! * x[0]!))),
  Misra1b: (b, x) => b[0]! * (1 - (1 + (b[1]! * x[0]!) / 2) ** -2),
  Misra1c: (b, x) => b[0]! * (1 - (1 + 2 * b[1]! * x[0]!) ** -0.5),
  Misra1d: (b, x) => b[0]! * b[1]! * x[0]! * (1 + b[1]! * x[0]!) ** -1,
  Nelson: (b, x) => b[0]! - b[1]! * x[0]! * Math.exp(-(b[2]! * x[1]!)),
  Rat42: (b, x) => b[0]! / (1 + Math.exp(b[1]! - b[2]! * x[0]!)),
  Rat43: (b, x) => b[0]! / (1 + Math.exp(b[1]! - b[2]! * x[0]!)) ** (1 / b[3]!),
  Roszman1: (b, x) => b[0]! - b[1]! * x[0]! - Math.atan(b[2]! / (x[0]! - b[3]!)) / Math.PI,
  Thurber: (b, x) =>
    (b[0]! + b[1]! * x[0]! + b[2]! * x[0]! ** 2 + b[3]! * x[0]! ** 3) /
    (1 + b[4]! * x[0]! + b[5]! * x[0]! ** 2 + b[6]! * x[0]! ** 3),
}
