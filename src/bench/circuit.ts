import {
  type Assignment,
  type Circuit,
  type Compiled,
  compileCircuit,
  type HeatedPart,
  type OperatingPoint,
  outputUnit,
  pointOf,
  readCircuit,
  readNetlist,
  readOutput,
  restTogether,
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
  /** Thermal resistance from junction to air of parts that heat themselves, by name, K/W. */
  readonly rthKPerW?: Readonly<Record<string, number>>
  /** Junction temperature at which a part is taken to have run away, degC. */
  readonly ceilingC?: number
}

/** How an output moves with what made it. */
export interface OutputSensitivity extends Sensitivity {
  readonly output: string
  readonly unit: 'V' | 'A'
}

/** How parts that heat themselves end: all at rest, or one that does not come to rest. */
export type Heat =
  | { readonly outcome: 'rest'; readonly parts: readonly RestingPart[] }
  | {
      readonly outcome: 'runaway' | 'none'
      readonly part: string
      readonly rthKPerW: number
      /** The most with which it would rest, the others where they are, and where, degC; left out where there is none. */
      readonly mostKPerW?: number
      readonly restC?: number
    }

/** A part at its rest. */
export interface RestingPart {
  readonly part: string
  readonly rthKPerW: number
  readonly junctionC: number
  readonly powerW: number
  /** What a warming of 1 K brings back, K, the others held: below 1. */
  readonly loopGain: number
  /** The most with which it would rest, the others where they are; left out where any would do. */
  readonly mostKPerW?: number
}

/** One operating point; `converged` is false where a part that heats itself does not come to rest. */
export type ComputedPoint = OperatingPoint & {
  readonly sensitivities: readonly OutputSensitivity[]
  readonly heat?: Heat
}

/** A circuit with its operating points, in the order the temperatures were asked. */
export interface ComputedCircuit {
  readonly circuit: Circuit
  readonly points: readonly ComputedPoint[]
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
        mend: 'Assign nothing, or change the netlist.',
      })
    return readNetlist(text, { file })
  }
  const read = readYaml(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  return readCircuit(read.document, assignment)
}

/**
 * Computes the operating points of a circuit, the parts with a thermal resistance heating themselves.
 *
 * @throws {FaultError} where the file cannot be used, or a sensitivity or heat is asked of something that is not in it
 */
export function computeCircuit(input: CircuitInput): ComputedCircuit {
  const circuit = circuitFromText(input.text, input.file, input.assignment)
  const compiled = compileCircuit(circuit)
  const outputs = (input.sensitivityOf ?? []).map((text) => ({ text, output: readOutput(compiled, text) }))
  const temperatures = input.temperaturesC ?? [undefined]
  const points = temperatures.map((t) => {
    if (t !== undefined) setTemperature(compiled, kelvin(t))
    const { point, heat } = pointWithHeat(compiled, input)
    const asked = point.converged ? outputs : []
    const sensitivities = asked.map(({ text, output }) => ({
      output: text,
      unit: outputUnit(output),
      ...sensitivity(compiled, output),
    }))
    const own = t === undefined ? {} : { temperatureC: t }
    return { ...point, ...own, sensitivities, ...(heat === undefined ? {} : { heat }) }
  })
  return { circuit, points }
}

function pointWithHeat(
  c: Compiled,
  { rthKPerW = {}, ceilingC }: CircuitInput,
): { readonly point: OperatingPoint; readonly heat?: Heat } {
  const cold = pointOf(c, solve(c))
  if (!cold.converged || Object.keys(rthKPerW).length === 0) return { point: cold }
  const found = restTogether(c, rthKPerW, ceilingC === undefined ? {} : { ceilingC })
  if (found.kind === 'rest')
    return { point: found.point, heat: { outcome: 'rest', parts: found.parts.map(restingPart) } }
  const { ref, rthKPerW: rth, heating } = found.part
  const fold = heating.fold === undefined ? {} : { mostKPerW: heating.fold.rthKPerW, restC: heating.fold.junctionC }
  const nowhere = { nodeVoltages: {}, devices: {}, sourceCurrents: {} }
  return {
    point: { ...cold, ...nowhere, converged: false },
    heat: { outcome: found.kind, part: ref, rthKPerW: rth, ...fold },
  }
}

function restingPart({ ref, rthKPerW, heating }: HeatedPart): RestingPart {
  const { junctionC, powerW, loopGain } = heating.points[0]!
  const most = heating.fold === undefined ? {} : { mostKPerW: heating.fold.rthKPerW }
  return { part: ref, rthKPerW, junctionC, powerW, loopGain, ...most }
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
  readonly heat?: Heat
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

function pointEntry(p: ComputedPoint): CircuitPointEntry {
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
    ...(p.heat === undefined ? {} : { heat: p.heat }),
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
