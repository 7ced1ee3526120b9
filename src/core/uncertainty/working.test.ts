import { describe, expect, test } from 'vitest'
import { type AnyFormula, derive, exact, formula, leaf, limitTerm, term } from '#core/quantity'
import { working, workingText } from './working.ts'

const trueGain = formula({
  id: 'example/true-gain',
  version: 1,
  text: 'h_FE = (I_C - I_CEO) / I_B',
  unit: '1',
  inputs: { ic: 'A', iceo: 'A', ib: 'A' },
  symbols: { ic: 'I_C', iceo: 'I_CEO', ib: 'I_B' },
  source: { title: 'IEC 60747-7', where: 'definition of I_CEO', standing: 'from memory' },
  evaluate: ({ ic, iceo, ib }) => (ic - iceo) / ib,
  domain: { ic: [1e-4, 1], iceo: [0, 1e-3], ib: [1e-6, 1e-2] },
})

const byShunt = formula({
  id: 'example/shunt',
  version: 2,
  text: 'I_C = V_M / R_S',
  unit: 'A',
  inputs: { v: 'V', r: 'ohm' },
  symbols: { v: 'V_M', r: 'R_S' },
  source: { title: "Ohm's law" },
  evaluate: ({ v, r }) => v / r,
  domain: { v: [0, 1], r: [0.1, 1e4] },
})

const formulas = new Map<string, AnyFormula>([trueGain, byShunt].map((f) => [f.id, f]))

const ic = derive(byShunt, {
  v: leaf(0.102, 'V', { kind: 'read', what: 'voltage across the shunt', seen: '51 div' }, [
    limitTerm('class', 'class 2 movement', 0.002),
  ]),
  r: leaf(
    100,
    'ohm',
    { kind: 'stated', what: 'shunt', source: { title: 'tester description', standing: 'common practice' } },
    [limitTerm('shunt', 'shunt of 1 %', 1)],
  ),
})
const gain = derive(trueGain, {
  ic,
  iceo: leaf(150e-6, 'A', { kind: 'read', what: 'leakage', seen: '7.5 div' }, [
    term('leakage', { label: 'reading of the leakage', u: 6e-6 }),
  ]),
  ib: leaf(10e-6, 'A', { kind: 'assumed', what: 'base current', why: 'set by the dial' }, [
    term('dial', { label: 'base dial', u: 1e-7 }),
  ]),
})

test('the working shows formula, numbers, result, budget and what went in', () => {
  expect(workingText(working(gain, formulas))).toEqual([
    'h_FE: 87.0(17)',
    '  h_FE = (I_C - I_CEO) / I_B',
    '  h_FE = (1.02 mA - 150 µA) / 10 µA',
    '  95 % interval 83.8 to 90.2',
    '  source: IEC 60747-7, definition of I_CEO (from memory) [example/true-gain, version 1]',
    '  budget:',
    '     1.2   48 %  class 2 movement',
    '    0.87   27 %  base dial',
    '    0.60   13 %  reading of the leakage',
    '    0.59   12 %  shunt of 1 %',
    '  I_C = 1.020(13) mA  (I_C; I_C = 102 mV / 100 Ω)',
    '    V_M = 102.0(12) mV  (voltage across the shunt; read: 51 div)',
    '    R_S = 100.0(6) Ω  (shunt; stated: tester description (common practice))',
    '  I_CEO = 150(6) µA  (leakage; read: 7.5 div)',
    '  I_B = 10.00(10) µA  (base current; taken for granted: set by the dial)',
  ])
})

describe('working as data', () => {
  const w = working(gain, formulas)
  test('budget shares add up to the whole, largest first', () => {
    expect(w.budget.reduce((sum, l) => sum + l.percent, 0)).toBeCloseTo(100, 9)
    const sizes = w.budget.map((l) => Math.abs(l.contribution))
    expect(sizes).toEqual(sizes.toSorted((a, b) => b - a))
  })
  test('is plain JSON, nested as the derivation is', () => {
    expect(JSON.parse(JSON.stringify(w))).toEqual(w)
    expect(w.inputs.map((i) => i.symbol)).toEqual(['I_C', 'I_CEO', 'I_B'])
    expect(w.inputs[0]!.working.formula?.id).toBe('example/shunt')
    expect(w.inputs[1]!.working).toMatchObject({ known: 'read: 7.5 div', inputs: [] })
  })
  test('correlated causes: the shares still add up, and one may be negative', () => {
    const correlations = [{ a: 'leakage', b: 'class', r: 0.9 }]
    const w = working({ ...gain, correlations }, formulas)
    expect(w.budget.reduce((sum, l) => sum + l.percent, 0)).toBeCloseTo(100, 9)
    expect(w.budget.find((l) => l.cause === 'leakage')!.percent).toBeLessThan(0)
  })
  test('a value without doubt has no interval and no budget to show', () => {
    expect(workingText(working(exact(4.5, 'V', 'collector supply'), formulas))).toEqual([
      'collector supply: 4.5 V',
      '  stated',
    ])
  })
  test('a negative number is put in with its sign in parentheses', () => {
    const q = derive(byShunt, { v: exact(-0.1, 'V', 'V'), r: exact(10, 'ohm', 'R') })
    expect(working(q, formulas).formula?.putIn).toBe('I_C = (-100 mV) / 10 Ω')
  })
  test('a formula that is not known is named', () => {
    expect(() => working(gain, new Map())).toThrow('No formula is called example/true-gain.')
  })
})
