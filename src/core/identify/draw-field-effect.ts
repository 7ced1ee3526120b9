import { type BarePart, device, resistor, together, wires } from './bare-part.ts'
import type { Draw } from './draw.ts'
import { junctionDiode } from './draw-diode.ts'

/** Junction field-effect transistor: I_DSS 1 to 20 mA, V_GS(off) 0.8 to 6 V. Spreads from memory, common practice. */
export function junctionFet(d: Draw): BarePart {
  const vto = -d.about(2.3, 1.7)
  const beta = d.about(5e-3, 2) / vto ** 2
  const card = {
    vto,
    beta,
    lambda: d.about(0.008, 1.5),
    is: d.about(4e-14, 2.5),
    rd: d.about(25, 1.5),
    rs: d.about(25, 1.5),
  }
  return device('J', ['D', 'G', 'S'], { kind: 'jfet', polarity: 'n', card })
}

/** The gate of an insulated part lets nothing through. */
const gate = resistor('RG', 'G', 'S', 1e13)

/** Vertical enhancement part, its gate discharged: the body diode is all that conducts. */
export const enhancementFet = (d: Draw): BarePart => {
  const card = {
    vto: d.about(2, 1.5),
    kp: d.about(0.3, 3),
    lambda: 0.01,
    is: d.about(5e-13, 3),
    rd: d.about(0.4, 3),
    rs: d.about(0.2, 3),
  }
  return together(device('M', ['D', 'G', 'S'], { kind: 'mosfet', polarity: 'n', card }), wires(gate))
}

/** Depletion part with its body at the source. */
export const depletionFet = (d: Draw): BarePart => {
  const vto = -d.about(2, 1.6)
  const card = {
    vto,
    kp: (2 * d.about(8e-3, 1.8)) / vto ** 2,
    lambda: 0.01,
    is: d.about(1e-13, 3),
    rd: d.about(20, 1.6),
    rs: d.about(20, 1.6),
  }
  return together(device('M', ['D', 'G', 'S'], { kind: 'mosfet', polarity: 'n', card }), wires(gate))
}

/**
 * Unijunction transistor: 4.7 to 9.1 kohm from base to base; 1.2 to 2.5 V from emitter to B1, a little less to B2, or open
 * (common practice). The second ways from the emitter stand for the carriers let into the bar.
 */
export function unijunction(d: Draw): BarePart {
  const bar = d.about(6800, 1.2)
  const standoff = d.between(0.5, 0.8)
  const junction = { forwardV: d.between(0.6, 0.72), n: d.between(1.3, 1.8) }
  const toB1 = d.between(1.2, 3.4)
  return together(
    junctionDiode('DE', 'E', 'x', { ...junction, rs: 30 }),
    junctionDiode('D1', 'E', 'B1', { forwardV: toB1, n: 6, rs: 200 }),
    junctionDiode('D2', 'E', 'B2', { forwardV: toB1 * d.between(0.78, 1), n: 6, rs: 200 }),
    wires(resistor('RB1', 'x', 'B1', bar * standoff), resistor('RB2', 'x', 'B2', bar * (1 - standoff))),
  )
}

/** Triac: gate and MT1 joined through 10 to 150 ohm and junctions both ways. */
export const triac = (d: Draw): BarePart =>
  together(
    junctionDiode('D1', 'G', 'MT1', { forwardV: d.between(0.6, 0.75), n: 1.5, rs: 5 }),
    junctionDiode('D2', 'MT1', 'G', { forwardV: d.between(0.6, 0.75), n: 1.5, rs: 5 }),
    wires(resistor('RG', 'G', 'MT1', d.about(60, 2.2)), resistor('RM', 'MT1', 'MT2', d.about(1e10, 3))),
  )
