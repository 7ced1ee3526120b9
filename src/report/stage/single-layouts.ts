import type { DrawnCapacitor, DrawnFlow, DrawnLead, DrawnVoltage, Layout, Spot } from './layout.ts'

const top = 34
/** Columns: base resistors, the transistor's leads, a capacitor at its emitter, the battery. */
const [left, main, bypass, cell] = [84, 176, 252, 300]
const baseY = 152
const collectorY = baseY - 30
const emitterY = baseY + 30
const tapY = emitterY + 12

const rails = (bottom: number, from: number = left): readonly (readonly Spot[])[] => [
  [
    [from, top],
    [cell, top],
  ],
  [
    [left, bottom],
    [cell, bottom],
  ],
]

const baseWire: readonly Spot[] = [
  [left, baseY],
  [main - 38, baseY],
]
const emitterWire: readonly Spot[] = [
  [main, emitterY],
  [main, tapY],
]

const load: DrawnLead = { ref: 'RC', from: [main, top], to: [main, collectorY], side: 'right', flow: 'right' }
const emitterResistor = (bottom: number): DrawnLead => ({
  ref: 'RE',
  from: [main, tapY],
  to: [main, bottom],
  side: 'right',
})
const fromSupply = (ref: string): DrawnLead => ({
  ref,
  from: [left, top],
  to: [left, baseY],
  side: 'left',
  flow: 'right',
})
const toCommon = (ref: string, bottom: number): DrawnLead => ({
  ref,
  from: [left, baseY],
  to: [left, bottom],
  side: 'left',
})
const lowerA = (of: string, bottom: number): DrawnFlow => ({
  of,
  at: [left, bottom - 18],
  along: 'down',
  side: 'right',
})

const input: DrawnCapacitor = {
  path: [
    [left, baseY],
    [22, baseY],
  ],
  at: [46, baseY],
  says: 'in',
}
const output = (y: number): DrawnCapacitor => ({
  path: [
    [main, y],
    [272, y],
  ],
  at: [250, y],
  says: 'out',
})
const across = (bottom: number): DrawnCapacitor => ({
  path: [
    [main, tapY],
    [bypass, tapY],
    [bypass, bottom],
  ],
  at: [bypass, (tapY + bottom) / 2],
})

const baseV: DrawnVoltage = { node: 'b', at: [left + 5, baseY - 8], anchor: 'start' }
const collectorV: DrawnVoltage = { node: 'c', at: [main + 6, collectorY - 6], anchor: 'start' }
const emitterV: DrawnVoltage = { node: 'e', at: [main - 6, emitterY + 16], anchor: 'end' }
const baseA: DrawnFlow = { of: 'Q1.b', at: [(left + main - 38) / 2 + 2, baseY], along: 'right', side: 'below' }
const emitterA = (y: number): DrawnFlow => ({ of: 'Q1.e', at: [main, y], along: 'up', side: 'right' })

const single = (bottom: number, more: Partial<Layout>): Layout => ({
  height: bottom + 34,
  wires: [...rails(bottom), baseWire, emitterWire],
  leads: [],
  transistors: [{ ref: 'Q1', at: [main - 8, baseY] }],
  capacitors: [input, output(collectorY)],
  voltages: [baseV, collectorV],
  flows: [baseA],
  earth: [left, bottom],
  battery: { from: [cell, top], to: [cell, bottom], side: 'right' },
  ...more,
})

const [short, tall] = [262, 314]

/** Drawings of the stages of one transistor, by the id of their template. */
export const singleLayouts: Readonly<Record<string, Layout>> = {
  'fixed-bias': single(short, {
    wires: [
      ...rails(short),
      baseWire,
      [
        [main, emitterY],
        [main, short],
      ],
    ],
    leads: [fromSupply('RB'), load],
  }),
  'emitter-resistor': single(tall, {
    leads: [fromSupply('RB'), load, emitterResistor(tall)],
    capacitors: [input, output(collectorY), across(tall)],
    voltages: [baseV, collectorV, emitterV],
    flows: [baseA, emitterA(tall - 18)],
  }),
  divider: single(tall, {
    leads: [fromSupply('R1'), toCommon('R2', tall), load, emitterResistor(tall)],
    capacitors: [input, output(collectorY), across(tall)],
    voltages: [baseV, collectorV, emitterV],
    flows: [baseA, lowerA('R2', tall), emitterA(tall - 18)],
  }),
  'collector-feedback': single(tall, {
    wires: [
      ...rails(tall, main),
      baseWire,
      emitterWire,
      [
        [left, baseY - 44],
        [left, baseY],
      ],
      [
        [main, baseY - 44],
        [main, collectorY],
      ],
    ],
    leads: [
      { ref: 'RF', from: [main, baseY - 44], to: [left, baseY - 44], side: 'above' },
      { ...load, to: [main, baseY - 44] },
      emitterResistor(tall),
    ],
    capacitors: [input, output(baseY - 44)],
    voltages: [baseV, { node: 'c', at: [main + 6, baseY - 50], anchor: 'start' }, emitterV],
    flows: [baseA, emitterA(tall - 18)],
  }),
  follower: single(tall, {
    wires: [
      ...rails(tall),
      baseWire,
      emitterWire,
      [
        [main, top],
        [main, collectorY],
      ],
    ],
    leads: [fromSupply('R1'), toCommon('R2', tall), emitterResistor(tall)],
    capacitors: [input, output(tapY)],
    voltages: [baseV, { node: 'e', at: [main + 8, tapY - 6], anchor: 'start' }],
    flows: [
      baseA,
      { of: 'Q1.c', at: [main, 70], along: 'down', side: 'right' },
      lowerA('R2', tall),
      emitterA(tall - 18),
    ],
  }),
}
