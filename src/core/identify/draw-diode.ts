import { thermalVoltage } from '#core/physics'
import { type BarePart, device, resistor, together, wires } from './bare-part.ts'
import type { Draw } from './draw.ts'

interface JunctionShape {
  /** Forward voltage at 1 mA and 25 degC, V; emission; series resistance, ohm. */
  readonly forwardV: number
  readonly n: number
  readonly rs: number
  readonly eg?: number
  /** Breakdown, V, and leakage beside the junction, ohm. */
  readonly bv?: number
  readonly leakOhm?: number
}

/** Current at which the forward voltage of a drawn junction holds, A. */
const statedAt = 1e-3

/** A junction by what it drops forward. */
export function junctionDiode(ref: string, anode: string, cathode: string, j: JunctionShape): BarePart {
  const is = statedAt / Math.expm1((j.forwardV - statedAt * j.rs) / (j.n * thermalVoltage(298.15)))
  const breakdown = j.bv === undefined ? {} : { bv: j.bv, ibv: 1e-3, nbv: j.bv < 5 ? 3 : 1 }
  const card = { is, n: j.n, rs: j.rs, eg: j.eg ?? 1.11, xti: 3, tnom: 25, ...breakdown }
  return device(ref, [anode, cathode], {
    kind: 'diode',
    card,
    ...(j.leakOhm === undefined ? {} : { parallelOhm: j.leakOhm }),
  })
}

type Make = (d: Draw) => JunctionShape

/** Shapes of junctions, common practice, from memory. */
const silicon: Make = (d) => ({
  forwardV: d.about(0.6, 1.09),
  n: d.between(1.2, 2),
  rs: d.about(0.6, 2),
  leakOhm: d.about(1e11, 5),
})
const germanium: Make = (d) => ({
  forwardV: d.about(0.29, 1.18),
  n: d.between(1.05, 1.5),
  rs: d.about(25, 2),
  eg: 0.67,
  leakOhm: d.about(8e5, 2.5),
})
const schottky: Make = (d) => ({
  forwardV: d.about(0.25, 1.25),
  n: d.between(1.02, 1.15),
  rs: d.about(2, 3),
  eg: 0.7,
  leakOhm: d.about(5e6, 6),
})
const zener: Make = (d) => ({
  forwardV: d.about(0.7, 1.05),
  n: d.between(1.1, 1.6),
  rs: d.about(3, 2),
  bv: d.about(6, 2),
  leakOhm: d.about(1e9, 6),
})
const light: Make = (d) => ({
  forwardV: d.between(1.5, 2.1),
  n: d.between(1.7, 2.3),
  rs: d.about(5, 2),
  leakOhm: d.about(1e11, 5),
})
const selenium: Make = (d) => {
  const plates = 1 + Math.floor(d.between(0, 8))
  return { forwardV: plates * d.between(0.6, 1), n: plates * 3, rs: 10 * plates, leakOhm: d.about(1e5, 3) }
}
const diodeOf =
  (make: Make) =>
  (d: Draw): BarePart =>
    junctionDiode('D', 'A', 'K', make(d))

export const siliconDiode = diodeOf(silicon)
export const germaniumDiode = diodeOf(germanium)
export const schottkyDiode = diodeOf(schottky)
export const zenerDiode = diodeOf(zener)
export const lightDiode = diodeOf(light)
export const seleniumStack = diodeOf(selenium)

/** Two alike on one die: they share their shape and differ by a millivolt or two. */
const twins = (make: Make, first: readonly [string, string], second: readonly [string, string]) => (d: Draw) => {
  const shape = make(d)
  const other = { ...shape, forwardV: shape.forwardV + d.between(-0.002, 0.002) }
  return together(junctionDiode('D1', ...first, shape), junctionDiode('D2', ...second, other))
}

export const dualDiode = twins(silicon, ['A1', 'K'], ['A2', 'K'])
export const dualSchottky = twins(schottky, ['A1', 'K'], ['A2', 'K'])
export const diodesInSeries = twins(silicon, ['A', 'M'], ['M', 'K'])

/** A resistor between two leads, or with a tap. */
export const plainResistor = (d: Draw): BarePart => wires(resistor('R', '1', '2', d.about(3e3, 12)))
export const tappedResistor = (d: Draw): BarePart => {
  const whole = d.about(1e4, 5)
  const tap = d.between(0.02, 0.98)
  return wires(resistor('R1', 'end', 'tap', whole * tap), resistor('R2', 'tap', 'other', whole * (1 - tap)))
}
