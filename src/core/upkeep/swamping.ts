import type { Movement } from '#core/tester'

/**
 * A movement with a swamping resistor always in series: more resistance, of which the copper is a smaller part, so that
 * shunted ranges drift less with temperature. It costs voltage.
 *
 * @param ohm of the resistor, whose own drift is not counted (manganin, metal film)
 * @see Ohm's law; the coil alone changes with temperature
 */
export function swamped(m: Movement, ohm: number): Movement {
  const coilOhm = m.coilOhm + ohm
  return { ...m, coilOhm, copperPerK: (m.copperPerK * m.coilOhm) / coilOhm }
}

/**
 * Swamping resistor that leaves coil and resistor together a wanted change per kelvin, ohm; 0 where the coil alone does
 * not change more than that.
 *
 * @param perK above 0
 * @example swampingFor({ ...m, coilOhm: 1000, copperPerK: 0.004 }, 0.001) // 3000
 */
export const swampingFor = (m: Movement, perK: number): number => Math.max(0, m.coilOhm * (m.copperPerK / perK - 1))
