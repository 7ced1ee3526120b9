import { printPlain } from '#core/quantity'
import { isOf } from './calibration.ts'
import { readoutsOf } from './readout.ts'
import type { Calibration, CalibrationPoint, RangeCalibration, Tester } from './tester.ts'

/** A calibration as a description file has it: values with their units. */
export function writtenCalibration(tester: Tester, c: Calibration): Readonly<Record<string, unknown>> {
  const { ambientC, ranges, ...head } = c
  return {
    ...head,
    ...(ambientC === undefined ? {} : { ambient: `${ambientC} degC` }),
    ranges: ranges.map((r) => writtenRange(tester, r)),
  }
}

/** Digits that are written: far more than any calibration knows. */
const digits = 8

function writtenRange(tester: Tester, r: RangeCalibration) {
  const unit = readoutsOf(tester).find((known) => isOf(r, known))?.unit ?? r.unit ?? 'A'
  const amount = (x: number): string => printPlain(x, unit, { digits, ascii: true })
  const part = (x: number): string => `${Number((100 * x).toPrecision(digits))} %`
  const { law } = r
  return {
    range: r.range,
    trust: r.trust,
    why: r.why,
    from: amount(r.from),
    to: amount(r.to),
    law:
      law.kind === 'line'
        ? {
            kind: law.kind,
            at: amount(law.at),
            offset: amount(law.offset),
            slope: part(law.slope),
            uOffset: amount(law.uOffset),
            uSlope: part(law.uSlope),
          }
        : {
            kind: law.kind,
            shown: law.shown.map(amount),
            correction: law.correction.map(amount),
            u: law.u.map(amount),
          },
    uReference: amount(r.uReference),
    uRepeat: amount(r.uRepeat),
    ...(r.dof === undefined ? {} : { dof: r.dof }),
    ...(r.points === undefined ? {} : { points: r.points.map((p) => writtenPoint(p, amount)) }),
  }
}

const writtenPoint = ({ shown, reference, u, way }: CalibrationPoint, amount: (x: number) => string) => ({
  shown: amount(shown),
  reference: amount(reference),
  ...(u === undefined ? {} : { u: amount(u) }),
  ...(way === undefined ? {} : { way }),
})
