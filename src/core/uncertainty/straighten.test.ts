import { describe, expect, test } from 'vitest'
import { derive, exact, leaf, limitTerm, type Quantity, standardUncertainty, term } from '#core/quantity'
import { allFormulas, leakageToTemperature, leakageToVoltage } from '#core/reduce'
import { expectRelative } from '#core/testing'
import { monteCarlo } from '#core/uncertainty'
import { straightened } from './straighten.ts'

const formula = (id: string) => allFormulas.get(id)!
const stated = (value: number, unit: Quantity['unit'], u: number, cause: string): Quantity =>
  leaf(value, unit, { kind: 'stated', what: cause }, [term(cause, { label: cause, u })])

/** A leakage read through a movement and shunt, in the shape a tester gives it. */
const read = derive(
  formula('tester/shunt-current'),
  {
    deflection: stated(30, 'div', 0.2, 'reading/P/I_CBO/1/resolution'),
    divisions: exact(50, 'div', 'divisions'),
    movement: stated(50e-6, 'A', 0.5e-6, 't/movement/sensitivity'),
    coil: stated(2000, 'ohm', 8, 't/thermometer'),
    contact: exact(0, 'ohm', 'contact'),
    shunt: leaf(500, 'ohm', { kind: 'stated', what: 'shunt' }, [limitTerm('t/range/250 uA/shunt', 'shunt', 5)]),
  },
  'I_CBO',
) as Quantity<'A'>

const room = stated(15, 'degC', 1, 't/thermometer') as Quantity<'degC'>
const at = exact(25, 'degC', 'reference')
const carried = leakageToTemperature('I_CBO', leakageToVoltage('I_CBO', read, 4.5, 12, { part: 'P' }), room, at, {
  part: 'P',
  material: 'Ge',
})

const leaves = (q: Quantity): readonly Quantity[] =>
  q.origin.kind === 'derived' ? Object.values(q.origin.inputs).flatMap(leaves) : [q]

describe('straight parts taken together', () => {
  const short = straightened(carried, allFormulas)
  test('leave fewer causes and the same value', () => {
    const causes = (q: Quantity): number => new Set(leaves(q).flatMap((l) => l.budget.map((t) => t.cause))).size
    expect(causes(short)).toBeLessThan(causes(carried))
    expect(short.value).toBe(carried.value)
  })
  test('keep what is shared between parts', () => {
    const shared = leaves(short).filter((l) => l.budget.some((t) => t.cause === 't/thermometer'))
    expect(shared).toHaveLength(2)
  })
  test('give the same spread under random trials', () => {
    const run = (q: Quantity) => monteCarlo(q, { formulas: allFormulas, trials: 100_000, seed: 3 })
    const [whole, part] = [run(carried), run(short)]
    // 100,000 trials tell a standard deviation to 0.2 %, the ends of an interval to 0.5 %
    expectRelative(part.standardUncertainty, whole.standardUncertainty, 0.01)
    for (const end of [0, 1]) expectRelative(part.symmetric95[end]!, whole.symmetric95[end]!, 0.02)
  })
  test('are one value where nothing bends', () => {
    const one = straightened(read, allFormulas)
    expect(one.origin.kind).not.toBe('derived')
    expect(standardUncertainty(one)).toBeCloseTo(standardUncertainty(read), 15)
  })
})
