import {
  type Assignment,
  type Circuit,
  compileCircuit,
  type OperatingPoint,
  outputUnit,
  pointOf,
  readCircuit,
  readNetlist,
  readOutput,
  type Sensitivity,
  sensitivity,
  setTemperature,
  solve,
} from '#core/circuit'
import { FaultError } from '#core/fault'
import { kelvin } from '#core/physics'
import { readYaml } from '#core/text'

export interface CircuitInput {
  readonly text: string
  readonly file: string
  /** Devices for places that name none. */
  readonly assignment?: Assignment
  /** Temperatures to compute at, degC; none: that of the file, else 25. */
  readonly temperaturesC?: readonly number[]
  /** What to give sensitivities of: `node:c`, `source:VCC`, `Q1.ic`. */
  readonly sensitivityOf?: readonly string[]
}

/** How an output moves with what made it. */
export interface OutputSensitivity extends Sensitivity {
  readonly output: string
  readonly unit: 'V' | 'A'
}

/** A circuit with its operating points, in the order the temperatures were asked. */
export interface ComputedCircuit {
  readonly circuit: Circuit
  readonly points: readonly (OperatingPoint & { readonly sensitivities: readonly OutputSensitivity[] })[]
}

/** Whether a text is a netlist: by the name of its file, else by how it begins. */
function isNetlist(text: string, file: string): boolean {
  if (/\.(cir|net|sp|spice|ckt)$/i.test(file)) return true
  if (/\.(json|ya?ml)$/i.test(file)) return false
  return !/^\s*\{/.test(text)
}

/** Reads a circuit from JSON, YAML or a netlist. @throws {FaultError} every fault of the file */
export function circuitFromText(text: string, file: string, assignment: Assignment = {}): Circuit {
  if (isNetlist(text, file)) {
    const [place] = Object.keys(assignment)
    if (place !== undefined)
      throw new FaultError({
        code: 'usage',
        problem: `A netlist says itself which device stands at ${place}`,
        mend: 'Leave --assign out, or change the netlist.',
      })
    return readNetlist(text, { file })
  }
  const read = readYaml(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  return readCircuit(read.document, assignment)
}

/**
 * Computes the operating points of a circuit.
 *
 * @throws {FaultError} where the file cannot be used, or a sensitivity is asked of something that is not in it
 */
export function computeCircuit(input: CircuitInput): ComputedCircuit {
  const circuit = circuitFromText(input.text, input.file, input.assignment)
  const compiled = compileCircuit(circuit)
  const outputs = (input.sensitivityOf ?? []).map((text) => ({ text, output: readOutput(compiled, text) }))
  const temperatures = input.temperaturesC ?? [undefined]
  const points = temperatures.map((t) => {
    if (t !== undefined) setTemperature(compiled, kelvin(t))
    const outcome = solve(compiled)
    const point = pointOf(compiled, outcome)
    const asked = outcome.converged ? outputs : []
    const sensitivities = asked.map(({ text, output }) => ({
      output: text,
      unit: outputUnit(output),
      ...sensitivity(compiled, output),
    }))
    return { ...point, ...(t === undefined ? {} : { temperatureC: t }), sensitivities }
  })
  return { circuit, points }
}

/** One operating point as scripts read it. Documented in docs/reference/json.md. */
export interface CircuitPointEntry {
  readonly temperature: number
  readonly converged: boolean
  readonly iterations: number
  readonly node_voltages: Readonly<Record<string, number>>
  readonly devices: Readonly<Record<string, Readonly<Record<string, string | number>>>>
  readonly source_currents: Readonly<Record<string, number>>
  readonly attempts: readonly Omit<OperatingPoint['attempts'][number], 'worstChange'>[]
  readonly sensitivities?: readonly OutputSensitivity[]
}

export interface CircuitDocument extends CircuitPointEntry {
  readonly format: 'germane/circuit/1'
  readonly title: string
}

export interface CircuitSweepDocument {
  readonly format: 'germane/circuit-sweep/1'
  readonly title: string
  readonly points: readonly CircuitPointEntry[]
}

function pointEntry(p: ComputedCircuit['points'][number]): CircuitPointEntry {
  const devices = Object.entries(p.devices).map(([ref, { kind: _, smallSignal, ...values }]) => {
    const { gm, rpi, ro } = smallSignal
    const small = { ...(gm === undefined ? {} : { gm }), ...(rpi === undefined ? {} : { rpi }), ...finite('ro', ro) }
    return [ref, { ...values, ...small }]
  })
  return {
    temperature: p.temperatureC,
    converged: p.converged,
    iterations: p.iterations,
    node_voltages: p.nodeVoltages,
    devices: Object.fromEntries(devices),
    source_currents: p.sourceCurrents,
    attempts: p.attempts.map(({ worstChange: _, ...a }) => a),
    ...(p.sensitivities.length === 0 ? {} : { sensitivities: p.sensitivities }),
  }
}

/** A number under its key, left out where it is not finite: JSON has no word for that. */
const finite = (key: string, value: number | undefined): Readonly<Record<string, number>> =>
  value !== undefined && Number.isFinite(value) ? { [key]: value } : {}

/** What `germane circuit --json` prints. */
export const circuitDocument = (c: ComputedCircuit): CircuitDocument => ({
  format: 'germane/circuit/1',
  title: c.circuit.title,
  ...pointEntry(c.points[0]!),
})

/** What `germane circuit --sweep-temperature --json` prints. */
export const circuitSweepDocument = (c: ComputedCircuit): CircuitSweepDocument => ({
  format: 'germane/circuit-sweep/1',
  title: c.circuit.title,
  points: c.points.map(pointEntry),
})
