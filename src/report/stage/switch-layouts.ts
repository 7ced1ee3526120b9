import type { Layout, Spot } from './layout.ts'

const line = (...spots: readonly Spot[]): readonly Spot[] => spots

/** Drawings of switches and the detector, by the id of their template. */
export const switchLayouts: Readonly<Record<string, Layout>> = {
  switch: {
    height: 296,
    wires: [
      line([176, 34], [300, 34]),
      line([100, 262], [300, 262]),
      line([100, 152], [138, 152]),
      line([176, 182], [176, 262]),
    ],
    leads: [
      { ref: 'RB', from: [24, 152], to: [100, 152], side: 'below' },
      { ref: 'RC', from: [176, 34], to: [176, 122], side: 'right', flow: 'right' },
      { ref: 'RBE', from: [100, 152], to: [100, 262], side: 'left' },
    ],
    transistors: [{ ref: 'Q1', at: [168, 152] }],
    capacitors: [],
    voltages: [
      { node: 'd', at: [6, 140], anchor: 'start' },
      { node: 'b', at: [148, 142], anchor: 'end' },
      { node: 'c', at: [184, 118], anchor: 'start' },
    ],
    flows: [{ of: 'Q1.b', at: [124, 152], along: 'right', side: 'below' }],
    earth: [100, 262],
    battery: { from: [300, 34], to: [300, 262], side: 'right' },
    drive: { at: [24, 152] },
  },
  detector: {
    height: 232,
    wires: [line([60, 198], [316, 198]), line([230, 62], [250, 62])],
    leads: [
      { ref: 'RS', from: [60, 62], to: [150, 62], side: 'above' },
      { ref: 'D1', from: [150, 62], to: [230, 62], side: 'above' },
      { ref: 'RL', from: [250, 62], to: [250, 198], side: 'left', flow: 'left' },
    ],
    transistors: [],
    capacitors: [{ path: line([250, 62], [316, 62], [316, 198]), at: [316, 130] }],
    voltages: [
      { node: 'a', at: [54, 56], anchor: 'end' },
      { node: 'in', at: [150, 80], anchor: 'middle' },
      { node: 'out', at: [258, 54], anchor: 'start' },
    ],
    flows: [],
    earth: [60, 198],
    drive: { at: [60, 62], to: [60, 198] },
  },
}
