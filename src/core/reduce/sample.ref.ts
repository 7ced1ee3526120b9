import type { PartType } from '#core/device'
import type { Range, Reading, ReadingKind, Tester } from '#core/tester'

/** Invented testers and types for tests. */

const range = (id: string, fullScale: number): Range => ({
  id,
  measures: 'current',
  fullScale,
  circuit:
    fullScale === 50e-6
      ? { kind: 'movement' }
      : { kind: 'shunt', shuntOhm: (50e-6 * 2000) / (fullScale - 50e-6), tolerance: 0.01, contactOhm: 0 },
})

const currents = ['50 uA', '250 uA', '1 mA', '10 mA', '50 mA']

/** A needle tester: shunts, gain dial, base current, cells of 1.5 V. */
export const needleTester: Tester = {
  format: 'germane/tester/1',
  id: 'willow',
  name: 'Willow 2',
  kind: 'needle',
  polarities: ['NPN', 'PNP'],
  movement: {
    fullScaleA: 50e-6,
    coilOhm: 2000,
    copperPerK: 0.0039,
    atC: 20,
    classPercent: 1.5,
    zero: 'left',
    readable: 0.2,
  },
  scales: [{ id: '50', divisions: 50, end: 50 }],
  ranges: [
    range('50 uA', 50e-6),
    range('250 uA', 250e-6),
    range('1 mA', 1e-3),
    range('10 mA', 10e-3),
    range('50 mA', 50e-3),
  ],
  supplies: [{ id: 'cells', kind: 'cells', taps: [1.5, 4.5, 9], ohmPerCell: 0.3, cellV: 1.5, tolerance: 0.02 }],
  gain: {
    kind: 'dial',
    spans: [
      { id: '200', from: 5, to: 200 },
      { id: '1000', from: 50, to: 1000 },
    ],
    tolerance: 0.03,
    readable: 0.005,
    nullWithin: 0.01,
    collectorA: [0.5e-3, 50e-3],
  },
  tests: (['I_CEO', 'I_CBO', 'I_CES', 'I_EBO', 'I_C', 'I_B', 'I_R', 'I_F'] as const).map((reads) => ({
    reads,
    ranges: currents,
    supply: 'cells',
  })),
  limits: { maxCurrentA: 0.05, maxVoltageV: 9 },
}

/** A digital meter, for voltages and small currents. */
export const meterTester: Tester = {
  format: 'germane/tester/1',
  id: 'heron',
  name: 'Heron',
  kind: 'digital',
  polarities: ['NPN', 'PNP'],
  scales: [],
  ranges: [
    {
      id: '200 uA',
      measures: 'current',
      fullScale: 200e-6,
      circuit: { kind: 'stated', ofReading: 0.005, ofRange: 0, counts: 2, step: 0.1e-6 },
    },
    {
      id: '20 mA',
      measures: 'current',
      fullScale: 20e-3,
      circuit: { kind: 'stated', ofReading: 0.005, ofRange: 0, counts: 2, step: 10e-6 },
    },
    {
      id: '2 V',
      measures: 'voltage',
      fullScale: 2,
      circuit: { kind: 'stated', ofReading: 0.002, ofRange: 0, counts: 1, step: 1e-3 },
    },
  ],
  supplies: [{ id: 'bench', kind: 'external', taps: [], min: 0, max: 30, ohmPerCell: 0, cellV: 1, tolerance: 0.005 }],
  gain: { kind: 'ratio', maxBaseA: 200e-6, collectorA: [1e-4, 20e-3] },
  tests: [
    ...(['I_CEO', 'I_CBO', 'I_B', 'I_R'] as const).map((reads) => ({ reads, ranges: ['200 uA'] })),
    ...(['I_C', 'I_F'] as const).map((reads) => ({ reads, ranges: ['20 mA', '200 uA'] })),
    ...(['V_BE', 'V_F', 'V_CE(sat)'] as const).map((reads) => ({ reads, ranges: ['2 V'] })),
  ],
  limits: { maxCurrentA: 0.02, maxVoltageV: 30 },
}

const record = { family: 'bjt', provenance: { kind: 'own', where: ['invented for tests'] } } as const

/** A germanium audio type. */
export const germaniumType: PartType = {
  ...record,
  type: 'GX41',
  polarity: 'PNP',
  material: 'Ge',
  ratings: { V_CBO: 30, V_CEO: 15, T_Jmax: 75, R_thJA: 300, power: [] },
  limits: [
    { symbol: 'h_FE', min: 40, max: 120, unit: '1', at: { I_C: 1e-3, V_CE: 4.5 } },
    { symbol: 'I_CBO', max: 10e-6, unit: 'A', at: { V_CB: 4.5, T: 25 } },
    { symbol: 'I_CEO', max: 400e-6, unit: 'A', at: { V_CE: 4.5, T: 25 } },
  ],
}

/** A small silicon type with a published gain of 100 to 300 at 10 mA. */
export const siliconType: PartType = {
  ...record,
  type: 'SX12',
  polarity: 'NPN',
  material: 'Si',
  ratings: { V_CBO: 40, V_CEO: 30, T_Jmax: 150, R_thJA: 300, power: [] },
  limits: [
    { symbol: 'h_FE', min: 100, max: 300, unit: '1', at: { I_C: 10e-3, V_CE: 4.5 } },
    { symbol: 'I_CBO', max: 100e-9, unit: 'A', at: { V_CB: 20, T: 25 } },
  ],
}

/** A signal diode. */
export const diodeType: PartType = {
  ...record,
  family: 'diode',
  type: 'DX7',
  material: 'Si',
  ratings: { V_R: 50, T_Jmax: 150, power: [] },
  limits: [{ symbol: 'V_F', max: 1, unit: 'V', at: { I_F: 10e-3 } }],
}

const types = [germaniumType, siliconType, diodeType]
export const typeNamed = (name: string): PartType | undefined => types.find((t) => t.type === name)

const unitOf = (reads: ReadingKind): 'A' | 'V' | '1' => (reads === 'h_FE' ? '1' : reads.startsWith('V') ? 'V' : 'A')

/** A reading typed as a value. */
export const read = (part: string, reads: ReadingKind, value: number, more: Partial<Reading> = {}): Reading => ({
  part,
  reads,
  shown: { kind: 'value', value, unit: unitOf(reads) },
  seen: String(value),
  point: 1,
  ambientC: 22,
  ambientU: 0.5,
  ...more,
})

/** A reading that gave a state. */
export const state = (
  part: string,
  reads: ReadingKind,
  what: 'clear' | 'short' | 'open' | 'over' | 'no null',
  more: Partial<Reading> = {},
): Reading => ({ part, reads, shown: { kind: 'state', state: what }, seen: what, point: 1, ...more })
