import fc from 'fast-check'
import { expect, test } from 'vitest'
import { operatingPoint } from '#core/circuit'
import { FaultError } from '#core/fault'
import { standardUncertainty } from '#core/quantity'
import { readTester, testerExample } from '#core/tester'
import { expectPrinted, expectRelative, formulaLaws } from '#core/testing'
import { type CellsWish, cellsDefaults, checkCells, testLoads, upkeepFormulas } from './index.ts'

formulaLaws(upkeepFormulas)

const wish: CellsWish = {
  kind: 'alkaline',
  count: 3,
  rest: { value: 4.5, u: 0.005 },
  restA: 0,
  loaded: { value: 4.2, u: 0.005 },
  load: { ampere: 0.5 },
  sag: cellsDefaults.sag,
  currentsA: [],
}

/** Worked example of a maker's bulletin on internal resistance (2005): 5 and 505 mA, 1.485 and 1.378 V, 0.107 V, 0.214 ohm. */
test('the dual load test of a maker of cells', () => {
  const c = checkCells({
    ...wish,
    count: 1,
    rest: { value: 1.485 },
    restA: 0.005,
    loaded: { value: 1.378 },
    load: { ampere: 0.505 },
  })
  expectPrinted(c.inner.value, '0.214')
})

/** R_in = (V_1 - V_2) R_L / V_2 (Linden's Handbook of Batteries, 9.6.6.1): 1.5 V, 1.4 V over 2.8 ohm are 0.2 ohm. */
test('the voltage-drop method with a resistor', () =>
  expectRelative(
    checkCells({ ...wish, count: 1, rest: { value: 1.5 }, loaded: { value: 1.4 }, load: { ohm: 2.8 } }).inner.value,
    0.2,
    1e-12,
  ))

test('voltages left are those of the circuit solver', () =>
  fc.assert(
    fc.property(
      fc.double({ min: 0.05, max: 2, noNaN: true }),
      fc.double({ min: 0.01, max: 1, noNaN: true }),
      fc.integer({ min: 1, max: 6 }),
      (inner, ampere, count) => {
        const emf = 1.5 * count
        const atLoad = (current: number): number =>
          operatingPoint({
            title: 'cells',
            devices: {},
            components: [
              { kind: 'B', ref: 'B', nodes: ['p', '0'], value: emf, resistance: inner * count },
              { kind: 'I', ref: 'I', nodes: ['p', '0'], value: current },
            ],
          }).nodeVoltages.p!
        if (atLoad(0.2) <= 0) return
        const c = checkCells({
          ...wish,
          count,
          rest: { value: atLoad(0) },
          loaded: { value: atLoad(0.2) },
          load: { ampere: 0.2 },
          currentsA: [ampere],
        })
        expect(Math.abs(c.loads[0]!.voltage.value - atLoad(ampere))).toBeLessThan(1e-9 * emf)
        expectRelative(c.mostA, (emf - 0.9 * count) / (inner * count), 1e-6)
        expectRelative(c.mostSteadyA, (0.1 * emf) / (inner * count), 1e-6)
      },
    ),
  ))

/** By hand: 0.3 V over 0.5 A are 0.6 ohm; 2 A would leave 3.3 V, 1.1 V a cell, 26.7 % less; 4 A would leave 2.1 V. */
test('words for loads, and doubt that both voltages share', () => {
  const c = checkCells({ ...wish, currentsA: [0.5, 2, 4] })
  expectRelative(c.inner.value, 0.6, 1e-12)
  expect(c.loads.map((l) => l.word)).toEqual(['carries', 'sags', 'cannot'])
  expectRelative(c.loads[1]!.voltage.value, 3.3, 1e-12)
  expectRelative(standardUncertainty(c.inner), (0.005 * Math.SQRT2) / 0.5, 1e-9)
  // at the load that was measured nothing of the reading at rest is left
  expectRelative(standardUncertainty(c.loads[0]!.voltage), 0.005, 1e-9)
  expect(c.state).toBe('tired')
})

test('states: fresh cells are good, low ones are to be changed', () => {
  const good = checkCells({ ...wish, rest: { value: 4.7 }, loaded: { value: 4.6 }, currentsA: [0.1] })
  expect(good.state).toBe('good')
  const low = checkCells({ ...wish, rest: { value: 3.3 }, loaded: { value: 2.9 }, currentsA: [0.1] })
  expect(low.state).toBe('change')
  expect(low.why.join(' ')).toMatch(/change all/)
  const weak = checkCells({ ...wish, loaded: { value: 3.6 }, currentsA: [3] })
  expect(weak.state).toBe('change')
})

test('the tests of a tester ask for its highest ranges, held down by series resistors and limits', () => {
  const read = readTester(testerExample, {})
  if (!read.ok) throw new FaultError(read.faults)
  const loads = testLoads(read.tester)
  const leakage = loads.find((l) => l.reads === 'I_CEO' && l.tapV === 4.5)!
  expectRelative(leakage.currentA, 4.5 / 470, 1e-12)
  const collector = loads.find((l) => l.reads === 'I_C' && l.tapV === 1.5)!
  expect(collector).toMatchObject({ range: '10 mA', currentA: 0.01 })
  const c = checkCells({ ...wish, tester: read.tester })
  expect(c.loads.length).toBe(loads.length)
  expectRelative(c.loads.find((l) => l.tapV === 1.5 && l.reads === 'I_C')!.voltage.value, (4.5 - 0.01 * 0.6) / 3, 1e-12)
})

test.each([[{ loaded: { value: 4.6 } }], [{ loaded: { value: 0 } }], [{ load: { ampere: 0.001 }, restA: 0.002 }]])(
  '%j is refused',
  (change) => expect(() => checkCells({ ...wish, ...change })).toThrow(FaultError),
)
