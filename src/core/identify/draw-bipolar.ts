import type { BipolarCard } from '#core/physics'
import { type BarePart, device, resistor, together, wires } from './bare-part.ts'
import type { Draw } from './draw.ts'
import { junctionDiode } from './draw-diode.ts'

const npn = (ref: string, nodes: readonly string[], card: BipolarCard): BarePart =>
  device(ref, nodes, { kind: 'bipolar', polarity: 'npn', card })

/**
 * Silicon, from small-signal planar to power. The larger the die, the larger its saturation current and the smaller its
 * base resistance. Spreads from memory, common practice: V_BE 0.5 to 0.85 V at 1 mA, reverse currents of 0.01 to 10 nA.
 */
function siliconCard(d: Draw): BipolarCard {
  const is = d.about(6e-14, 8)
  return {
    is,
    nf: d.between(1, 1.015),
    bf: d.about(150, 2),
    vaf: d.about(85, 1.5),
    ikf: d.about(0.1, 3),
    ise: is * d.about(3, 3),
    ne: d.between(1.5, 1.9),
    br: d.about(5, 1.6),
    var: d.about(14, 1.3),
    ikr: d.about(0.06, 3),
    isc: is * d.about(30, 4),
    nc: d.between(1.5, 1.9),
    rb: Math.min(400, d.about(40, 2) * (is / 6e-14) ** -0.35),
    re: d.about(0.3, 2),
    rc: d.about(1, 2),
    xtb: 1.5,
    eg: 1.11,
  }
}

/** The emitter junction as it breaks down: it lets nothing through forward beside the transistor's own. */
const emitterBreakdown = (bv: number): BarePart =>
  device('DEB', ['B', 'E'], {
    kind: 'diode',
    card: { is: 1e-18, n: 1, rs: 50, eg: 1.11, xti: 3, tnom: 25, bv, ibv: 1e-4, nbv: 2 },
  })

/**
 * Silicon transistor; the leakage of its larger junction stands for dirt and traps. The emitter junction of planar types
 * breaks down at 5.5 to 10 V, that of alloyed ones far above (common practice, from memory).
 */
export const siliconTransistor = (d: Draw): BarePart => {
  const leak = d.about(2.5e10, 4)
  const surface = d.about(1e12, 6)
  const breakdown = d.chance(0.93) ? d.about(7.3, 1.13) : d.about(20, 1.3)
  return together(
    npn('Q', ['C', 'B', 'E'], siliconCard(d)),
    emitterBreakdown(breakdown),
    wires(resistor('RCB', 'C', 'B', leak), resistor('REB', 'E', 'B', surface)),
  )
}

/**
 * Germanium, from small alloy and mesa parts to leaky power types. Spreads from memory, common practice: V_BE 0.1 to
 * 0.4 V at 1 mA, I_CBO of 1 to 100 uA.
 */
function germanium(d: Draw, breakdownV: number): BarePart {
  const is = d.about(3e-6, 4)
  const card: BipolarCard = {
    is,
    nf: d.between(1, 1.03),
    bf: d.about(65, 1.6),
    vaf: d.about(45, 1.4),
    ikf: d.about(0.06, 2) * Math.max(1, is / 3e-6),
    ise: Math.min(is * d.about(0.05, 1.8), 9e-5),
    ne: d.between(1.5, 1.8),
    br: d.about(11, 1.5),
    var: d.about(16, 1.3),
    ikr: d.about(0.02, 2) * Math.max(1, is / 3e-6),
    isc: Math.min(is * d.about(1.4, 1.3), 9e-5),
    nc: d.between(1.3, 1.45),
    rb: Math.min(300, d.about(90, 1.7) * (is / 3e-6) ** -0.5),
    re: d.about(0.5, 2),
    rc: d.about(2, 2),
    xtb: 0.6,
    eg: 0.67,
  }
  const leak = (12 / is) * d.about(1, 2)
  return together(npn('Q', ['C', 'B', 'E'], card), emitterBreakdown(breakdownV), wires(resistor('RCB', 'C', 'B', leak)))
}

/** The emitter junction of alloy types stands 10 V and more. */
export const germaniumTransistor = (d: Draw): BarePart => germanium(d, Math.max(5, d.about(25, 1.5)))

/** That of types diffused for high frequencies stands a volt or two (common practice: V_EBO of 0.3 to 0.5 V). */
export const thinGermanium = (d: Draw): BarePart => germanium(d, Math.max(1.2, d.about(1.8, 1.4)))

/** The diode across a transistor is a corner of its die: smaller than the collector junction, it drops more. */
const damper = (d: Draw): BarePart =>
  junctionDiode('DD', 'E', 'C', { forwardV: d.between(0.47, 0.6), n: d.between(1.1, 1.3), rs: 0.1 })

/** Two transistors in one; most have resistors at both bases, and many a diode from emitter to collector. */
export function darlington(d: Draw): BarePart {
  const first: BipolarCard = { ...siliconCard(d), is: d.about(4e-14, 3), rb: d.about(40, 1.8) }
  const second: BipolarCard = { ...siliconCard(d), is: d.about(1e-12, 3), rb: d.about(5, 1.8) }
  const hasResistors = d.chance(0.75)
  const hasDamper = d.chance(0.6)
  return together(
    npn('QA', ['C', 'B', 'x'], first),
    npn('QB', ['C', 'x', 'E'], second),
    wires(
      resistor('RA', 'B', 'x', hasResistors ? d.about(7000, 1.5) : d.about(1e11, 3)),
      resistor('RB', 'x', 'E', hasResistors ? d.about(140, 1.8) : d.about(1e11, 3)),
      resistor('RCB', 'C', 'B', d.about(2.5e10, 4)),
    ),
    hasDamper ? damper(d) : wires(),
  )
}

/** Line output transistor: a diode across it, and a resistor of 20 to 60 ohm at its base. */
export const dampedTransistor = (d: Draw): BarePart => {
  const card: BipolarCard = {
    ...siliconCard(d),
    is: d.about(6e-12, 3),
    rb: d.about(3, 1.6),
    isc: d.about(3e-10, 3),
    nc: 1.9,
  }
  return together(
    npn('Q', ['C', 'B', 'E'], card),
    damper(d),
    wires(resistor('RBE', 'B', 'E', d.about(40, 1.35)), resistor('RCB', 'C', 'B', d.about(1e9, 3))),
  )
}

/** Digital transistor: R1 in series with the base, mostly R2 from base to emitter. */
export function digitalTransistor(d: Draw): BarePart {
  const r1 = [1000, 2200, 4700, 10e3, 22e3, 47e3][Math.floor(d.between(0, 6))]!
  const r2 = d.chance(0.8) ? [4700, 10e3, 22e3, 47e3][Math.floor(d.between(0, 4))]! : 1e11
  const off = (ohm: number): number => ohm * d.between(0.75, 1.25)
  return together(
    npn('Q', ['C', 'b', 'E'], siliconCard(d)),
    wires(
      resistor('R1', 'B', 'b', off(r1)),
      resistor('R2', 'b', 'E', off(r2)),
      resistor('RCB', 'C', 'b', d.about(2.5e10, 4)),
    ),
  )
}

/**
 * Four layers as two transistors: some 0.65 V from gate to cathode, 0.7 to 0.9 V across it once it is on (common
 * practice). A thyristor may be found conducting, set off by the test leads.
 */
export function thyristor(d: Draw): BarePart {
  const upper: BipolarCard = {
    is: d.about(1e-14, 3),
    bf: d.about(0.6, 1.4),
    vaf: 60,
    ise: d.about(3e-12, 3),
    ne: 2,
    br: 0.1,
    rb: 20,
    re: 0.1,
    rc: 1,
    eg: 1.11,
  }
  const lower: BipolarCard = {
    is: d.about(2.5e-14, 5),
    bf: d.about(12, 1.6),
    vaf: 60,
    ise: d.about(8e-11, 3),
    ne: 2,
    br: 0.3,
    rb: d.about(30, 1.6),
    re: 0.1,
    rc: 1,
    eg: 1.11,
  }
  const isPower = d.chance(0.4)
  const made = together(
    device('QP', ['G', 'm', 'A'], { kind: 'bipolar', polarity: 'pnp', card: upper }),
    npn('QN', ['m', 'G', 'K'], lower),
    wires(resistor('RGK', 'G', 'K', isPower ? d.about(35, 1.8) : 1e12), resistor('RAG', 'A', 'G', d.about(1e11, 4))),
  )
  return { ...made, isFired: !isPower && d.chance(0.3) }
}
