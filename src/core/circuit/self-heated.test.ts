import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { heatingCurve, kelvin, timeToReach, voltsPerKelvin2014 } from '#core/physics'
import { expectRelative } from '#core/testing'
import { dataDocument } from '#core/text'
import {
  compileCircuit,
  devicePointOf,
  powerInCircuit,
  readCircuit,
  selfHeatedPoint,
  setPartTemperature,
  solve,
} from './index.ts'
import reference from './self-heated.ref.json' with { type: 'json' }

const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

/** The part with its collector voltage and what drives its base. */
function circuitOf({ device, drive, vce }: (typeof reference.cases)[number]) {
  const sign = device.polarity === 'pnp' ? -1 : 1
  const value = sign * ((drive as { value?: number }).value ?? 0)
  const base = {
    'open-base': [],
    'fixed-ib': [{ kind: 'I', ref: 'DRIVE', nodes: ['0', 'b'], value }],
    'fixed-vbe': [{ kind: 'V', ref: 'DRIVE', nodes: ['b', '0'], value }],
  }[drive.kind]
  if (base === undefined) throw new Error(`${drive.kind} is not a drive`)
  const supply = { kind: 'V', ref: 'VC', nodes: ['c', '0'], value: sign * vce }
  const components = [supply, ...base, { kind: 'Q', ref: 'Q1', nodes: ['c', 'b', '0'] }]
  return readCircuit(dataDocument({ components, devices: { part: device } }))
}

const cases = reference.cases.map((c) => ({ ...c, circuit: circuitOf(c) }))
const results = cases.flatMap((c) =>
  c.results.map((r) => ({ ...r, name: `${c.id} at ${r.ambientC} degC, ${r.rthKPerW} K/W`, circuit: c.circuit })),
)

test.each(cases)('$id: power by junction temperature', ({ circuit, power }) => {
  const powerAt = powerInCircuit(compileCircuit(circuit, { setting }), 'Q1')
  for (const [t, , , , wanted] of power as number[][]) expectRelative(powerAt(t!)!, wanted!, 1e-7, `power at ${t} degC`)
})

/** A base current of nothing is round-off there: it counts against the collector current. */
function expectBaseCurrent(got: number, wanted: number, icA: number): void {
  if (Math.abs(wanted) < 1e-12 * icA) expect(Math.abs(got)).toBeLessThan(1e-9 * icA)
  else expectRelative(got, wanted, 1e-6, 'base current')
}

test.each(cases)('$id: currents and base voltage by junction temperature', ({ circuit, power }) => {
  const c = compileCircuit(circuit, { setting })
  for (const [t, ic, ib, vbe] of power as [number, number, number, number][]) {
    setPartTemperature(c, 'Q1', kelvin(t))
    expect(solve(c).converged).toBe(true)
    const q = devicePointOf(c, 'Q1')
    if (q.kind !== 'bipolar') throw new Error('Q1 is no transistor')
    expectRelative(q.ic, ic, 1e-7, `I_C at ${t} degC`)
    expectRelative(q.vbe, vbe, 1e-7, `V_BE at ${t} degC`)
    expectBaseCurrent(q.ib, ib, ic)
  }
})

describe('balances as an independent solver finds them', () => {
  test.each(results)('$name', (r) => {
    const options = { temperatureC: r.ambientC, setting, ceilingC: 120 }
    const { heating, point } = selfHeatedPoint(r.circuit, 'Q1', r.rthKPerW, options)
    expect(heating.kind).toBe(r.outcome)
    expect(heating.points.map((p) => p.isStable)).toEqual(r.points.map((p) => p[5]))
    for (const [k, p] of heating.points.entries()) {
      const [junctionC, , , power, loopGain] = r.points[k] as number[]
      expect(Math.abs(p.junctionC - junctionC!), 'junction').toBeLessThan(1e-5)
      expectRelative(p.powerW, power!, 1e-6, 'power')
      expectRelative(p.loopGain, loopGain!, 1e-6, 'loop gain')
    }
    expectRelative(heating.fold!.rthKPerW, r.fold[0]!, 1e-7, 'fold')
    expect(Math.abs(heating.fold!.junctionC - r.fold[1]!)).toBeLessThan(1e-3)
    if (heating.kind !== 'stable') return expect(point).toBeUndefined()
    const [, ic, vbe] = r.points[0] as number[]
    const q = point!.devices.Q1!
    if (q.kind !== 'bipolar') throw new Error('Q1 is no transistor')
    expectRelative(q.ic, ic!, 1e-6, 'collector current')
    expectRelative(q.vbe, vbe!, 1e-6, 'base voltage')
    expectBaseCurrent(q.ib, r.ib[0]!, ic!)
  })
})

describe('warming up as SciPy integrates it', () => {
  test.each(results)('$name', (r) => {
    const powerAt = powerInCircuit(compileCircuit(r.circuit, { temperatureC: r.ambientC, setting }), 'Q1')
    const poles = [{ rKPerW: r.rthKPerW, tauS: r.rthKPerW * r.capacityJPerK }]
    const part = { ambientC: r.ambientC, poles, powerAt }
    const rows = r.rows as [number, number][]
    const got = heatingCurve(
      part,
      rows.map(([t]) => t),
    )
    expect(got).toHaveLength(rows.length)
    for (const [k, [t, wanted]] of rows.entries()) {
      const rise = wanted - r.ambientC
      // a runaway ends steeply: there a hundred-thousandth of the time is allowed as well
      const perSecond = Math.abs(r.rthKPerW * powerAt(wanted)! - rise) / poles[0]!.tauS
      const allowed = 1e-4 * Math.max(1, rise) + 1e-5 * t * perSecond
      expect(Math.abs(got[k]! - wanted), `${t} s: ${got[k]} is not ${wanted}`).toBeLessThan(allowed)
    }
    const reached = timeToReach(part, 110, 1.01 * (r.to110S ?? rows.at(-1)![0]))
    if (r.to110S === null) expect(reached).toBeUndefined()
    else expectRelative(reached ?? Number.NaN, r.to110S, 1e-5, 'time to 110 degC')
  })
})

test('a part that is not there is named', () =>
  expect(() => selfHeatedPoint(cases[0]!.circuit, 'Q9', 100)).toThrow(FaultError))
