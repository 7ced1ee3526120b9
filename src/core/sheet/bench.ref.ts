import type { PartType } from '#core/device'
import type { Range, Tester } from '#core/tester'

/** Invented testers and invented part types for tests; the types are of the kinds met on a bench, no maker's. */

const shunt = (id: string, fullScale: number): Range => ({
  id,
  measures: 'current',
  fullScale,
  scale: 'lower',
  circuit: {
    kind: 'shunt',
    shuntOhm: (100e-6 * 1000) / (fullScale - 100e-6),
    tolerance: 0.01,
    contactOhm: 0,
  },
})

const volts = (id: string, fullScale: number): Range => ({
  id,
  measures: 'voltage',
  fullScale,
  scale: 'lower',
  circuit: { kind: 'multiplier', seriesOhm: fullScale / 100e-6 - 1000, tolerance: 0.01 },
})

const currents = ['1mA', '10mA', '100mA', '1A', '15A']

/** A needle tester with one movement that reads collector and base current in turn. */
export const ratioTester: Tester = {
  format: 'germane/tester/1',
  id: 'ratio-bench',
  name: 'Ratio bench',
  kind: 'needle',
  polarities: ['NPN', 'PNP'],
  movement: {
    fullScaleA: 100e-6,
    coilOhm: 1000,
    copperPerK: 0.0039,
    atC: 20,
    classPercent: 2,
    zero: 'left',
    readable: 0.2,
  },
  scales: [{ id: 'lower', divisions: 50, end: 50 }],
  ranges: [
    { id: '100uA', measures: 'current', fullScale: 100e-6, scale: 'lower', circuit: { kind: 'movement' } },
    shunt('1mA', 1e-3),
    shunt('10mA', 10e-3),
    shunt('100mA', 0.1),
    shunt('1A', 1),
    shunt('15A', 15),
    volts('500mV', 0.5),
    volts('5V', 5),
  ],
  supplies: [
    { id: 'cells', kind: 'cells', taps: [1.5, 3, 4.5, 9], ohmPerCell: 0.05, cellV: 1.5, tolerance: 0.03, maxA: 15 },
    {
      id: 'outside',
      kind: 'external',
      taps: [],
      min: 1,
      max: 100,
      ohmPerCell: 100,
      cellV: 1,
      tolerance: 0.02,
      maxA: 0.1,
    },
  ],
  gain: { kind: 'ratio', maxBaseA: 0.5, collectorA: [100e-6, 15] },
  tests: [
    { reads: 'short', ranges: ['15A'], supply: 'cells' },
    { reads: 'I_CBO', ranges: ['100uA', '1mA', '10mA'], supply: 'cells' },
    { reads: 'I_CEO', ranges: ['100uA', '1mA', '10mA', '100mA'], supply: 'cells' },
    { reads: 'I_CES', ranges: ['100uA', '1mA', '10mA'], supply: 'outside' },
    { reads: 'I_EBO', ranges: ['100uA', '1mA'], supply: 'cells' },
    { reads: 'I_C', ranges: currents, supply: 'cells' },
    { reads: 'I_B', ranges: ['100uA', ...currents], supply: 'cells' },
    { reads: 'V_BE', ranges: ['500mV', '5V'], supply: 'cells' },
    { reads: 'V_CE(sat)', ranges: ['500mV', '5V'], supply: 'cells', seriesOhm: 100 },
    { reads: 'V_F', ranges: ['500mV', '5V'], supply: 'cells' },
    { reads: 'I_F', ranges: currents, supply: 'cells' },
    { reads: 'I_R', ranges: ['100uA', '1mA', '10mA'], supply: 'outside' },
  ],
  limits: { maxCurrentA: 15, maxVoltageV: 100 },
  shortLooksLike: 'the needle hard against its right stop',
}

/** A needle tester with a gain dial. */
export const dialTester: Tester = {
  ...ratioTester,
  id: 'dial-box',
  name: 'Dial box',
  ranges: ratioTester.ranges.slice(0, 5),
  supplies: [{ id: 'cells', kind: 'cells', taps: [1.5, 4.5], ohmPerCell: 0.3, cellV: 1.5, tolerance: 0.03, maxA: 1 }],
  gain: {
    kind: 'dial',
    spans: [
      { id: 'low', from: 5, to: 50 },
      { id: 'middle', from: 20, to: 200 },
      { id: 'high', from: 100, to: 1000 },
    ],
    tolerance: 0.05,
    readable: 0.01,
    nullWithin: 0.02,
    collectorA: [500e-6, 0.5],
  },
  tests: [
    { reads: 'short', ranges: ['1A'], supply: 'cells', seriesOhm: 10 },
    { reads: 'I_CEO', ranges: ['100uA', '1mA', '10mA'], supply: 'cells' },
    { reads: 'h_FE', ranges: ['1mA', '10mA', '100mA', '1A'], supply: 'cells' },
  ],
  limits: { maxCurrentA: 1, maxVoltageV: 4.5 },
}

/** A tester that only displays. */
export const displayTester: Tester = {
  format: 'germane/tester/1',
  id: 'display',
  name: 'Pocket display',
  kind: 'display',
  polarities: ['NPN', 'PNP'],
  scales: [],
  ranges: [
    { id: 'gain', measures: 'current', fullScale: 2000, circuit: { kind: 'unknown', assumed: 0.1, step: 1 } },
    { id: 'volts', measures: 'voltage', fullScale: 2, circuit: { kind: 'unknown', assumed: 0.02, step: 0.01 } },
  ],
  supplies: [],
  gain: { kind: 'digital', step: 1, collectorA: 5e-3 },
  tests: [
    { reads: 'h_FE', ranges: ['gain'] },
    { reads: 'V_F', ranges: ['volts'] },
  ],
  limits: { maxCurrentA: 6e-3, maxVoltageV: 4.5 },
}

const invented = { kind: 'own', where: ['invented for a test'] } as const

/** A small germanium switching transistor: V_CEO not published, low V_CE conditions. */
export const switchingGe: PartType = {
  type: 'GX-404',
  family: 'bjt',
  polarity: 'PNP',
  material: 'Ge',
  outline: 'TO-5',
  leads: { order: 'E-B-C', view: 'from below, clockwise from the tab' },
  ratings: { V_CBO: 25, V_EBO: 12, V_PT: 24, I_C: 0.1, T_Jmax: 85, power: [{ powerW: 0.15, of: 'ambient', atC: 25 }] },
  limits: [
    { symbol: 'h_FE', min: 30, unit: '1', at: { I_C: 0.012, V_CE: 0.15 } },
    { symbol: 'h_fe', typ: 135, unit: '1', at: { I_C: 0.001, V_CE: 6, f: 1000 } },
    { symbol: 'V_CE(sat)', max: 0.15, unit: 'V', at: { I_C: 0.012, I_B: 0.0004 } },
    { symbol: 'I_CBO', max: 5e-6, unit: 'A', at: { V_CB: 12, T: 25 } },
    { symbol: 'I_CBO', max: 90e-6, unit: 'A', at: { V_CB: 12, T: 80 } },
    { symbol: 'I_EBO', max: 2.5e-6, unit: 'A', at: { V_EB: 2.5, T: 25 } },
    { symbol: 'V_(BR)CBO', min: 25, unit: 'V', at: { I_C: 2e-5 } },
    { symbol: 'f_hfb', min: 4e6, unit: 'Hz', at: { V_CB: 6, I_E: 0.001 } },
  ],
  provenance: invented,
}

/** A germanium output transistor of the one-watt class. */
export const outputGe: PartType = {
  type: 'GX-128',
  family: 'bjt',
  polarity: 'PNP',
  material: 'Ge',
  outline: 'TO-1',
  ratings: {
    V_CBO: 32,
    V_CEO: 16,
    V_EBO: 10,
    I_C: 1,
    T_Jmax: 90,
    power: [{ powerW: 0.7, of: 'ambient', atC: 25 }],
  },
  limits: [
    { symbol: 'h_FE', min: 60, typ: 90, max: 175, unit: '1', at: { I_C: 0.3, V_CE: 1 } },
    { symbol: 'I_CBO', max: 10e-6, unit: 'A', at: { V_CB: 10, T: 25 } },
  ],
  provenance: invented,
}

/** A small silicon transistor. */
export const smallSi: PartType = {
  type: 'SX-107',
  family: 'bjt',
  polarity: 'NPN',
  material: 'Si',
  outline: 'TO-18',
  leads: { order: 'E-B-C', view: 'from below, clockwise from the tab', variants: 'one maker C-B-E' },
  ratings: {
    V_CBO: 50,
    V_CEO: 45,
    V_EBO: 6,
    I_C: 0.1,
    T_Jmax: 175,
    power: [{ powerW: 0.3, of: 'ambient', atC: 25 }],
  },
  limits: [
    { symbol: 'h_FE', min: 110, typ: 180, max: 450, unit: '1', at: { I_C: 0.002, V_CE: 5 } },
    { symbol: 'I_CBO', max: 15e-9, unit: 'A', at: { V_CB: 45, T: 25 } },
    { symbol: 'V_BE(on)', min: 0.55, max: 0.7, unit: 'V', at: { I_C: 0.002, V_CE: 5 } },
    { symbol: 'V_CE(sat)', max: 0.25, unit: 'V', at: { I_C: 0.01, I_B: 0.0005 } },
    { symbol: 'f_T', min: 100e6, unit: 'Hz', at: { I_C: 0.01, V_CE: 5 } },
  ],
  provenance: invented,
}

/** A silicon power transistor of the 15 A class. */
export const powerSi: PartType = {
  type: 'SX-3055',
  family: 'bjt',
  polarity: 'NPN',
  material: 'Si',
  outline: 'TO-3',
  leads: { order: 'B-E', view: 'pins from below, case collector', caseConnected: 'C' },
  ratings: {
    V_CBO: 100,
    V_CEO: 60,
    V_EBO: 7,
    I_C: 15,
    I_B: 7,
    T_Jmax: 200,
    R_thJC: 1.52,
    power: [{ powerW: 115, of: 'case', atC: 25 }],
  },
  limits: [
    { symbol: 'h_FE', min: 20, max: 70, unit: '1', at: { I_C: 4, V_CE: 4 } },
    { symbol: 'h_FE', min: 5, unit: '1', at: { I_C: 10, V_CE: 4 } },
    { symbol: 'I_CEO', max: 0.7e-3, unit: 'A', at: { V_CE: 30, T: 25 } },
    { symbol: 'I_EBO', max: 5e-3, unit: 'A', at: { V_EB: 7, T: 25 } },
  ],
  provenance: invented,
}

/** A silicon signal diode. */
export const signalDiode: PartType = {
  type: 'SD-914',
  family: 'diode',
  material: 'Si',
  outline: 'DO-35',
  ratings: { V_R: 75, V_RRM: 100, I_F: 0.2, T_Jmax: 175, power: [{ powerW: 0.5, of: 'ambient', atC: 25 }] },
  limits: [
    { symbol: 'V_F', max: 1, unit: 'V', at: { I_F: 0.01 } },
    { symbol: 'I_R', max: 25e-9, unit: 'A', at: { V_R: 20, T: 25 } },
  ],
  provenance: invented,
}

/** A Zener diode of 3.3 V. */
export const zener: PartType = {
  type: 'ZD-3V3',
  family: 'zener',
  material: 'Si',
  outline: 'DO-35',
  ratings: { T_Jmax: 200, power: [{ powerW: 0.4, of: 'ambient', atC: 50 }] },
  limits: [
    { symbol: 'V_Z', min: 3.1, max: 3.5, unit: 'V', at: { I_Z: 0.005 } },
    { symbol: 'I_R', max: 5e-6, unit: 'A', at: { V_R: 1 } },
    { symbol: 'V_F', max: 0.9, unit: 'V', at: { I_F: 0.01 } },
  ],
  provenance: invented,
}
