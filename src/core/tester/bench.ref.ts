import type { Circuit, Movement, Range, Tester } from './tester.ts'

/** An invented needle tester with every kind of range, for checks. */

export const movement: Movement = {
  fullScaleA: 100e-6,
  coilOhm: 1100,
  copperPerK: 0,
  atC: 20,
  classPercent: 2,
  zero: 'left',
  readable: 0.2,
}

export const range = (
  id: string,
  fullScale: number,
  circuit: Circuit,
  measures: Range['measures'] = 'current',
): Range => ({
  id,
  measures,
  fullScale,
  circuit,
})

export const bench: Tester = {
  format: 'germane/tester/1',
  id: 'bench',
  name: 'Bench tester',
  kind: 'needle',
  polarities: ['NPN', 'PNP'],
  movement,
  scales: [
    { id: '100', divisions: 50, end: 100 },
    { id: '30', divisions: 30, end: 30 },
  ],
  ranges: [
    range('100 uA', 100e-6, { kind: 'movement' }),
    range('1 mA', 1e-3, { kind: 'shunt', shuntOhm: 122.2222222, tolerance: 0.01, contactOhm: 0 }),
    range('10 mA', 10e-3, { kind: 'shunt', shuntOhm: 11.1111111, tolerance: 0.01, contactOhm: 0.05 }),
    range('5 mA', 5e-3, { kind: 'universal', ringOhm: 2400, tapOhm: 70, tolerance: 0.01 }),
    range('50 mA', 50e-3, { kind: 'universal', ringOhm: 2400, tapOhm: 7, tolerance: 0.01 }),
    range('1 V', 1, { kind: 'multiplier', seriesOhm: 8900, tolerance: 0.01 }, 'voltage'),
    range('panel', 1, { kind: 'stated', ofReading: 0.01, ofRange: 0.02, counts: 0, step: 1e-3 }),
    range('old', 3, { kind: 'unknown', assumed: 0.1, step: 1e-3 }),
  ],
  supplies: [],
  gain: { kind: 'none' },
  tests: [
    { reads: 'I_CEO', ranges: ['100 uA', '1 mA', '10 mA', '5 mA', '50 mA', 'panel', 'old'] },
    { reads: 'V_BE', ranges: ['1 V'] },
  ],
  limits: { maxCurrentA: 1, maxVoltageV: 30 },
}
