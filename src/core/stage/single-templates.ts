import type { Room, Template } from './template.ts'

const supply = [{ ref: 'VCC', node: 'vcc' }] as const
const atRest = [{ name: 'at rest', drive: 0 }] as const

/** One transistor that works at rest: nothing driven, no thermistor. */
const single = {
  sources: supply,
  thermistors: [],
  main: 'Q1',
  states: atRest,
  ends: [],
} as const satisfies Partial<Template>

const transistor = (emitter: string) =>
  [{ ref: 'Q1', kind: 'Q', nodes: ['c', 'b', emitter], role: 'amplifier' }] as const

/** Room of a stage with its load in the collector. */
const collectorRooms = (emitter: string): readonly Room[] => [
  { nodes: ['c', emitter], isTransistor: true, says: 'the collector bottoms' },
  { nodes: ['vcc', 'c'], says: 'the collector is cut off' },
]

const load = { ref: 'RC', nodes: ['vcc', 'c'], ohm: 3300, role: 'collector load' } as const

/** Stages of one transistor. */
export const singleTemplates: readonly Template[] = [
  {
    ...single,
    id: 'fixed-bias',
    title: 'fixed bias',
    says: 'One resistor from the supply sets the base current. Gain and leakage go straight to the collector.',
    supplyV: 9,
    resistors: [{ ref: 'RB', nodes: ['vcc', 'b'], ohm: 680e3, role: 'base current' }, load],
    places: transistor('0'),
    rooms: collectorRooms('0'),
    bias: { rb: ['RB'], re: [] },
    settles: ['RB'],
  },
  {
    ...single,
    id: 'emitter-resistor',
    title: 'fixed bias with emitter resistor',
    says: 'The emitter resistor takes back a part of what gain and leakage add.',
    supplyV: 9,
    resistors: [
      { ref: 'RB', nodes: ['vcc', 'b'], ohm: 390e3, role: 'base current' },
      { ...load, ohm: 2200 },
      { ref: 'RE', nodes: ['e', '0'], ohm: 680, role: 'emitter resistor' },
    ],
    places: transistor('e'),
    rooms: collectorRooms('e'),
    bias: { rb: ['RB'], re: ['RE'] },
    settles: ['RB', 'RE'],
  },
  {
    ...single,
    id: 'divider',
    title: 'four-resistor divider',
    says: 'A divider holds the base, the emitter resistor the current: the usual stage of radios and amplifiers.',
    supplyV: 9,
    resistors: [
      { ref: 'R1', nodes: ['vcc', 'b'], ohm: 33e3, role: 'divider, to the supply' },
      { ref: 'R2', nodes: ['b', '0'], ohm: 6800, role: 'divider, to the common line' },
      { ...load, ohm: 2700 },
      { ref: 'RE', nodes: ['e', '0'], ohm: 1000, role: 'emitter resistor' },
    ],
    places: transistor('e'),
    rooms: collectorRooms('e'),
    bias: { rb: ['R1', 'R2'], re: ['RE'] },
    settles: ['R1', 'R2', 'RE'],
  },
  {
    ...single,
    id: 'collector-feedback',
    title: 'collector feedback',
    says: 'The base resistor comes from the collector: more current leaves it less voltage.',
    supplyV: 6,
    resistors: [
      { ref: 'RF', nodes: ['c', 'b'], ohm: 220e3, role: 'feedback to the base' },
      { ...load, ohm: 2200 },
      { ref: 'RE', nodes: ['e', '0'], ohm: 100, role: 'emitter resistor', absent: 'wire' },
    ],
    places: transistor('e'),
    rooms: collectorRooms('e'),
    bias: { rb: ['RF'], re: ['RC', 'RE'] },
    settles: ['RF', 'RE'],
  },
  {
    ...single,
    id: 'follower',
    title: 'emitter follower',
    says: 'The load is in the emitter; the output follows the base.',
    supplyV: 9,
    resistors: [
      { ref: 'R1', nodes: ['vcc', 'b'], ohm: 47e3, role: 'divider, to the supply' },
      { ref: 'R2', nodes: ['b', '0'], ohm: 56e3, role: 'divider, to the common line', absent: 'nothing' },
      { ref: 'RE', nodes: ['e', '0'], ohm: 2200, role: 'emitter load' },
    ],
    places: [{ ref: 'Q1', kind: 'Q', nodes: ['vcc', 'b', 'e'], role: 'follower' }],
    rooms: [
      { nodes: ['vcc', 'e'], isTransistor: true, says: 'the transistor bottoms' },
      { nodes: ['e', '0'], says: 'the emitter is cut off' },
    ],
    bias: { rb: ['R1', 'R2'], re: ['RE'] },
    settles: ['R1', 'R2', 'RE'],
  },
]
