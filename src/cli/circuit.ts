import type { Command } from 'commander'
import {
  type CircuitInput,
  type ComputedCircuit,
  type ComputedPoint,
  circuitDocument,
  circuitSweepDocument,
  computeCircuit,
  type Heat,
} from '#bench'
import { circuitExampleJson, type DevicePoint } from '#core/circuit'
import { FaultError } from '#core/fault'
import { selfHeatingDefaults } from '#core/physics'
import { printPlain, type Unit } from '#core/quantity'
import { exitCodes } from './exit.ts'
import { readInput } from './input.ts'
import { badOption, clashFault, deviceTemperature, gather, positiveOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { block } from './say.ts'
import { tableLines, wrapped } from './table.ts'

interface CircuitOptions {
  readonly temperature?: string
  readonly sweepTemperature?: string
  readonly assign?: readonly string[]
  readonly sensitivity?: readonly string[]
  readonly rth?: readonly string[]
  readonly hottest?: string
  readonly json?: boolean
  readonly example?: boolean
}

export function define(command: Command): void {
  command.argument('[file]', 'circuit as JSON, YAML or a netlist; - reads standard input')
  withJson(command)
    .option('--temperature <temperature>', 'of all parts, such as 25 (default: that of the file, else 25)')
    .option('--sweep-temperature <from:to:step>', 'compute at several temperatures, such as 0:50:10')
    .option('--assign <place=device>', 'device for a place, where the file offers several; may stand again', gather)
    .option('--sensitivity <output>', 'show what moves node:c, source:VCC or Q1.ic; may stand again', gather)
    .option(
      '--rth <part=resistance>',
      'a part heats itself: from junction to air, Q1=250 (K/W); may stand again',
      gather,
    )
    .option(
      '--hottest <temperature>',
      `junction at which a part is taken to have run away (default: ${selfHeatingDefaults.ceilingC} °C)`,
    )
    .option('--example', 'print a circuit that works')
    .action((file: string | undefined, o: CircuitOptions) => {
      if (o.example === true) return void process.stdout.write(circuitExampleJson)
      if (file === undefined)
        throw new FaultError({
          code: 'usage',
          problem: 'No circuit was named',
          mend: 'Name a file, give - for standard input, or see --example.',
        })
      if (o.sensitivity !== undefined && o.sweepTemperature !== undefined)
        throw clashFault('--sensitivity', '--sweep-temperature')
      const temperaturesC = temperaturesOf(o)
      const computed = computeCircuit({
        ...readInput(file),
        assignment: assignmentOf(o.assign ?? []),
        ...(temperaturesC === undefined ? {} : { temperaturesC }),
        sensitivityOf: o.sensitivity ?? [],
        ...heatOf(o),
      })
      const isSweep = o.sweepTemperature !== undefined
      if (o.json === true) printJson(isSweep ? circuitSweepDocument(computed) : circuitDocument(computed))
      else printLines(isSweep ? sweepLines(computed) : circuitLines(computed))
      if (computed.points.some((p) => !p.converged)) process.exitCode = exitCodes.notConforming
    })
}

const mostPoints = 10_000

const sweepMend = 'Write the lower end first and a step above 0: 0:50:10.'

/** Temperatures asked for, degC; undefined where none was. */
function temperaturesOf(o: CircuitOptions): readonly number[] | undefined {
  if (o.temperature !== undefined && o.sweepTemperature !== undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'One temperature and a sweep were asked for',
      mend: 'Leave out --temperature or --sweep-temperature.',
    })
  if (o.temperature !== undefined) return [deviceTemperature('--temperature', o.temperature, 'circuit')]
  if (o.sweepTemperature === undefined) return undefined
  const name = '--sweep-temperature'
  const parts = o.sweepTemperature.split(':')
  const [from = 0, to = 0, step = 0] = parts.map(Number)
  const count = Math.floor((to - from) / step + 1e-9) + 1
  if (parts.length !== 3 || parts.some((p) => p.trim() === '' || Number.isNaN(Number(p))))
    throw badOption(name, o.sweepTemperature, 'is not from:to:step', 'Write for example 0:50:10.')
  if (!(count >= 1 && count <= mostPoints))
    throw badOption(name, o.sweepTemperature, `gives no temperature, or more than ${mostPoints}`, sweepMend)
  return Array.from({ length: count }, (_, k) => deviceTemperature(name, String(from + k * step), 'circuit'))
}

/** Parts that heat themselves, and how hot they may become. */
function heatOf({ rth = [], hottest }: CircuitOptions): Pick<CircuitInput, 'rthKPerW' | 'ceilingC'> {
  if (rth.length === 0 && hottest !== undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'A hottest junction was given, and no part heats itself',
      mend: 'Name one with --rth, such as --rth Q1=250.',
    })
  const rthKPerW = Object.fromEntries(
    rth.map((text) => {
      const [part = '', resistance = ''] = text.split(/=(.*)/s)
      if (part !== '' && resistance !== '') return [part, positiveOption('--rth', resistance, 'K/W')]
      throw badOption('--rth', text, 'is not a part and its thermal resistance', 'Write for example Q1=250.')
    }),
  )
  return {
    rthKPerW,
    ...(hottest === undefined ? {} : { ceilingC: deviceTemperature('--hottest', hottest, 'junction') }),
  }
}

function assignmentOf(all: readonly string[]): Readonly<Record<string, string>> {
  return Object.fromEntries(
    all.map((text) => {
      const [place = '', device = ''] = text.split(/=(.*)/s)
      if (place !== '' && device !== '') return [place, device]
      throw badOption('--assign', text, 'is not a place and its device', 'Write for example Q1=orrin-af.')
    }),
  )
}

const value = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 5 })

function circuitLines(c: ComputedCircuit): readonly string[] {
  const p = c.points[0]!
  const head = `${c.circuit.title} at ${value(p.temperatureC, 'degC')}`
  const { heat } = p
  if (heat !== undefined && heat.outcome !== 'rest') return [head, '', ...wrapped(noRestText(heat, p.temperatureC))]
  if (!p.converged) return [`${head}: no operating point was found.`, '', ...triedLines(p)]
  const nodes = Object.entries(p.nodeVoltages).map(([node, v]) => [node, value(v, 'V')])
  const devices = Object.entries(p.devices).map(([ref, d]) => [ref, d.device, ...deviceCells(d)])
  const sources = Object.entries(p.sourceCurrents).map(([ref, i]) => [ref, value(i, 'A')])
  const currents = ['>I_C I_D I_F', '>I_B I_G', '>V_CE V_DS V_F', '>V_BE V_GS', '>power']
  return [
    head,
    '',
    ...tableLines(['node', '>voltage'], nodes),
    ...(devices.length === 0 ? [] : ['', ...tableLines(['part', 'device', ...currents], devices)]),
    ...(heat === undefined ? [] : ['', ...restLines(heat)]),
    ...(sources.length === 0 ? [] : ['', ...tableLines(['source', '>gives'], sources)]),
    ...p.sensitivities.flatMap((s) => block(`What moves ${s.output}, ${value(s.value, s.unit)}:`, slopeLines(s))),
  ]
}

type AtRest = Extract<Heat, { outcome: 'rest' }>
type NoRest = Exclude<Heat, AtRest>

/** Where each part that heats itself rests, and how much more resistance it would stand. */
const restLines = ({ parts }: AtRest): readonly string[] =>
  tableLines(
    ['heats itself', '>R_thJA', '>T_J', '>loop gain', '>rests up to'],
    parts.map((r) => [
      r.part,
      value(r.rthKPerW, 'K/W'),
      value(r.junctionC, 'degC'),
      r.loopGain.toPrecision(3),
      r.mostKPerW === undefined ? 'any' : value(r.mostKPerW, 'K/W'),
    ]),
  )

function noRestText(h: NoRest, ambientC: number): string {
  const through = `with ${value(h.rthKPerW, 'K/W')} to air at ${value(ambientC, 'degC')}`
  const what =
    h.outcome === 'runaway'
      ? `${h.part} runs away: ${through} more heat comes than leaves at every junction temperature.`
      : `${h.part} does not come to rest: ${through} the circuit has no operating point on its way.`
  if (h.mostKPerW === undefined) return what
  return `${what} It would rest with up to ${value(h.mostKPerW, 'K/W')}, at ${printPlain(h.restC ?? Number.NaN, 'degC', { digits: 3 })}, the other parts as they are.`
}

function deviceCells(d: DevicePoint): readonly string[] {
  const power = value(d.power, 'W')
  switch (d.kind) {
    case 'diode':
      return [value(d.if, 'A'), '', value(d.vf, 'V'), '', power]
    case 'bipolar':
      return [value(d.ic, 'A'), value(d.ib, 'A'), value(d.vce, 'V'), value(d.vbe, 'V'), power]
    case 'jfet':
      return [value(d.id, 'A'), value(d.ig, 'A'), value(d.vds, 'V'), value(d.vgs, 'V'), power]
    case 'mosfet':
      return [value(d.id, 'A'), '', value(d.vds, 'V'), value(d.vgs, 'V'), power]
  }
}

/** Slopes of one output, a cause to a line. */
const slopeLines = (s: ComputedCircuit['points'][number]['sensitivities'][number]): readonly string[] =>
  tableLines(
    ['cause', '>for one unit'],
    Object.entries(s.slopes)
      .filter(([, slope]) => slope !== 0)
      .map(([cause, slope]) => [cause, `${slope.toExponential(4)} ${s.unit}`]),
  )

const triedLines = (p: ComputedCircuit['points'][number]): readonly string[] =>
  tableLines(
    ['tried', '>steps', '>came to', 'moves most'],
    p.attempts.map((a) => [a.method, String(a.iterations), a.cameTo?.toExponential(1) ?? '', a.worst ?? '']),
  )

/** One line a temperature: what each device does. */
function sweepLines(c: ComputedCircuit): readonly string[] {
  const refs = [...new Set(c.points.flatMap((p) => Object.keys(p.devices)))]
  const hot = [...new Set(c.points.flatMap((p) => (p.heat?.outcome === 'rest' ? p.heat.parts.map((h) => h.part) : [])))]
  const head = [...refs.flatMap((r) => [`>${r} current`, `>${r} voltage`]), ...hot.map((r) => `>T_J of ${r}`)]
  const rows = c.points.map((p) => [
    value(p.temperatureC, 'degC'),
    ...(p.converged ? [...refs.flatMap((r) => mainCells(p.devices[r]!)), ...junctionCells(p)] : [noPointText(p)]),
  ])
  return [c.circuit.title, '', ...tableLines(['>temperature', ...head], rows)]
}

const junctionCells = ({ heat }: ComputedPoint): readonly string[] =>
  heat?.outcome === 'rest' ? heat.parts.map((h) => value(h.junctionC, 'degC')) : []

const noPointText = ({ heat }: ComputedPoint): string =>
  heat?.outcome === 'runaway' ? `${heat.part} runs away` : 'no operating point'

function mainCells(d: DevicePoint): readonly string[] {
  switch (d.kind) {
    case 'diode':
      return [value(d.if, 'A'), value(d.vf, 'V')]
    case 'bipolar':
      return [value(d.ic, 'A'), value(d.vce, 'V')]
    default:
      return [value(d.id, 'A'), value(d.vds, 'V')]
  }
}
