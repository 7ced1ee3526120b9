import type { PartType } from '#core/device'
import { type Quantity, standardUncertainty } from '#core/quantity'
import type { Parameter } from '#core/reduce'
import type { Between, PartNumbers } from './part-numbers.ts'
import { atCurrent } from './transistor-device.ts'
import { typeNumbers } from './type-numbers.ts'

/** Symbols of the parameters a stage asks for. */
export const stageSymbols = ['h_FE0', 'h_FE0(I_CBO)', 'h_FE', 'I_CBO', 'I_CEO', 'I_CES', 'V_BE', 'V_F', 'I_R'] as const

/**
 * A measured part as the numbers a stage needs: gain with leakage taken out before plain gain, I_CBO before what I_CEO
 * says of it, values brought to 25 degC before those measured at another temperature. Ends are 95 % of what the
 * measurement leaves open. What was not measured is taken from its type, and noted.
 *
 * @param part tag, for people
 * @throws {FaultError} as `typeNumbers`
 */
export function measuredNumbers(
  part: string,
  type: PartType,
  parameters: readonly Parameter[],
  nearA?: number,
): PartNumbers {
  const published = typeNumbers(type, nearA)
  const usable = parameters.filter((p) => p.doubts.every((d) => d.weight !== 'nonsense') && p.quantity.value > 0)
  const of = (...symbols: readonly string[]): Parameter | undefined => {
    for (const symbol of symbols) {
      const all = usable.filter((p) => p.symbol === symbol)
      const found = all.find((p) => p.standing === 'brought to 25 C') ?? all[0]
      if (found !== undefined) return found
    }
    return undefined
  }
  const notes: string[] = []
  if (published.kind === 'diode') {
    const [v, r] = [of('V_F'), of('I_R')]
    if (v === undefined) notes.push('Its V_F was not measured: the published one is taken.')
    if (r === undefined) notes.push('Its leakage was not measured: the published one is taken.')
    return {
      ...published,
      name: part,
      notes,
      ...(v === undefined ? {} : { forwardV: around(v.quantity), atA: v.conditions.I_F ?? published.atA }),
      ...(r === undefined
        ? {}
        : { leakageA: around(r.quantity), leakageAtV: r.conditions.V_R ?? published.leakageAtV }),
    }
  }
  const gain = of('h_FE0', 'h_FE0(I_CBO)', 'h_FE')
  const h = gain === undefined ? published.gain : around(gain.quantity)
  const leak = leakage(of, h.usual)
  const v = of('V_BE')
  if (gain === undefined) notes.push('Its gain was not measured: the published one is taken.')
  else if (gain.symbol === 'h_FE') notes.push('Its gain has leakage in it, which was not taken out.')
  if (leak === undefined) notes.push('Its leakage was not measured: the published one is taken.')
  if (v === undefined) notes.push('Its V_BE was not measured: that of its type is taken.')
  const at = gain?.conditions
  const atA = at?.I_C ?? published.atA
  return {
    ...published,
    name: part,
    notes,
    gain: h,
    atA,
    atV: at?.V_CE ?? published.atV,
    ...leak,
    vbeV:
      v === undefined
        ? atCurrent(published.vbeV, published.atA, atA)
        : atCurrent(around(v.quantity), v.conditions.I_C ?? atA, atA),
  }
}

type Find = (...symbols: readonly string[]) => Parameter | undefined

/** Ends that hold 95 % of what the measurement leaves open; never below a twentieth of the value. */
function around(q: Quantity): Between {
  const half = 2 * standardUncertainty(q)
  return { low: Math.max(q.value / 20, q.value - half), usual: q.value, high: q.value + half }
}

/** Voltages further apart than this ratio say how leakage goes with voltage. */
const apart = 1.5

/** I_CBO of the junction and the surface: from both leakages where their voltages are apart, else from the one there is. */
function leakage(of: Find, gain: number) {
  const direct = of('I_CBO', 'I_CES')
  const open = of('I_CEO')
  if (direct === undefined && open === undefined) return undefined
  const [from, by] = direct === undefined ? [open!, 1 / (gain + 1)] : [direct, 1]
  const { low, usual, high } = around(from.quantity)
  const leakageAtV = from.conditions.V_CB ?? from.conditions.V_CE ?? 5
  const leakageA = { low: low * by, usual: usual * by, high: high * by }
  if (direct === undefined || open === undefined) return { leakageA, leakageAtV }
  const otherV = open.conditions.V_CE ?? leakageAtV
  const otherA = open.quantity.value / (gain + 1)
  if (Math.abs(Math.log(leakageAtV / otherV)) < Math.log(apart)) return { leakageA, leakageAtV }
  const perVolt = (usual - otherA) / (leakageAtV - otherV)
  return { leakageA, leakageAtV, surface: Math.min(1, Math.max(0, (perVolt * leakageAtV) / usual)) }
}
