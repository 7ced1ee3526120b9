import { describe, expect, test } from 'vitest'
import { deviceSettingDefaults, leakageLoopGain, selfHeating } from '#core/physics'
import { expectPrinted, expectRelative } from '#core/testing'
import * as book from './bias.ref.ts'
import {
  type Circuit,
  type Component,
  compileCircuit,
  operatingPoint,
  readOutput,
  sensitivity,
  setCard,
  setValue,
  solve,
} from './index.ts'

const temperatureC = 25
const thermalV = deviceSettingDefaults.voltsPerKelvin * (temperatureC + 273.15)
/** No leak across junctions: the textbook transistor has none. */
const setting = { ...deviceSettingDefaults, gminS: 0 }

const r = (ref: string, a: string, b: string, value: number): Component => ({ kind: 'R', ref, nodes: [a, b], value })
const supply = (ref: string, node: string, value: number): Component => ({ kind: 'V', ref, nodes: [node, '0'], value })

/** A stage with an ideal transistor whose V_BE is as asked at the collector current that is expected. */
function stage(parts: readonly Component[], beta: number, vbe: number, icA: number, emitter: string) {
  const card = { is: icA / Math.expm1(vbe / thermalV), bf: beta, br: 1e12, tnom: temperatureC }
  const q: Component = { kind: 'Q', ref: 'Q1', nodes: ['c', 'b', emitter], device: 'ideal' }
  const circuit: Circuit = {
    title: 'textbook stage',
    components: [...parts, q],
    devices: { ideal: { kind: 'bipolar', polarity: 'npn', card } },
  }
  const point = operatingPoint(circuit, { temperatureC, setting })
  const got = point.devices.Q1
  if (got?.kind !== 'bipolar') throw new Error('the stage did not settle')
  return { IB: got.ib, IC: got.ic, VCE: got.vce, point }
}

function expectBook(got: { IB: number; IC: number }, of: { computed: object; printed: object }): void {
  const { IB, IC } = of.computed as { IB: number; IC: number }
  expectRelative(got.IB, IB, 1e-9, 'I_B')
  expectRelative(got.IC, IC, 1e-9, 'I_C')
  const printed = Object.entries(of.printed) as [keyof typeof got, string][]
  expect(printed.length).toBeGreaterThan(1)
  for (const [symbol, text] of printed) expectPrinted(got[symbol], text)
}

describe('textbook stages', () => {
  test('fixed bias', () => {
    const { VCC, RB, RC, beta, VBE } = book.fixedBias.given
    const parts = [supply('VCC', 'p', VCC), r('RB', 'p', 'b', RB), r('RC', 'p', 'c', RC)]
    const got = stage(parts, beta, VBE, book.fixedBias.computed.IC, '0')
    expectBook(got, book.fixedBias)
    expectRelative(got.VCE, book.fixedBias.computed.VCE, 1e-9, 'V_CE')
  })

  test('emitter resistor', () => {
    const { VCC, RB, RC, RE, beta, VBE } = book.emitterBias.given
    const parts = [supply('VCC', 'p', VCC), r('RB', 'p', 'b', RB), r('RC', 'p', 'c', RC), r('RE', 'e', '0', RE)]
    const got = stage(parts, beta, VBE, book.emitterBias.computed.IC, 'e')
    expectBook(got, book.emitterBias)
    expectRelative(got.VCE + got.IB * RE, book.emitterBias.computed.VCE, 1e-9, 'V_CE without I_B in R_E')
  })

  test('voltage divider', () => {
    const { VCC, R1, R2, RC, RE, beta, VBE } = book.dividerBias.given
    const divider = [r('R1', 'p', 'b', R1), r('R2', 'b', '0', R2)]
    const parts = [supply('VCC', 'p', VCC), ...divider, r('RC', 'p', 'c', RC), r('RE', 'e', '0', RE)]
    const got = stage(parts, beta, VBE, book.dividerBias.computed.IC, 'e')
    expectBook(got, book.dividerBias)
    expectRelative(got.VCE + got.IB * RE, book.dividerBias.computed.VCE, 1e-9, 'V_CE without I_B in R_E')
  })

  test('collector feedback: exact here, the book is off by what it neglects', () => {
    const { VCC, RF, RC, RE, beta, VBE } = book.feedbackBias.given
    const exactIB = (VCC - VBE) / (RF + (beta + 1) * (RC + RE))
    const parts = [supply('VCC', 'p', VCC), r('RC', 'p', 'c', RC), r('RF', 'c', 'b', RF), r('RE', 'e', '0', RE)]
    const got = stage(parts, beta, VBE, beta * exactIB, 'e')
    expectRelative(got.IB, exactIB, 1e-9, 'I_B')
    expectRelative(got.IB / book.feedbackBias.computed.IB, (RF + beta * (RC + RE)) / (RF + 91 * (RC + RE)), 1e-9)
    expectRelative(got.IC, book.feedbackBias.computed.IC, 1 / beta, 'I_C')
  })

  test('a stage designed for 2 mA and +5 V comes out so', () => {
    const { beta, VBE, atA, thermalV: vt, supplyV } = book.designed.given
    const { computed, printed } = book.designed
    const card = { is: atA / Math.expm1(VBE / vt), bf: beta, br: 1e12 }
    const circuit: Circuit = {
      title: 'designed stage',
      components: [
        supply('VP', 'p', supplyV),
        supply('VN', 'n', -supplyV),
        r('RC', 'p', 'c', computed.RC),
        r('RE', 'e', 'n', computed.RE),
        { kind: 'Q', ref: 'Q1', nodes: ['c', '0', 'e'], device: 'ideal' },
      ],
      devices: { ideal: { kind: 'bipolar', polarity: 'npn', card } },
    }
    const atVt = { gminS: 0, voltsPerKelvin: vt / (27 + 273.15) }
    const point = operatingPoint(circuit, { temperatureC: 27, setting: atVt })
    const q = point.devices.Q1!
    if (q.kind !== 'bipolar') throw new Error('Q1 is no transistor')
    // the book takes R_E from V_BE rounded to 0.717 V, which is 2.3e-5 of 14.28 V
    expectRelative(q.ic, computed.IC, 3e-5, 'I_C')
    expectRelative(q.vbe, computed.VBE, 1e-6, 'V_BE')
    expectRelative(point.nodeVoltages.c!, computed.VC, 1e-4, 'V_C')
    expectPrinted(q.vbe, printed.VBE!)
    expectPrinted(q.ic + q.ib, printed.IE!)
    expectPrinted(computed.RE, printed.RE!)
  })
})

/** Emission that makes a junction a battery of 0.07 mV, with next to no resistance: V_BE is then a source of its own. */
const sharp = 1e-4

/** Thevenin base drive, an emitter resistor, leakage and V_BE as sources; the collector's whole current is VCC's. */
function drift(beta: number, rb: number, re: number, vbbV: number) {
  const circuit: Circuit = {
    title: 'stability factors',
    components: [
      supply('VCC', 'c', 20),
      supply('VBB', 'd', vbbV),
      r('RB', 'd', 'x', rb),
      { kind: 'V', ref: 'VBE', nodes: ['x', 'b'], value: 0.65 },
      { kind: 'I', ref: 'ICO', nodes: ['c', 'x'], value: 0 },
      ...(re > 0 ? [r('RE', 'e', '0', re)] : []),
      { kind: 'Q', ref: 'Q1', nodes: ['c', 'b', re > 0 ? 'e' : '0'], device: 'sharp' },
    ],
    devices: {
      sharp: { kind: 'bipolar', polarity: 'npn', card: { is: 1e-14, bf: beta, nf: sharp, nr: sharp, br: 1e12 } },
    },
  }
  const c = compileCircuit(circuit, { temperatureC, setting })
  expect(solve(c).converged).toBe(true)
  return c
}

/** Base drive that gives a collector current. */
const drive = (icA: number, beta: number, rb: number, re: number): number =>
  0.65 + (icA / beta) * (rb + (beta + 1) * re)

describe('stability factors of the textbooks, by the adjoint', () => {
  test.each(book.leakageStability)('S(I_CO) at R_B / R_E = $ratio', (s) => {
    const re = 1000
    const c = drift(50, s.ratio * re, re, drive(2e-3, 50, s.ratio * re, re))
    const got = sensitivity(c, readOutput(c, 'source:VCC')).slopes.ICO!
    expectRelative(got, s.stability, 1e-5, 'S(I_CO)')
    expectPrinted(got, s.printed)
    expectRelative(got * 19.9e-9, s.changeA, 1e-5, 'change')
    expectPrinted(got * 19.9e-9, s.change)
  })

  test.each(book.voltageStability)('S(V_BE) at R_B = $RB, R_E = $RE', (s) => {
    const c = drift(100, s.RB, s.RE, drive(2e-3, 100, s.RB, s.RE))
    const got = sensitivity(c, readOutput(c, 'source:VCC')).slopes.VBE!
    expectRelative(got, s.slope, 1e-5, 'S(V_BE)')
    expectRelative(got * (0.48 - 0.65), s.changeA, 1e-5, 'change')
    const before = sensitivity(c, readOutput(c, 'source:VCC')).value
    setValue(c, 'VBE', 0.48)
    expect(solve(c).converged).toBe(true)
    expectRelative(sensitivity(c, readOutput(c, 'source:VCC')).value - before, s.changeA, 1e-4, 'solved twice')
  })

  test('S(beta): the gain of another temperature put in', () => {
    const { from, to, ratio, currentA, perGainA, hotA, printed } = book.gainStability
    const re = 1000
    const c = drift(from, ratio * re, re, drive(currentA, from, ratio * re, re))
    setCard(c, 'Q1', { bf: to })
    expect(solve(c).converged).toBe(true)
    const hot = sensitivity(c, readOutput(c, 'source:VCC')).value
    expectRelative(hot, hotA, 5e-5, 'I_C')
    expectRelative((hot - currentA) / (to - from), perGainA, 5e-4, 'S(beta)')
    expectPrinted(hot, printed.hot)
    expectPrinted(hot - currentA, printed.change)
    expectPrinted((hot - currentA) / (to - from), printed.perGain)
  })
})

describe('thermal runaway', () => {
  const { supplyV, collectorA, stability, leakageA, perKelvin, powerPerKelvin, mostKPerW } = book.runawayExample

  test('the rule for leakages gives the largest resistance', () => {
    const h = { supplyV, leakageA: stability * leakageA, seriesOhm: 0, doublingK: Math.LN2 / perKelvin }
    expectRelative(leakageLoopGain({ ...h, rthKPerW: mostKPerW }), 1, 1e-12, 'loop gain')
  })

  test('the slope of power is that of the example', () => {
    const rthKPerW = 1
    const ambientC = 25 - rthKPerW * supplyV * (collectorA + stability * leakageA)
    const powerAt = (t: number): number =>
      supplyV * (collectorA + stability * leakageA * Math.exp(perKelvin * (t - 25)))
    const h = selfHeating({ ambientC, rthKPerW, powerAt })
    if (h.kind !== 'stable') throw new Error(h.kind)
    expectRelative(h.rest.junctionC, 25, 1e-12, 'junction')
    expectRelative(h.rest.loopGain / rthKPerW, powerPerKelvin, 1e-6, 'dP/dT')
  })
})
