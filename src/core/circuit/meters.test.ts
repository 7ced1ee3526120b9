import { describe, expect, test } from 'vitest'
import { voltsPerKelvin2014 } from '#core/physics'
import { dataDocument } from '#core/text'
import { compileCircuit, operatingPoint, pointOf, readCircuit, setValue, solve } from './index.ts'
import reference from './meters.ref.json' with { type: 'json' }

const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }

/** Within 1e-4 of the value, and no less than 1e-12 A or V. */
function expectNear(got: number | undefined, wanted: number, what: string): void {
  const off = Math.abs((got ?? Number.POSITIVE_INFINITY) - wanted)
  expect(off / Math.max(1e-4 * Math.abs(wanted), 1e-12), `${what}: ${got} is not ${wanted}`).toBeLessThanOrEqual(1)
}

type Part = Readonly<Record<string, unknown>>
const r = (ref: string, a: string, b: string, value: number): Part => ({ kind: 'R', ref, nodes: [a, b], value })
const source = (kind: 'V' | 'I', ref: string, a: string, b: string, value: number): Part => ({
  kind,
  ref,
  nodes: [a, b],
  value,
})

interface Movement {
  readonly r_coil: number
}

interface MeterParts {
  readonly movement: Movement
  readonly multipliers: readonly { range_V: number; r_series: number }[]
  readonly taps: readonly { range_A: number }[]
  readonly segments_from_top: readonly number[]
  readonly shunts: readonly { range_A: number; r_shunt: number }[]
  readonly contact_resistance: number
  readonly r1: number
  readonly r_cell: number
}

/** The meter of one result: movement from m to 0 and whatever feeds it; the drive is `DRIVE`. */
function meterParts(
  kind: string,
  c: MeterParts,
  result: { range?: number; emf?: number; rz?: number },
): readonly Part[] {
  const movement = r('RM', 'm', '0', c.movement.r_coil)
  switch (kind) {
    case 'multiplier': {
      const { r_series } = c.multipliers.find((m) => m.range_V === result.range)!
      return [source('V', 'DRIVE', 'in', '0', 0), r('RS', 'in', 'm', r_series), movement]
    }
    case 'ayrton': {
      const tap = c.taps.findIndex((t) => t.range_A === result.range)
      const names = ['m', ...c.segments_from_top.slice(0, -1).map((_, k) => `t${k}`), '0']
      const ring = c.segments_from_top.map((ohm, k) => r(`RR${k}`, names[k]!, names[k + 1]!, ohm))
      return [source('I', 'DRIVE', '0', `t${tap}`, 0), ...ring, movement]
    }
    case 'shunts': {
      const { r_shunt } = c.shunts.find((s) => s.range_A === result.range)!
      const shunt = [r('RC', 'm', 'y', c.contact_resistance), r('RSH', 'y', '0', r_shunt)]
      return [source('I', 'DRIVE', '0', 'm', 0), ...shunt, movement]
    }
    default: {
      const cell = { kind: 'B', ref: 'E', nodes: ['i', '0'], value: result.emf!, resistance: c.r_cell }
      return [cell, r('R1', 'i', 'x', c.r1 - 1), r('DRIVE', 'x', 'm', 1), r('RZ', 'm', '0', result.rz!), movement]
    }
  }
}

const needles = reference.meters.filter((m) => !m.kind.startsWith('null'))
const nulls = reference.meters.filter((m) => m.kind.startsWith('null'))

describe('meters with protection diodes as ngspice computes them', () => {
  test.each(needles)('$id: every range, protection and temperature', (m) => {
    const components = m.components as unknown as MeterParts
    const protection = m.protection as Readonly<Record<string, string>>
    let count = 0
    for (const result of m.results as unknown as {
      temperature_degC: number
      protection: string
      range?: number
      rows: [number, number, number][]
    }[]) {
      const device = protection[result.protection]
      const pair = [
        { kind: 'D', ref: 'DP1', nodes: ['m', '0'], device },
        { kind: 'D', ref: 'DP2', nodes: ['0', 'm'], device },
      ]
      const parts = [...meterParts(m.kind, components, result), ...(device === undefined ? [] : pair)]
      const circuit = readCircuit(dataDocument({ components: parts, devices: m.devices }))
      const compiled = compileCircuit(circuit, { temperatureC: result.temperature_degC, setting })
      for (const [drive, current, volts] of result.rows) {
        setValue(compiled, 'DRIVE', m.kind === 'ohms' ? drive + 1 : drive * result.range!)
        const point = pointOf(compiled, solve(compiled))
        const where = `${result.protection} at ${result.temperature_degC} degC, range ${result.range}, ${drive}`
        expectNear(point.nodeVoltages.m, volts, where)
        expectNear(point.nodeVoltages.m! / components.movement.r_coil, current, where)
        count++
      }
    }
    expect(count).toBeGreaterThan(60)
  })
})

interface NullParts {
  readonly emf: number
  readonly r_base: number
  readonly r_detector: number
  readonly r_collector: number
  readonly tap_fraction: number
  readonly divider_total: number
}

interface NullResult {
  readonly device: string
  readonly temperature_degC: number
  readonly rc_null?: number
  readonly rb_null?: number
  readonly i_leak_added: number
  readonly ib: number
  readonly ic_device: number
  readonly vbe: number
  readonly vce: number
  /** Of the open base at this V_CE, and the gain with it taken off. */
  readonly iceo: number
  readonly hfe_corrected: number
  readonly detector: readonly (readonly [number, number])[]
}

describe('null bridges as ngspice computes them', () => {
  test.each(nulls)('$id: the point at null, and the detector beside it', (m) => {
    const c = m.components as unknown as NullParts
    const devices = m.devices as Readonly<Record<string, { polarity: string }>>
    for (const at of m.results as unknown as NullResult[]) {
      const sign = devices[at.device]!.polarity === 'pnp' ? -1 : 1
      const isRatio = m.kind === 'null-ratio'
      const build = (detune: number, withDetector: boolean): Part[] => {
        const rb = isRatio ? c.r_base : at.rb_null! * (1 + detune)
        const rc = isRatio ? at.rc_null! * (1 + detune) : c.r_collector
        const bridge = [source('V', 'E', 'e', '0', sign * c.emf), r('RB', 'e', 'b', rb), r('RC', 'e', 'c', rc)]
        const tap = [
          r('R1', 'e', 'tp', c.divider_total * (1 - c.tap_fraction)),
          r('R2', 'tp', '0', c.divider_total * c.tap_fraction),
        ]
        const detector = isRatio ? [r('RD', 'c', 'b', c.r_detector)] : [...tap, r('RD', 'c', 'tp', c.r_detector)]
        const leak = source('I', 'IL', 'c', '0', sign * at.i_leak_added)
        const q = { kind: 'Q', ref: 'Q1', nodes: ['c', 'b', '0'], device: at.device }
        return [...bridge, leak, q, ...(withDetector ? detector : [])]
      }
      const solveAt = (detune: number, withDetector: boolean) =>
        operatingPoint(readCircuit(dataDocument({ components: build(detune, withDetector), devices: m.devices })), {
          temperatureC: at.temperature_degC,
          setting,
        })
      const where = `${at.device} at ${at.temperature_degC} degC`
      const q = solveAt(0, false).devices.Q1
      if (q?.kind !== 'bipolar') throw new Error(`${where} did not settle`)
      for (const [key, wanted] of [
        ['ib', at.ib],
        ['ic', at.ic_device],
        ['vbe', at.vbe],
        ['vce', at.vce],
      ] as const)
        expectNear(q[key], wanted, `${where} ${key}`)
      const openBase = [
        source('V', 'VC', 'c', '0', sign * at.vce),
        { kind: 'Q', ref: 'Q1', nodes: ['c', 'b', '0'], device: at.device },
      ]
      const open = operatingPoint(readCircuit(dataDocument({ components: openBase, devices: m.devices })), {
        temperatureC: at.temperature_degC,
        setting,
      }).devices.Q1
      if (open?.kind !== 'bipolar') throw new Error(`${where} with an open base did not settle`)
      expectNear(open.ic, at.iceo, `${where} I_CEO`)
      expectNear((q.ic - open.ic) / q.ib, at.hfe_corrected, `${where} gain without leakage`)
      for (const [detune, current] of at.detector.filter(([d]) => d !== 0)) {
        const v = solveAt(detune, true).nodeVoltages
        const other = isRatio ? v.b! : v.tp!
        // at no detuning the file holds round-off alone
        expectNear((sign * (v.c! - other)) / c.r_detector, current, `${where} detector at ${detune}`)
      }
    }
  })
})
