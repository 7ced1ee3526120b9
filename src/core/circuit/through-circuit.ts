import { FaultError } from '#core/fault'
import { celsius, kelvin } from '#core/physics'
import { derive, formula, type Quantity } from '#core/quantity'
import type { Circuit } from './circuit.ts'
import { type Compiled, type CompileOptions, compileCircuit, setCard, setTemperature, setValue } from './compile.ts'
import { outputUnit, readOutput } from './output.ts'
import { type OperatingPoint, pointOf } from './point.ts'
import { sensitivity } from './sensitivity.ts'
import { solve } from './solve.ts'

/** An operating point with doubt: the asked numbers as quantities whose budgets hold the causes of the inputs. */
export interface DoubtfulPoint {
  readonly point: OperatingPoint
  /** By the text that asked: `node:c`, `Q1.ic`. Empty where no point was found. */
  readonly quantities: Readonly<Record<string, Quantity>>
}

/**
 * Passes quantities through a circuit: each is put in for a component (`RB`), a card parameter (`Q1.bf`) or
 * `temperature` (degC or K), and the outputs carry their causes on, by adjoint slopes. Causes shared by two inputs stay
 * shared, and by two outputs as well.
 *
 * @param inputs quantities by what they stand for
 * @param outputs what is asked: `node:c`, `source:VCC`, `Q1.ic`
 * @throws {FaultError} `not-found` for a name that is not in the circuit
 */
export function throughCircuit(
  circuit: Circuit,
  inputs: Readonly<Record<string, Quantity>>,
  outputs: readonly string[],
  options: CompileOptions = {},
): DoubtfulPoint {
  const c = compileCircuit(circuit, options)
  for (const [name, q] of Object.entries(inputs)) put(c, name, q)
  const outcome = solve(c)
  const point = pointOf(c, outcome)
  if (!outcome.converged) return { point, quantities: {} }
  return { point, quantities: Object.fromEntries(outputs.map((text) => [text, outputQuantity(c, text, inputs)])) }
}

function put(c: Compiled, name: string, q: Quantity): void {
  if (name === 'temperature') setTemperature(c, q.unit === 'K' ? q.value : kelvin(q.value))
  else if (name.includes('.')) {
    const [ref = '', parameter = ''] = name.split('.')
    setCard(c, ref, { [parameter]: q.value })
  } else setValue(c, name, q.value)
}

function outputQuantity(c: Compiled, text: string, inputs: Readonly<Record<string, Quantity>>): Quantity {
  const output = readOutput(c, text)
  const { value, slopes } = sensitivity(c, output)
  const names = Object.keys(inputs)
  const missing = names.find((n) => slopes[n] === undefined)
  if (missing !== undefined)
    throw new FaultError({ code: 'not-found', what: 'cause in the circuit', name: missing, near: [] })
  const law = formula({
    id: 'circuit/operating-point',
    version: 1,
    text: `${text} = operating point of ${c.circuit.title} at ${celsius(c.temperatureK).toFixed(1)} degC`,
    unit: outputUnit(output),
    inputs: Object.fromEntries(names.map((n) => [n, inputs[n]!.unit])),
    symbols: Object.fromEntries(names.map((n) => [n, n])),
    source: { title: "Kirchhoff's laws with the laws of the devices", standing: 'published' },
    domain: Object.fromEntries(names.map((n) => [n, [inputs[n]!.value, inputs[n]!.value] as const])),
    evaluate: () => value,
    partials: () => Object.fromEntries(names.map((n) => [n, slopes[n]!])),
  })
  return derive(law, inputs, text)
}
