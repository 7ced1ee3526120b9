import type { Template } from './template.ts'

/** Stages that are on or off, and the detector, which is on for one half of the wave. */
export const switchTemplates: readonly Template[] = [
  {
    id: 'switch',
    title: 'switch, or one half of a multivibrator',
    says: 'The base resistor drives the transistor into saturation; undriven, only its leakage flows.',
    supplyV: 6,
    sources: [
      { ref: 'VCC', node: 'vcc' },
      { ref: 'VIN', node: 'd', isDriven: true },
    ],
    resistors: [
      { ref: 'RB', nodes: ['d', 'b'], ohm: 15e3, role: 'base drive, from the other half or the input' },
      { ref: 'RC', nodes: ['vcc', 'c'], ohm: 1000, role: 'collector load' },
      { ref: 'RBE', nodes: ['b', '0'], ohm: 22e3, role: 'takes leakage off the base', absent: 'nothing' },
    ],
    thermistors: [],
    places: [{ ref: 'Q1', kind: 'Q', nodes: ['c', 'b', '0'], role: 'switch' }],
    main: 'Q1',
    states: [
      { name: 'on', drive: 1 },
      { name: 'off', drive: 0 },
    ],
    rooms: [],
    ends: [
      { state: 'on', nodes: ['c', '0'], share: 0.1, says: 'it no longer saturates' },
      { state: 'off', nodes: ['vcc', 'c'], share: 0.2, says: 'leakage keeps it from switching off' },
    ],
    settles: ['RB', 'RBE'],
  },
  {
    id: 'detector',
    title: 'diode detector',
    says: 'The diode lets one half of the wave through to its load; leakage lets some of the other half through.',
    supplyV: 0.5,
    sources: [{ ref: 'VIN', node: 'a', isDriven: true }],
    resistors: [
      { ref: 'RS', nodes: ['a', 'in'], ohm: 1000, role: 'resistance of the last tuned circuit', absent: 'wire' },
      { ref: 'RL', nodes: ['out', '0'], ohm: 10e3, role: 'detector load' },
    ],
    thermistors: [],
    places: [{ ref: 'D1', kind: 'D', nodes: ['in', 'out'], role: 'detector' }],
    main: 'D1',
    states: [
      { name: 'forward', drive: 1 },
      { name: 'reverse', drive: -1 },
    ],
    rooms: [],
    ends: [
      { state: 'forward', nodes: ['a', 'out'], share: 0.6, says: 'too little of the signal comes through' },
      { state: 'reverse', nodes: ['0', 'out'], share: 0.1, says: 'leakage lets the other half through' },
    ],
    settles: ['RL'],
  },
]
