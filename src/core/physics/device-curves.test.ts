import { describe, expect, test } from 'vitest'
import { expectRelative } from '#core/testing'
import bipolar from './bipolar-curves.ref.json' with { type: 'json' }
import diodes from './diode-curves.ref.json' with { type: 'json' }
import fieldEffect from './field-effect-curves.ref.json' with { type: 'json' }
import {
  bipolarAt,
  bipolarLaw,
  bipolarOut,
  bipolarPoint,
  diodeAt,
  diodeCurrent,
  diodeVoltage,
  jfetAt,
  jfetPoint,
  kelvin,
  mosfetAt,
  mosfetPoint,
  voltsPerKelvin2014,
} from './index.ts'

/** The curves were made with these. */
const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

/** 1e-4 of the value, and no less than 1e-12 A or V. */
const wanted = 1e-4
const floor = 1e-12

/** Largest deviation over its allowance; at most 1 passes. */
class Worst {
  ratio = 0
  where = 'nowhere'
  count = 0
  take(got: number | undefined, want: number, where: string): void {
    this.count++
    const ratio =
      got === undefined ? Number.POSITIVE_INFINITY : Math.abs(got - want) / Math.max(wanted * Math.abs(want), floor)
    if (ratio <= this.ratio) return
    this.ratio = ratio
    this.where = `${where}: ${got} for ${want}`
  }
  check(): void {
    expect(this.count).toBeGreaterThan(20)
    expect(this.ratio, this.where).toBeLessThanOrEqual(1)
  }
}

const over = (ohm: number | null, volts: number): number => (ohm === null ? 0 : volts / ohm)

describe('bipolar transistors', () => {
  const cases = bipolar.devices.flatMap((d) => d.at.map((at) => ({ ...d, ...at, name: `${d.id} at ${at.t} degC` })))

  test.each(cases)('$name: Gummel and output sweeps as ngspice computes them', (d) => {
    const m = bipolarAt(d.card, kelvin(d.t), setting)
    const worst = new Worst()
    for (const [vce, rows] of d.gummel as [number, number[][]][])
      for (const [vbe, ib, ic] of rows as [number, number, number][]) {
        const p = bipolarPoint(m, { vbe, vce })
        const leak = over(d.leak.rcb, vce - vbe)
        worst.take(p && p.ib - leak, ib, `ib at ${vbe} V, ${vce} V`)
        worst.take(p && p.ic + leak + over(d.leak.rce, vce), ic, `ic at ${vbe} V, ${vce} V`)
      }
    for (const [ibSet, rows] of d.output as [number, number[][]][])
      for (const [vce, ic, vbe] of rows as [number, number, number][]) {
        const leak = over(d.leak.rcb, vce - vbe)
        const p = bipolarPoint(m, { ib: ibSet + leak, vce })
        worst.take(p && p.ic + leak + over(d.leak.rce, vce), ic, `ic at ${ibSet} A, ${vce} V`)
      }
    worst.check()
  })

  test.each(cases)('$name: conductances as ngspice computes them', (d) => {
    const m = bipolarAt(d.card, kelvin(d.t), setting)
    const worst = new Worst()
    const out = bipolarOut()
    for (const [, vce, ic, ib, gm, gpi, gmu, go] of d.small as number[][]) {
      const p = bipolarPoint(m, { ib: ib!, vce: vce! })
      if (p === undefined) throw new Error(`${d.name} did not settle at ${ib} A`)
      bipolarLaw(m, p.innerVbe, p.innerVbc, out)
      worst.take(out.ic, ic!, 'ic')
      worst.take(out.icByVbe, gm! + go!, 'dIc/dVbe at constant Vbc')
      worst.take(-out.icByVbc, go! + gmu!, 'dIc/dVce at constant Vbe')
      worst.take(out.ibByVbe, gpi!, 'dIb/dVbe')
      worst.take(out.ibByVbc, gmu!, 'dIb/dVbc')
    }
    worst.check()
  })
})

describe('diodes', () => {
  const cases = diodes.devices.flatMap((d) => d.at.map((at) => ({ ...d, ...at, name: `${d.id} at ${at.t} degC` })))

  test.each(cases)('$name: forward, reverse and set current as ngspice computes them', (d) => {
    const m = diodeAt(d.card, kelvin(d.t), setting)
    const worst = new Worst()
    for (const [v, i] of [...d.forward, ...d.reverse] as [number, number][]) {
      const got = diodeCurrent(m, v)
      worst.take(got === undefined ? got : got + over(d.leak, v), i, `${v} V`)
    }
    for (const [i, v] of d.vf as [number, number][]) worst.take(diodeVoltage(m, i - over(d.leak, v)), v, `${i} A`)
    worst.check()
  })
})

describe('field-effect transistors', () => {
  const cases = fieldEffect.devices.flatMap((d) => d.at.map((at) => ({ ...d, ...at, name: `${d.id} at ${at.t} degC` })))

  test.each(cases)('$name: transfer, output and body diode as ngspice computes them', (d) => {
    const isJfet = d.polarity.endsWith('jf')
    const jfet = jfetAt(d.card, kelvin(d.t), setting)
    const mosfet = mosfetAt(d.card, d.polarity === 'pmos' ? 'p' : 'n', kelvin(d.t), setting)
    const point = (vgs: number, vds: number) => (isJfet ? jfetPoint(jfet, vgs, vds) : mosfetPoint(mosfet, vgs, vds))
    const worst = new Worst()
    const [vds, transfer] = d.transfer as [number, number[][]]
    for (const [vgs, id] of transfer as [number, number][]) worst.take(point(vgs, vds)?.id, id, `transfer ${vgs} V`)
    for (const [vgs, rows] of d.output as [number, number[][]][])
      for (const [v, id] of rows as [number, number][]) worst.take(point(vgs, v)?.id, id, `output ${vgs} V, ${v} V`)
    const [vgs, body] = ('body' in d ? d.body : [0, []]) as [number, [number, number][]]
    for (const [v, id] of body) worst.take(point(vgs, v)?.id, id, `body diode ${v} V`)
    worst.check()
  })

  const gates = cases.filter((d) => d.polarity.endsWith('jf'))
  test.each(gates)('$name: gate current as ngspice computes it, to 1e-4 without a floor', (d) => {
    const m = jfetAt(d.card, kelvin(d.t), setting)
    const [vds, transfer] = d.transfer as [number, [number, number, number][]]
    expect(transfer.length).toBeGreaterThan(15)
    for (const [vgs, , ig] of transfer)
      expectRelative(jfetPoint(m, vgs, vds)?.ig ?? Number.NaN, ig, wanted, `ig at ${vgs} V`)
  })
})
