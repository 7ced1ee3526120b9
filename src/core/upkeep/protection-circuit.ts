import {
  type Circuit,
  type Compiled,
  type Component,
  compileCircuit,
  pointOf,
  setTemperature,
  setValue,
  solve,
} from '#core/circuit'
import { FaultError } from '#core/fault'
import { type DeviceSetting, kelvin } from '#core/physics'
import { coilOhmAt, type Movement, type Range, seriesOhmOf, shuntOhmOf } from '#core/tester'
import type { ProtectionDiode } from './protection-diode.ts'

/** What is put on the terminals of a range: the range's own kind of drive, or a source with its resistance. */
export type Drive =
  | { readonly kind: 'full-scale'; readonly times: number }
  | { readonly kind: 'source'; readonly emfV: number; readonly ohm: number }

/** What the movement and the diodes do under a drive. */
export interface Protected {
  /** Current through the coil, A, and the voltage across it, V. */
  readonly movementA: number
  readonly movementV: number
  /** Current through the diodes that conduct, A. */
  readonly diodeA: number
}

/** A range with diodes across its movement, ready to be asked many times. */
export interface ProtectedRange {
  readonly at: (drive: Drive, ambientC: number) => Protected
}

const resistor = (ref: string, a: string, b: string, value: number): Component => ({
  kind: 'R',
  ref,
  nodes: [a, b],
  value,
})

/** The network of a range between its terminal `t` and common; the movement from `m` to common. */
function networkOf(range: Range): { readonly terminal: string; readonly parts: readonly Component[] } {
  const { circuit: c } = range
  switch (c.kind) {
    case 'movement':
      return { terminal: 'm', parts: [] }
    case 'shunt':
      return { terminal: 'm', parts: [resistor('RS', 'm', '0', shuntOhmOf(c) + c.contactOhm)] }
    case 'universal': {
      const above = c.ringOhm - c.tapOhm
      const isWhole = above <= 1e-9 * c.ringOhm
      const terminal = isWhole ? 'm' : 't'
      return {
        terminal,
        parts: [resistor('RT', terminal, '0', c.tapOhm), ...(isWhole ? [] : [resistor('RA', 'm', 't', above)])],
      }
    }
    case 'multiplier':
      return { terminal: 't', parts: [resistor('RS', 't', 'm', seriesOhmOf(c))] }
    case 'stated':
    case 'unknown':
      throw new FaultError({
        code: 'out-of-domain',
        name: `The circuit of ${range.id}`,
        value: c.kind,
        allowed: 'a movement with a shunt, a ring or a multiplier, whose network is known',
      })
  }
}

/** Two strings of diodes back to back across the movement. */
function diodes(inSeries: 1 | 2): readonly Component[] {
  const string = (name: string, from: string, to: string): readonly Component[] =>
    Array.from({ length: inSeries }, (_, i) => ({
      kind: 'D' as const,
      ref: `D${name}${i}`,
      nodes: [i === 0 ? from : `${name}${i}`, i === inSeries - 1 ? to : `${name}${i + 1}`],
      device: 'diode',
    }))
  return [...string('f', 'm', '0'), ...string('b', '0', 'm')]
}

function circuitOf(m: Movement, range: Range, diode: ProtectionDiode | undefined, kind: Drive['kind']): Circuit {
  const { terminal, parts } = networkOf(range)
  const isCurrent = kind === 'full-scale' && range.measures === 'current'
  const source: readonly Component[] = isCurrent
    ? [{ kind: 'I', ref: 'IN', nodes: ['0', terminal], value: range.fullScale }]
    : [{ kind: 'B', ref: 'IN', nodes: [terminal, '0'], value: range.fullScale, resistance: 0 }]
  return {
    title: `movement with protection on ${range.id}`,
    components: [...source, ...parts, resistor('RM', 'm', '0', m.coilOhm), ...(diode ? diodes(diode.inSeries) : [])],
    devices: diode === undefined ? {} : { diode: { kind: 'diode', card: diode.card } },
  }
}

/**
 * A range with diodes across its movement, as the circuit solver has it.
 *
 * @param diode left out: the bare movement
 * @throws {FaultError} `out-of-domain` for a range whose network is not known
 */
export function protectedRange(
  m: Movement,
  range: Range,
  diode: ProtectionDiode | undefined,
  setting?: DeviceSetting,
): ProtectedRange {
  const made = new Map<Drive['kind'], Compiled>()
  const compiled = (kind: Drive['kind'], ohm: number): Compiled => {
    const known = made.get(kind)
    if (known !== undefined) return known
    const circuit = circuitOf(m, range, diode, kind)
    const components = circuit.components.map((c) => (c.kind === 'B' ? { ...c, resistance: ohm } : c))
    const fresh = compileCircuit({ ...circuit, components }, setting === undefined ? {} : { setting })
    if (kind === 'full-scale') made.set(kind, fresh)
    return fresh
  }
  return {
    at: (drive, ambientC) => {
      const c = compiled(drive.kind, drive.kind === 'source' ? drive.ohm : 0)
      const coilOhm = coilOhmAt(m, ambientC)
      setTemperature(c, kelvin(ambientC))
      setValue(c, 'RM', coilOhm)
      setValue(c, 'IN', drive.kind === 'source' ? drive.emfV : drive.times * range.fullScale)
      const point = pointOf(c, solve(c))
      if (!point.converged) throw unsolved(range)
      const movementV = point.nodeVoltages.m ?? 0
      const strings = ['Df0', 'Db0'].map((ref) => {
        const d = point.devices[ref]
        return d?.kind === 'diode' ? Math.abs(d.if) : 0
      })
      return { movementA: movementV / coilOhm, movementV, diodeA: Math.max(...strings) }
    },
  }
}

const unsolved = (range: Range): FaultError =>
  new FaultError({
    code: 'out-of-domain',
    name: `The drive of ${range.id}`,
    value: 'beyond what the circuit solver can settle',
    allowed: 'a drive within reason',
  })
