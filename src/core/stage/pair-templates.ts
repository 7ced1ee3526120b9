import type { Template, TemplateResistor, TemplateThermistor } from './template.ts'

const supply = [{ ref: 'VCC', node: 'vcc' }] as const
const atRest = [{ name: 'at rest', drive: 0 }] as const

const pair: Template = {
  id: 'direct-pair',
  title: 'direct-coupled pair',
  says: 'Two transistors without a capacitor between them; feedback from the second emitter holds both.',
  supplyV: 12,
  sources: supply,
  resistors: [
    { ref: 'RC1', nodes: ['vcc', 'c1'], ohm: 47e3, role: 'first collector load' },
    { ref: 'RE1', nodes: ['e1', '0'], ohm: 330, role: 'first emitter resistor', absent: 'wire' },
    { ref: 'RC2', nodes: ['vcc', 'c2'], ohm: 4700, role: 'second collector load' },
    { ref: 'RE2', nodes: ['e2', '0'], ohm: 1200, role: 'second emitter resistor' },
    { ref: 'RF', nodes: ['e2', 'b1'], ohm: 100e3, role: 'feedback to the first base' },
  ],
  thermistors: [],
  places: [
    { ref: 'Q1', kind: 'Q', nodes: ['c1', 'b1', 'e1'], role: 'first transistor' },
    { ref: 'Q2', kind: 'Q', nodes: ['c2', 'c1', 'e2'], role: 'second transistor' },
  ],
  main: 'Q2',
  states: atRest,
  rooms: [
    { nodes: ['c2', 'e2'], isTransistor: true, says: 'the second collector bottoms' },
    { nodes: ['vcc', 'c2'], says: 'the second collector is cut off' },
  ],
  ends: [],
  settles: ['RF', 'RE2', 'RC1'],
}

interface Bias {
  readonly id: string
  readonly title: string
  readonly says: string
  /** What stands between the two bases. */
  readonly between: readonly TemplateResistor[]
  readonly thermistors?: readonly TemplateThermistor[]
  readonly hasDiode?: boolean
  readonly feedbackOhm: number
}

/**
 * How much of the rise of an output transistor warms what stands on its heat sink: a diode or a thermistor that is
 * clipped on follows it by about half. The other half of the pair carries the same current and rises as far.
 * `common practice`
 */
const followsSink = 0.5

/** A complementary output pair with its driver, by what holds the two bases apart. */
const pushPull = ({ between, thermistors = [], hasDiode = false, feedbackOhm, ...names }: Bias): Template => ({
  ...names,
  supplyV: 9,
  sources: supply,
  resistors: [
    { ref: 'RED', nodes: ['ed', '0'], ohm: 33, role: 'driver emitter resistor', absent: 'wire' },
    { ref: 'RFB', nodes: ['mid', 'bd'], ohm: 22e3, role: 'feedback from the middle' },
    { ref: 'RBD', nodes: ['bd', '0'], ohm: feedbackOhm, role: 'driver base, to the common line' },
    { ref: 'RL', nodes: ['vcc', 'bn'], ohm: 680, role: 'driver load' },
    ...between,
    { ref: 'REN', nodes: ['en', 'mid'], ohm: 1, role: 'upper emitter resistor', absent: 'wire' },
    { ref: 'REP', nodes: ['mid', 'ep'], ohm: 1, role: 'lower emitter resistor', absent: 'wire' },
  ],
  thermistors,
  places: [
    { ref: 'Q1', kind: 'Q', nodes: ['vcc', 'bn', 'en'], role: 'upper output transistor' },
    { ref: 'Q2', kind: 'Q', nodes: ['0', 'bp', 'ep'], isOpposite: true, role: 'lower output transistor' },
    { ref: 'Q3', kind: 'Q', nodes: ['bp', 'bd', 'ed'], role: 'driver' },
    ...(hasDiode ? [{ ref: 'D1', kind: 'D' as const, nodes: ['x', 'bp'], role: 'bias diode' }] : []),
  ],
  main: 'Q1',
  states: atRest,
  rooms: [
    { nodes: ['vcc', 'mid'], isTransistor: true, says: 'the middle stands too near the supply' },
    { nodes: ['mid', '0'], isTransistor: true, says: 'the middle stands too near the common line' },
  ],
  ends: [],
  settles: ['RB12', 'RBD'],
  heats: {
    Q1: { Q2: 1, ...sensed(thermistors, hasDiode) },
    Q2: { Q1: 1, ...sensed(thermistors, hasDiode) },
  },
})

const sensed = (thermistors: readonly TemplateThermistor[], hasDiode: boolean): Readonly<Record<string, number>> =>
  Object.fromEntries([...thermistors.map((t) => t.ref), ...(hasDiode ? ['D1'] : [])].map((ref) => [ref, followsSink]))

/** Stages of two and more transistors, coupled without capacitors. */
export const pairTemplates: readonly Template[] = [
  pair,
  pushPull({
    id: 'push-pull',
    title: 'class-B push-pull with a bias resistor',
    says: 'A resistor between the bases sets the standing current; nothing follows the temperature.',
    between: [{ ref: 'RB12', nodes: ['bn', 'bp'], ohm: 51, role: 'standing current' }],
    feedbackOhm: 2200,
  }),
  pushPull({
    id: 'push-pull-diode',
    title: 'class-B push-pull with a bias diode',
    says: 'A diode on the heat sink of the output pair takes back standing current as it warms.',
    between: [{ ref: 'RB12', nodes: ['bn', 'x'], ohm: 10, role: 'standing current', absent: 'wire' }],
    hasDiode: true,
    feedbackOhm: 3300,
  }),
  pushPull({
    id: 'push-pull-thermistor',
    title: 'class-B push-pull with a thermistor',
    says: 'A thermistor across the bias resistor takes back standing current as it warms.',
    between: [{ ref: 'RB12', nodes: ['bn', 'bp'], ohm: 100, role: 'standing current' }],
    thermistors: [{ ref: 'NTC', nodes: ['bn', 'bp'], ohm: 100, betaK: 3000, role: 'thermistor across the bias' }],
    feedbackOhm: 2200,
  }),
]
