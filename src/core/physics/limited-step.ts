/**
 * A Newton step on a junction's voltage, held back where the exponential would throw it far: forward steps beyond the
 * critical voltage grow with the logarithm of the step, as SPICE does (pnjlim).
 *
 * @param oldV voltage before the step, V
 * @param wantedV voltage the step asks for, V
 * @param stepV n V_T, V
 * @param saturationA I_S, A
 * @param breakdownV where breakdown begins, V; left out, there is none
 * @param breakdownStepV n V_T of breakdown, V
 * @see L. W. Nagel, SPICE2 (1975), Memorandum ERL-M520, on junction limiting (from memory)
 */
export function limitedStep(
  oldV: number,
  wantedV: number,
  stepV: number,
  saturationA: number,
  breakdownV = Number.POSITIVE_INFINITY,
  breakdownStepV = stepV,
): number {
  if (wantedV < Math.min(0, -breakdownV + 10 * breakdownStepV))
    return -breakdownV - pnLimited(-oldV - breakdownV, -wantedV - breakdownV, breakdownStepV, saturationA)
  return pnLimited(oldV, wantedV, stepV, saturationA)
}

const criticalVoltage = (stepV: number, saturationA: number): number =>
  stepV * Math.log(stepV / (Math.SQRT2 * Math.max(saturationA, 1e-300)))

function pnLimited(oldV: number, wantedV: number, stepV: number, saturationA: number): number {
  if (!(Math.abs(wantedV - oldV) > 2 * stepV)) return wantedV
  const criticalV = criticalVoltage(stepV, saturationA)
  if (!(wantedV > criticalV)) return wantedV
  if (oldV > 0) {
    const grown = 1 + (wantedV - oldV) / stepV
    return grown > 0 ? oldV + stepV * Math.log(grown) : Math.max(criticalV, 0.1 * stepV)
  }
  return stepV * Math.log(Math.max(wantedV / stepV, 1.1))
}
