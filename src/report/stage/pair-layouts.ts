import type { DrawnLead, Layout, Spot } from './layout.ts'

const line = (...spots: readonly Spot[]): readonly Spot[] => spots

const top = 34
const cell = 322

const directPair: Layout = {
  height: 376,
  wires: [
    line([106, top], [cell, top]),
    line([40, 342], [cell, 342]),
    line([106, 134], [182, 134]),
    line([106, 134], [106, 144]),
    line([106, 204], [106, 268]),
    line([220, 98], [220, 104]),
    line([220, 164], [220, 254]),
    line([140, 254], [40, 254], [40, 174], [68, 174]),
  ],
  leads: [
    { ref: 'RC1', from: [106, top], to: [106, 134], side: 'left', flow: 'left' },
    { ref: 'RE1', from: [106, 268], to: [106, 342], side: 'left' },
    { ref: 'RC2', from: [220, top], to: [220, 98], side: 'right' },
    { ref: 'RE2', from: [220, 254], to: [220, 342], side: 'right' },
    { ref: 'RF', from: [220, 254], to: [140, 254], side: 'below' },
  ],
  transistors: [
    { ref: 'Q1', at: [98, 174] },
    { ref: 'Q2', at: [212, 134] },
  ],
  capacitors: [
    { path: line([40, 174], [8, 174]), at: [22, 174], says: 'in' },
    { path: line([220, 98], [302, 98]), at: [284, 98], says: 'out' },
  ],
  voltages: [
    { node: 'b1', at: [44, 226], anchor: 'start' },
    { node: 'c1', at: [145, 126], anchor: 'middle' },
    { node: 'c2', at: [226, 92], anchor: 'start' },
    { node: 'e2', at: [228, 244], anchor: 'start' },
  ],
  flows: [{ of: 'Q2.e', at: [220, 200], along: 'up', side: 'right' }],
  earth: [40, 342],
  battery: { from: [cell, top], to: [cell, 342], side: 'left' },
}

/** Columns of the output stage: feedback, driver, a second path of the bias, output pair. */
const [back, drive, beside, out] = [40, 128, 166, 236]
const upperY = 134
const midY = 219
const lowerY = 304
const driverY = 374
const bottom = 484

/** A complementary output pair; `between` stands between the two bases. */
const pushPull = (between: readonly DrawnLead[], wires: readonly (readonly Spot[])[]): Layout => ({
  height: bottom + 34,
  wires: [
    line([drive, top], [cell, top]),
    line([back, bottom], [cell, bottom]),
    line([drive, upperY], [out - 38, upperY]),
    line([drive, lowerY], [out - 38, lowerY]),
    line([drive, lowerY], [drive, driverY - 30]),
    line([out, top], [out, upperY - 30]),
    line([out, lowerY + 30], [out, bottom]),
    line([out, midY], [back, midY]),
    line([back, driverY], [drive - 38, driverY]),
    ...wires,
  ],
  leads: [
    { ref: 'RL', from: [drive, top], to: [drive, upperY], side: 'left', flow: 'left' },
    ...between,
    { ref: 'REN', from: [out, upperY + 30], to: [out, midY], side: 'right' },
    { ref: 'REP', from: [out, midY], to: [out, lowerY - 30], side: 'right' },
    { ref: 'RFB', from: [back, midY], to: [back, driverY], side: 'right' },
    { ref: 'RBD', from: [back, driverY], to: [back, bottom], side: 'right' },
    { ref: 'RED', from: [drive, driverY + 30], to: [drive, bottom], side: 'right' },
  ],
  transistors: [
    { ref: 'Q1', at: [out - 8, upperY] },
    { ref: 'Q2', at: [out - 8, lowerY], isFlipped: true },
    { ref: 'Q3', at: [drive - 8, driverY] },
  ],
  capacitors: [
    { path: line([back, driverY], [8, driverY]), at: [22, driverY], says: 'in' },
    { path: line([out, midY], [300, midY]), at: [282, midY], says: 'out' },
  ],
  voltages: [
    { node: 'bn', at: [drive + 6, upperY - 7], anchor: 'start' },
    { node: 'bp', at: [drive + 6, lowerY + 16], anchor: 'start' },
    { node: 'mid', at: [out - 8, midY - 6], anchor: 'end' },
    { node: 'bd', at: [back + 4, driverY + 25], anchor: 'start' },
  ],
  flows: [{ of: 'Q1.c', at: [out, 66], along: 'down', side: 'right' }],
  earth: [back, bottom],
  battery: { from: [cell, top], to: [cell, bottom], side: 'left' },
})

const setting: DrawnLead = { ref: 'RB12', from: [drive, upperY], to: [drive, midY - 14], side: 'left' }

/** Drawings of the stages of two and more transistors, by the id of their template. */
export const pairLayouts: Readonly<Record<string, Layout>> = {
  'direct-pair': directPair,
  'push-pull': pushPull([setting], [line([drive, midY - 14], [drive, lowerY])]),
  'push-pull-diode': pushPull(
    [setting, { ref: 'D1', from: [drive, midY + 14], to: [drive, lowerY], side: 'right' }],
    [line([drive, midY - 14], [drive, midY + 14])],
  ),
  'push-pull-thermistor': pushPull(
    [setting, { ref: 'NTC', from: [beside, upperY], to: [beside, midY - 14], side: 'right' }],
    [line([drive, midY - 14], [drive, lowerY]), line([beside, midY - 14], [beside, lowerY])],
  ),
}
