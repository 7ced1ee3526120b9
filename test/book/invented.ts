import type { Outcome } from '#book'
import type { PartType } from '#core/device'
import type { Verdict } from '#core/judge'
import { derive, formula, leaf, limitTerm } from '#core/quantity'
import type { Parameter } from '#core/reduce'
import type { RunSheet } from '#core/sheet'
import type { Reading, Tester } from '#core/tester'

/** A made-up hand tester, part type, sheet, readings and results, as the tests of the book need them. */
export const handTester: Tester = {
  format: 'germane/tester/1',
  id: 'bench-hand',
  name: 'Hand tester of the tests',
  kind: 'needle',
  polarities: ['NPN', 'PNP'],
  movement: {
    fullScaleA: 50e-6,
    coilOhm: 1800,
    copperPerK: 0.00393,
    atC: 20,
    classPercent: 2.5,
    zero: 'left',
    readable: 0.25,
  },
  scales: [{ id: 'lower', divisions: 50, end: 50 }],
  ranges: [
    {
      id: '1 mA',
      measures: 'current',
      fullScale: 1e-3,
      circuit: { kind: 'shunt', shuntOhm: 94.7368, tolerance: 0.01, contactOhm: 0.01 },
    },
  ],
  supplies: [{ id: 'battery', kind: 'cells', taps: [1.5, 4.5], ohmPerCell: 0.5, cellV: 1.5, tolerance: 0.05 }],
  gain: { kind: 'none' },
  tests: [{ reads: 'I_CEO', ranges: ['1 mA'], supply: 'battery' }],
  limits: { maxCurrentA: 0.1, maxVoltageV: 10 },
}

export const alloyType: PartType = {
  type: 'GX17',
  family: 'bjt',
  polarity: 'PNP',
  material: 'Ge',
  ratings: { V_CEO: 15, I_C: 0.1, power: [{ powerW: 0.15, of: 'ambient', atC: 25 }] },
  limits: [{ symbol: 'I_CEO', max: 500e-6, unit: 'A', at: { V_CE: 4.5, T: 25 } }],
  provenance: { kind: 'own', where: ['made up for the tests'] },
}

export const sheet: RunSheet = {
  format: 'germane/sheet/1',
  tester: handTester,
  partType: alloyType,
  wishes: { ambientC: 21.5, ambientU: 0.5 },
  title: 'Leakage of GX17',
  steps: [],
  gaps: [{ symbol: 'h_FE', why: 'this tester reads no gain' }],
  cautions: [],
} as RunSheet

/** A time of the tests: minutes after a fixed morning. */
export const atMinute = (minute: number): string =>
  new Date(Date.UTC(2026, 4, 2, 9, 0, 0) + minute * 60_000).toISOString()

/** A reading of leakage, `divisions` up the scale. */
export const leakageReading = (part: string, divisions: number, more: Partial<Reading> = {}): Reading => ({
  part,
  type: 'GX17',
  reads: 'I_CEO',
  shown: { kind: 'deflection', divisions },
  seen: `${divisions} div`,
  range: '1 mA',
  scale: 'lower',
  point: 1,
  supplyV: 4.5,
  ambientC: 21.5,
  ambientU: 0.5,
  at: atMinute(1),
  ...more,
})

/** `count` readings of `parts` parts, each different. */
export const manyReadings = (count: number, parts: number): Reading[] =>
  Array.from({ length: count }, (_, i) =>
    leakageReading(`L${(i % parts) + 1}`, (i % 500) / 10, { point: Math.floor(i / parts) + 1 }),
  )

/** Current of a deflection on the 1 mA range: a law of the tests alone. */
const currentOfDeflection = formula({
  id: 'book-test/current-of-deflection',
  version: 1,
  text: 'I = d × 20 µA',
  unit: 'A',
  inputs: { d: '1' },
  symbols: { d: 'd' },
  source: { title: 'made up for the tests' },
  evaluate: ({ d }) => d * 20e-6,
  partials: () => ({ d: 20e-6 }),
  domain: { d: [0, 50] },
})

/** Results as a bench would compute them from the readings, one part after the other. */
export function outcomesOf(readings: readonly Reading[]): Outcome[] {
  const parts = [...new Set(readings.map((reading) => reading.part))]
  return parts.map((part) => outcomeOf(readings.filter((reading) => reading.part === part)))
}

function outcomeOf(readings: readonly Reading[]): Outcome {
  const parameters = readings.map(leakageOf)
  const { part } = readings[0]!
  return {
    result: { part, type: 'GX17', state: 'measured', parameters, doubts: [] },
    verdicts: parameters.map(verdictOn),
  }
}

function leakageOf(reading: Reading): Parameter {
  const divisions = reading.shown.kind === 'deflection' ? reading.shown.divisions : Number.NaN
  const seen = leaf(divisions, '1', { kind: 'read', what: 'needle', seen: reading.seen }, [
    limitTerm(`reading:${reading.part}/${reading.point}`, 'reading the needle', 0.25),
    limitTerm('bench-hand/movement', 'class 2.5 movement', 1.25),
  ])
  return {
    part: reading.part,
    type: 'GX17',
    symbol: 'I_CEO',
    quantity: derive(currentOfDeflection, { d: seen }),
    conditions: { V_CE: 4.5 },
    temperatureC: 21.5,
    temperatureU: 0.5,
    points: [reading.point],
    standing: 'measured',
    doubts: [],
  }
}

function verdictOn(parameter: Parameter): Verdict {
  const conforms = parameter.quantity.value < 500e-6
  return {
    part: parameter.part,
    symbol: 'I_CEO',
    limit: alloyType.limits[0]!,
    conditions: parameter.conditions,
    verdict: conforms ? 'conforms' : 'does not conform',
    probability: conforms ? 0.99 : 0.01,
    why: 'compared as measured',
    rule: { kind: 'guarded', probability: 0.95 },
    source: 'own record',
  }
}
