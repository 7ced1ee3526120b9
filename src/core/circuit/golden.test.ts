import { describe, expect, test } from 'vitest'
import { voltsPerKelvin2014 } from '#core/physics'
import { expectRelative } from '#core/testing'
import reference from './golden.ref.json' with { type: 'json' }
import { type Circuit, type Component, type Device, operatingPoint, readModelCard } from './index.ts'

const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

/** What both programs agree to, far inside the 1e-4 that is wanted. */
const tolerance = 1e-7

type Case = (typeof reference.cases)[number]
const of = (kind: string): readonly Case[] => reference.cases.filter((c) => c.kind.startsWith(kind))
type Numbers = Readonly<Record<string, number>>
type Lists = Readonly<Record<string, readonly number[]>>

function deviceOf(card: string): Device {
  const read = readModelCard(card)
  if ('device' in read) return read.device
  throw new Error(`${card} does not read`)
}

const signOf = (device: Device): number => (device.kind === 'bipolar' && device.polarity === 'pnp' ? -1 : 1)

/** A device with sources at its leads, solved; values as if NPN. */
function solved(c: Case, kind: 'D' | 'Q' | 'J', nodes: readonly string[], sources: readonly Component[]) {
  const device = deviceOf(c.card)
  const turned = sources.map((s) => (s.kind === 'V' || s.kind === 'I' ? { ...s, value: signOf(device) * s.value } : s))
  const part: Component = { kind, ref: 'X1', nodes, device: 'x' }
  const circuit: Circuit = { title: c.id, components: [part, ...turned], devices: { x: device } }
  const point = operatingPoint(circuit, { temperatureC: c.temp_C, setting })
  expect(point.converged, c.id).toBe(true)
  return {
    current: (ref: string): number => signOf(device) * point.sourceCurrents[ref]!,
    volts: (node: string): number => signOf(device) * point.nodeVoltages[node]!,
  }
}

const voltage = (ref: string, node: string, value: number): Component => ({ kind: 'V', ref, nodes: [node, '0'], value })
const current = (ref: string, into: string, value: number): Component => ({ kind: 'I', ref, nodes: ['0', into], value })

describe('cards run by ngspice', () => {
  test('every case is of a kind that is tried here', () => {
    const tried = ['diode', 'IB driven', 'IC=10mA', 'leakage', 'VDS=10'].flatMap(of)
    expect(tried).toHaveLength(reference.cases.length)
    expect(tried.length).toBe(31)
  })

  test.each(of('diode'))('$id: voltage at a current', (c) => {
    const { I_A, V } = c as unknown as Lists
    for (const [k, i] of I_A!.entries())
      expectRelative(solved(c, 'D', ['a', '0'], [current('I', 'a', i)]).volts('a'), V![k]!, tolerance, `V at ${i} A`)
  })

  test.each(of('IB driven'))('$id: gain and base voltage', (c) => {
    const { IB_A, VBE_V, IC_A, hFE } = c as unknown as Lists
    for (const [k, ib] of IB_A!.entries()) {
      const got = solved(c, 'Q', ['c', 'b', '0'], [current('IB', 'b', ib), voltage('VC', 'c', 5)])
      expectRelative(got.current('VC'), IC_A![k]!, tolerance, `I_C at ${ib} A`)
      expectRelative(got.current('VC') / ib, hFE![k]!, tolerance, `h_FE at ${ib} A`)
      expectRelative(got.volts('b'), VBE_V![k]!, tolerance, `V_BE at ${ib} A`)
    }
  })

  test.each(of('IC=10mA'))('$id: saturation', (c) => {
    const { VBEsat_V, VCEsat_V } = c as unknown as Numbers
    const got = solved(c, 'Q', ['c', 'b', '0'], [current('IB', 'b', 1e-3), current('IC', 'c', 1e-2)])
    expectRelative(got.volts('b'), VBEsat_V!, tolerance, 'V_BE')
    expectRelative(got.volts('c'), VCEsat_V!, tolerance, 'V_CE')
  })

  test.each(of('leakage'))('$id: leakage with a lead open', (c) => {
    const { ICBO_A, ICEO_A, ICES_A, IEBO_A } = c as unknown as Numbers
    const supply = voltage('V', 'x', 5)
    // a lead left open is tied to ground by 1e12 ohm, so that ngspice finds its voltage: its figures tell
    const open = (lead: string): Component => ({ kind: 'R', ref: 'ROPEN', nodes: [lead, '0'], value: 1e12 })
    expectRelative(solved(c, 'Q', ['x', '0', 'e'], [supply, open('e')]).current('V'), ICBO_A!, tolerance, 'I_CBO')
    expectRelative(solved(c, 'Q', ['x', 'b', '0'], [supply, open('b')]).current('V'), ICEO_A!, tolerance, 'I_CEO')
    expectRelative(solved(c, 'Q', ['x', '0', '0'], [supply]).current('V'), ICES_A!, tolerance, 'I_CES')
    const reverse = voltage('V', 'x', 2)
    expectRelative(solved(c, 'Q', ['c', '0', 'x'], [reverse, open('c')]).current('V'), IEBO_A!, tolerance, 'I_EBO')
  })

  test.each(of('VDS=10'))('$id: transfer', (c) => {
    const { VGS_V, ID_A } = c as unknown as Lists
    for (const [k, vgs] of VGS_V!.entries()) {
      const got = solved(c, 'J', ['d', 'g', '0'], [voltage('VG', 'g', vgs), voltage('VD', 'd', 10)])
      expectRelative(got.current('VD'), ID_A![k]!, tolerance, `I_D at ${vgs} V`)
    }
  })
})
