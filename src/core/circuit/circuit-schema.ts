import { z } from 'zod'
import { valueLimits } from './circuit.ts'

const positive = (description: string, example: number) =>
  z
    .number()
    .positive()
    .meta({ description, examples: [example] })
const plain = (description: string, example: number) => z.number().meta({ description, examples: [example] })
const atLeastZero = (description: string, example: number) =>
  z
    .number()
    .min(0)
    .meta({ description, examples: [example] })

const temperatureLaw = {
  eg: positive('gap of the temperature law, eV', 1.11).optional(),
  xti: plain('power of the temperature law of IS', 3).optional(),
}
const tnom = plain('temperature the card holds at, degC', 25).min(-273).optional()

/** Parameters of each model card, under their SPICE names in small letters. */
export const cardShapes = {
  diode: {
    is: positive('saturation current, A', 4e-9).optional(),
    n: positive('emission coefficient', 1.9).optional(),
    rs: atLeastZero('series resistance, ohm', 0.6).optional(),
    bv: atLeastZero('breakdown voltage, V', 100).optional(),
    ibv: positive('current at the breakdown voltage, A', 1e-4).optional(),
    nbv: positive('emission coefficient of breakdown', 1).optional(),
    ikf: atLeastZero('knee current of high injection, A', 0).optional(),
    isr: atLeastZero('recombination current, A', 0).optional(),
    nr: positive('emission coefficient of recombination', 2).optional(),
    vj: positive('junction potential, V', 1).optional(),
    m: positive('grading of the junction', 0.5).optional(),
    ...temperatureLaw,
    tnom,
  },
  bipolar: {
    is: positive('transport saturation current, A', 1e-14).optional(),
    bf: positive('forward gain', 250).optional(),
    nf: positive('forward emission coefficient', 1).optional(),
    vaf: atLeastZero('forward Early voltage, V', 80).optional(),
    ikf: atLeastZero('forward knee current, A', 0.1).optional(),
    ise: atLeastZero('base-emitter leakage current, A', 2e-14).optional(),
    ne: positive('base-emitter leakage emission', 1.6).optional(),
    br: positive('reverse gain', 4).optional(),
    nr: positive('reverse emission coefficient', 1).optional(),
    var: atLeastZero('reverse Early voltage, V', 20).optional(),
    ikr: atLeastZero('reverse knee current, A', 0.05).optional(),
    isc: atLeastZero('base-collector leakage current, A', 5e-14).optional(),
    nc: positive('base-collector leakage emission', 1.8).optional(),
    rb: atLeastZero('base resistance, ohm', 50).optional(),
    irb: atLeastZero('base current at which RB is half fallen, A', 1e-4).optional(),
    rbm: atLeastZero('least base resistance, ohm', 10).optional(),
    re: atLeastZero('emitter resistance, ohm', 0.5).optional(),
    rc: atLeastZero('collector resistance, ohm', 1).optional(),
    xtb: plain('power of the temperature law of gain', 1.5).optional(),
    ...temperatureLaw,
    tnom,
  },
  jfet: {
    vto: plain('pinch-off voltage, V, below 0 for both polarities', -2.4).optional(),
    beta: positive('transconductance parameter, A/V^2', 1e-3).optional(),
    lambda: atLeastZero('channel length modulation, 1/V', 0.01).optional(),
    is: positive('gate saturation current, A', 1e-14).optional(),
    n: positive('gate emission coefficient', 1).optional(),
    rd: atLeastZero('drain resistance, ohm', 20).optional(),
    rs: atLeastZero('source resistance, ohm', 20).optional(),
    tnom,
  },
  mosfet: {
    vto: plain('threshold voltage, V', 1.7).optional(),
    kp: positive('transconductance parameter, A/V^2', 0.1).optional(),
    gamma: atLeastZero('body effect, V^0.5', 0).optional(),
    phi: positive('surface potential, V', 0.6).optional(),
    lambda: atLeastZero('channel length modulation, 1/V', 0.01).optional(),
    l: positive('channel length, m', 1e-4).optional(),
    w: positive('channel width, m', 1e-4).optional(),
    is: positive('body saturation current, A', 1e-14).optional(),
    rd: atLeastZero('drain resistance, ohm', 1).optional(),
    rs: atLeastZero('source resistance, ohm', 0.5).optional(),
    tnom,
  },
} as const

const { leastOhm, mostOhm, mostVolts, mostAmperes } = valueLimits
const resistance = (description: string, example: number) => positive(description, example).min(leastOhm).max(mostOhm)
const upTo = (most: number, description: string, example: number) => plain(description, example).min(-most).max(most)
const ohms = resistance('leakage resistance, ohm; null where there is none', 1e6).nullable().optional()

const diode = z.strictObject({
  kind: z.enum(['diode', 'zener', 'schottky', 'rectifier', 'signal']).optional(),
  polarity: z.never().optional(),
  params: z.strictObject(cardShapes.diode),
  external_parallel_ohm: ohms,
})
const bipolar = z.strictObject({
  kind: z.literal('bipolar').optional(),
  polarity: z.enum(['npn', 'pnp']),
  params: z.strictObject(cardShapes.bipolar),
  external_leakage_ohm: z.strictObject({ rcb: ohms, rce: ohms }).optional(),
})
const jfet = z.strictObject({
  kind: z.literal('jfet').optional(),
  polarity: z.enum(['njf', 'pjf']),
  params: z.strictObject(cardShapes.jfet),
})
const mosfet = z.strictObject({
  kind: z.literal('mosfet').optional(),
  polarity: z.enum(['nmos', 'pmos']),
  params: z.strictObject({ ...cardShapes.mosfet, level: z.literal(1).optional() }),
})

const ref = z
  .string()
  .min(1)
  .meta({ description: 'name of the component', examples: ['R1'] })
const node = z.string().min(1)
const two = z
  .array(node)
  .length(2)
  .meta({ description: 'two nodes', examples: [['c', '0']] })
const pins = z.array(z.string()).optional()

const component = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('R'), ref, nodes: two, pins, value: resistance('resistance, ohm', 4700) }),
  z.strictObject({ kind: z.literal('V'), ref, nodes: two, pins, value: upTo(mostVolts, 'voltage, V', 9) }),
  z.strictObject({ kind: z.literal('I'), ref, nodes: two, pins, value: upTo(mostAmperes, 'current, A', 1e-3) }),
  z.strictObject({
    kind: z.literal('B'),
    ref,
    nodes: two,
    pins,
    value: upTo(mostVolts, 'electromotive force of the cell, V', 1.5),
    resistance: z.union([z.literal(0), resistance('resistance of the cell, ohm', 0.5)]),
  }),
  z.strictObject({ kind: z.literal('D'), ref, nodes: z.array(node).length(2), pins, device: z.string().optional() }),
  z.strictObject({ kind: z.literal('Q'), ref, nodes: z.array(node).length(3), pins, device: z.string().optional() }),
  z.strictObject({ kind: z.literal('J'), ref, nodes: z.array(node).length(3), pins, device: z.string().optional() }),
  z.strictObject({
    kind: z.literal('M'),
    ref,
    nodes: z.array(node).min(3).max(4),
    pins,
    device: z.string().optional(),
  }),
])

/** A circuit file. What it says besides components and devices is left alone. */
export const circuitFileSchema = z.looseObject({
  id: z.string().optional(),
  title: z.string().optional(),
  components: z.array(component).min(1),
  devices: z.record(z.string(), z.union([bipolar, jfet, mosfet, diode])).default({}),
  temperature_degC: z.number().min(-273).max(1000).optional(),
})

export type CircuitFile = z.output<typeof circuitFileSchema>
export type ComponentFile = CircuitFile['components'][number]
export type DeviceFile = CircuitFile['devices'][string]
