import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  bipolarAt,
  bipolarLaw,
  bipolarOut,
  diodeAt,
  diodeLaw,
  diodeOut,
  jfetAt,
  jfetLaw,
  jfetOut,
  mosfetAt,
  mosfetLaw,
  mosfetOut,
} from './index.ts'

const some = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const decades = (low: number, high: number) => some(low, high).map((x) => 10 ** x)
const temperature = some(250, 360)

/** Change of a function with its argument by four points; its own error is below 1e-9 of the size. */
function slopeOf(f: (x: number) => number, x: number): number {
  const h = 1e-5
  return (8 * (f(x + h) - f(x - h)) - (f(x + 2 * h) - f(x - 2 * h))) / (12 * h)
}

/** Stated slopes against differences, by the size of the current in a step of V_T. */
function expectSlope(stated: number, byDifference: number, size: number, what: string): void {
  const scale = Math.abs(stated) + Math.abs(size) / 0.02 + 1e-12
  expect(Math.abs(stated - byDifference) / scale, `${what}: ${stated} is not ${byDifference}`).toBeLessThan(2e-7)
}

test('a diode: knee, recombination and breakdown', () => {
  const card = fc.record({
    is: decades(-15, -8),
    n: some(1, 2.2),
    ikf: fc.oneof(fc.constant(0), decades(-5, -1)),
    isr: decades(-12, -7),
    nr: some(1, 3),
    vj: some(0.4, 1),
    m: some(0.2, 0.6),
    bv: some(4, 8),
  })
  const out = diodeOut()
  fc.assert(
    fc.property(card, temperature, some(-9, 1.2), (c, t, v) => {
      const m = diodeAt(c, t)
      const joins = [-3 * m.step, -m.breakdown, 0, m.vj].some((x) => Math.abs(v - x) < 1e-3)
      fc.pre(!joins)
      const current = (x: number): number => {
        diodeLaw(m, x, out)
        return out.currentA
      }
      const byDifference = slopeOf(current, v)
      const size = current(v)
      fc.pre(Math.abs(size) < 1e6)
      expectSlope(out.slopeS, byDifference, size, 'dI/dV')
    }),
    { numRuns: 500 },
  )
})

test('a bipolar transistor: both knees, both Early voltages, both leaks and the base resistance', () => {
  const card = fc.record({
    is: decades(-15, -8),
    bf: some(20, 500),
    br: some(1, 20),
    nf: some(0.95, 1.2),
    nr: some(0.95, 1.2),
    vaf: some(15, 200),
    var: some(5, 50),
    ikf: decades(-4, 0),
    ikr: decades(-4, 0),
    ise: decades(-15, -7),
    ne: some(1.2, 2.2),
    isc: decades(-15, -7),
    nc: some(1.2, 2.2),
    rb: some(50, 500),
    rbm: some(1, 40),
    irb: fc.oneof(fc.constant(0), decades(-6, -3)),
  })
  const out = bipolarOut()
  fc.assert(
    fc.property(card, temperature, some(-1, 0.8), some(-12, 0.7), (c, t, vbe, vbc) => {
      const m = bipolarAt(c, t)
      const steps = [m.forwardStep, m.emitterStep]
      const backSteps = [m.reverseStep, m.collectorStep]
      fc.pre(steps.every((s) => Math.abs(vbe + 3 * s) > 1e-3) && backSteps.every((s) => Math.abs(vbc + 3 * s) > 1e-3))
      const read = (be: number, bc: number, of: 'ic' | 'ib' | 'rbOhm'): number => {
        bipolarLaw(m, be, bc, out)
        return out[of]
      }
      bipolarLaw(m, vbe, vbc, out)
      const at = { ...out }
      fc.pre(Math.abs(at.ic) + Math.abs(at.ib) < 1e3)
      const pairs = [
        ['ic', at.icByVbe, at.icByVbc],
        ['ib', at.ibByVbe, at.ibByVbc],
        ['rbOhm', at.rbByVbe, at.rbByVbc],
      ] as const
      // I_RB's law has a root of the base current, with a floor: near no base current it bends without bound
      const isFloor = m.irb > 0 && at.ib < Math.max(1e-3 * m.irb, 0.01 * (at.ibByVbe + at.ibByVbc) * m.forwardStep)
      const size = { ic: Math.abs(at.ic) + Math.abs(at.ib), ib: Math.abs(at.ib), rbOhm: at.rbOhm }
      for (const [of, byVbe, byVbc] of pairs) {
        if (of === 'rbOhm' && isFloor) continue
        expectSlope(
          byVbe,
          slopeOf((x) => read(x, vbc, of), vbe),
          size[of],
          `d${of}/dV_BE`,
        )
        expectSlope(
          byVbc,
          slopeOf((x) => read(vbe, x, of), vbc),
          size[of],
          `d${of}/dV_BC`,
        )
      }
    }),
    { numRuns: 500 },
  )
})

test('a JFET, channel and gate, both ways round', () => {
  const card = fc.record({ vto: some(-5, -0.5), beta: decades(-4, -2), lambda: some(0, 0.05), is: decades(-15, -12) })
  const out = jfetOut()
  fc.assert(
    fc.property(card, temperature, some(-6, 0.7), some(-12, 0.7), (c, t, vgs, vgd) => {
      const m = jfetAt(c, t)
      const kinks = [vgs - vgd, vgs - m.vto, vgd - m.vto, vgs + 3 * m.step, vgd + 3 * m.step]
      fc.pre(kinks.every((x) => Math.abs(x) > 1e-3))
      const read = (s: number, d: number, of: 'id' | 'ig'): number => {
        jfetLaw(m, s, d, out)
        return out[of]
      }
      jfetLaw(m, vgs, vgd, out)
      const at = { ...out }
      const size = Math.abs(at.id) + Math.abs(at.ig)
      expectSlope(
        at.idByVgs,
        slopeOf((x) => read(x, vgd, 'id'), vgs),
        size,
        'dI_D/dV_GS',
      )
      expectSlope(
        at.idByVgd,
        slopeOf((x) => read(vgs, x, 'id'), vgd),
        size,
        'dI_D/dV_GD',
      )
      expectSlope(
        at.igByVgs,
        slopeOf((x) => read(x, vgd, 'ig'), vgs),
        size,
        'dI_G/dV_GS',
      )
      expectSlope(
        at.igByVgd,
        slopeOf((x) => read(vgs, x, 'ig'), vgd),
        size,
        'dI_G/dV_GD',
      )
    }),
    { numRuns: 500 },
  )
})

test('a MOS transistor with its body, both ways round', () => {
  const card = fc.record({
    vto: some(-2, 3),
    kp: decades(-5, -1),
    gamma: some(0, 1),
    phi: some(0.5, 0.9),
    lambda: some(0, 0.05),
    is: decades(-15, -12),
  })
  const out = mosfetOut()
  fc.assert(
    fc.property(
      card,
      fc.constantFrom('n' as const, 'p' as const),
      some(-2, 8),
      some(-3, 10),
      some(0, 6),
      (c, polarity, vgs, vds, below) => {
        const m = mosfetAt(c, polarity, 300)
        const vbs = Math.min(0.5, vds + 0.5) - below
        const vbd = vbs - vds
        const body = Math.sqrt(Math.max(0, m.phi - Math.max(vbs, vbd)))
        const over = (vds >= 0 ? vgs : vgs - vds) - m.threshold - m.gamma * body
        const kinks = [vds, vbs, vbd, vbs + 3 * m.step, vbd + 3 * m.step]
        // with a forward body the root is a line, so that `over` is only near: keep well away
        const isNearOn = Math.abs(over) < 0.05 || Math.abs(over - Math.abs(vds)) < 0.05
        fc.pre(!isNearOn && kinks.every((x) => Math.abs(x) > 1e-3))
        const read = (s: number, d: number, b: number, of: 'id' | 'ibody'): number => {
          mosfetLaw(m, s, d, b, out)
          return out[of]
        }
        mosfetLaw(m, vgs, vds, vbs, out)
        const at = { ...out }
        const size = Math.abs(at.id) + Math.abs(at.ibody)
        expectSlope(
          at.idByVgs,
          slopeOf((x) => read(x, vds, vbs, 'id'), vgs),
          size,
          'dI_D/dV_GS',
        )
        expectSlope(
          at.idByVds,
          slopeOf((x) => read(vgs, x, vbs, 'id'), vds),
          size,
          'dI_D/dV_DS',
        )
        expectSlope(
          at.idByVbs,
          slopeOf((x) => read(vgs, vds, x, 'id'), vbs),
          size,
          'dI_D/dV_BS',
        )
        expectSlope(
          at.ibodyByVds,
          slopeOf((x) => read(vgs, x, vbs, 'ibody'), vds),
          size,
          'dI_B/dV_DS',
        )
        expectSlope(
          at.ibodyByVbs,
          slopeOf((x) => read(vgs, vds, x, 'ibody'), vbs),
          size,
          'dI_B/dV_BS',
        )
      },
    ),
    { numRuns: 500 },
  )
})
