import type { PartType } from '#core/device'
import type { Tester } from '#core/tester'

/** An invented needle tester. */
export const sampleTester: Tester = {
  format: 'germane/tester/1',
  id: 'bench-needle',
  name: 'Needle tester, bench two',
  kind: 'needle',
  note: 'Cells renewed in spring',
  polarities: ['NPN', 'PNP'],
  movement: {
    fullScaleA: 50e-6,
    coilOhm: 1800,
    copperPerK: 0.0039,
    atC: 20,
    classPercent: 1.5,
    zero: 'left',
    readable: 0.2,
  },
  scales: [{ id: 'upper', divisions: 50, end: 50 }],
  ranges: [],
  supplies: [],
  gain: { kind: 'ratio', maxBaseA: 0.01, collectorA: [1e-4, 1] },
  tests: [],
  limits: { maxCurrentA: 1, maxVoltageV: 30 },
}

const memory = { kind: 'memory', confidence: 'medium', where: [] } as const

/** Part types with limits that only resemble published ones. */
export const sampleTypes: Readonly<Record<string, PartType>> = {
  AC128: {
    type: 'AC128',
    family: 'bjt',
    polarity: 'PNP',
    material: 'Ge',
    outline: 'TO-1',
    leads: { order: 'E-B-C', view: 'seen from below' },
    ratings: { V_CBO: 32, I_C: 1, power: [] },
    limits: [
      { symbol: 'h_FE', min: 60, max: 175, unit: '1', at: { I_C: 0.05, V_CE: 1, T: 25 } },
      { symbol: 'I_CBO', max: 1e-5, unit: 'A', at: { V_CB: 10, T: 25 } },
    ],
    provenance: memory,
  },
  ASY27: {
    type: 'ASY27',
    family: 'bjt',
    polarity: 'PNP',
    material: 'Ge',
    outline: 'TO-5',
    leads: { order: 'verify', view: '' },
    ratings: { V_CBO: 25, I_C: 0.2, power: [] },
    limits: [{ symbol: 'h_FE', min: 50, max: 150, unit: '1', at: { I_C: 0.02, V_CE: 0.5, T: 25 } }],
    trouble: 'Whiskers may grow from case to leads: tap the case and look for a reading that jumps.',
    provenance: memory,
  },
  OA81: {
    type: 'OA81',
    family: 'diode',
    material: 'Ge',
    ratings: { V_RRM: 115, power: [] },
    limits: [
      { symbol: 'V_F', max: 0.5, unit: 'V', at: { I_F: 0.002, T: 25 } },
      { symbol: 'I_R', max: 1.1e-5, unit: 'A', at: { V_R: 10, T: 25 } },
    ],
    provenance: {
      kind: 'read',
      confidence: 'high',
      where: ['Maker\u2019s datasheet, germanium point-contact diodes (1966), p. 2'],
    },
  },
}
