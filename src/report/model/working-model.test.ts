import { describe, expect, test } from 'vitest'
import { derive, type Formula, leaf, limitTerm, type Quantity } from '#core/quantity'
import { allFormulas } from '#core/reduce'
import { current } from '#report/testing'
import { causesAtMost } from './budget-model.ts'
import { partWorkings } from './working-model.ts'

const ratio = allFormulas.get('reduce/gain-ratio') as unknown as Formula<
  { readonly collector: 'A'; readonly base: 'A' },
  '1'
>
const difference = allFormulas.get('reduce/current-difference') as unknown as Formula<
  { readonly first: 'A'; readonly second: 'A' },
  'A'
>

const read = (what: string, value: number): Quantity<'A'> => current('T1', what, value, `${value} A`, '10 mA')

describe('steps that several numbers need', () => {
  const inputs = Object.keys(difference.inputs) as ('first' | 'second')[]
  const collector = derive(
    difference,
    { [inputs[0]!]: read('a', 0.012), [inputs[1]!]: read('b', 0.002) } as never,
    'I_C',
  )
  const one = derive(ratio, { collector, base: read('base 1', 1e-4) })
  const two = derive(ratio, { collector, base: read('base 2', 2e-4) })
  const wanted = [
    { id: 'n1', symbol: 'h_FE', quantity: one },
    { id: 'n2', symbol: 'h_FE', quantity: two },
  ]
  const { own, shared } = partWorkings(wanted, 'w')

  test('are worked once and referred to', () => {
    expect(shared.filter((s) => s.formula !== undefined).map((s) => [s.id, s.symbol])).toEqual([['w1', 'I_C']])
    for (const id of ['n1', 'n2']) {
      const steps = own.get(id)!.steps
      expect(steps.filter((s) => s.worked !== undefined).map((s) => [s.symbol, s.worked])).toEqual([
        ['I_C', { id: 'w1' }],
      ])
      expect(steps.filter((s) => s.formula !== undefined)).toHaveLength(1)
    }
  })

  test('a number that another is made from is referred to by its symbol', () => {
    const both = partWorkings([{ id: 'c', symbol: 'I_C', quantity: collector }, wanted[0]!], 'w')
    expect(both.shared).toEqual([])
    expect(both.own.get('n1')!.steps[1]!.worked).toEqual({ id: 'c', under: 'I_C' })
    expect(both.own.get('c')!.steps[0]!.formula).toBeDefined()
  })

  test('what only one number needs stays with it', () => {
    const alone = partWorkings([wanted[0]!], 'w')
    expect(alone.shared).toEqual([])
    expect(alone.own.get('n1')!.steps.filter((s) => s.formula !== undefined)).toHaveLength(2)
  })
})

test('a formula of another Germane is named, and nothing is lost but the working', () => {
  const q: Quantity = {
    ...leaf(5, '1', { kind: 'read', what: 'x', seen: '5' }),
    origin: { kind: 'derived', what: 'x', formula: 'later/new-law', version: 1, inputs: {} },
  }
  const { own } = partWorkings([{ id: 'a', symbol: 'h_FE', quantity: q }], 'w')
  expect(own.get('a')).toEqual({
    steps: [],
    coverage: 'No formula is called later/new-law. It may come from a newer Germane.',
  })
})

test('a value without doubt has no budget', () => {
  const q = leaf(4.5, 'V', { kind: 'stated', what: 'tap' })
  const w = partWorkings([{ id: 'a', symbol: 'V', quantity: q }], 'w').own.get('a')!
  expect([w.budget, w.coverage]).toEqual([undefined, 'Taken as exact.'])
})

test('a long budget ends in one line for the small rest, and still adds up', () => {
  const causes = Array.from({ length: 12 }, (_, i) => limitTerm(`c${i}`, `cause ${i}`, 1 / (i + 1)))
  const q = leaf(10, 'V', { kind: 'read', what: 'v', seen: '10' }, causes)
  const bars = partWorkings([{ id: 'a', symbol: 'V', quantity: q }], 'w').own.get('a')!.budget!.bars
  expect(bars).toHaveLength(causesAtMost)
  expect(bars.at(-1)!.label).toBe('6 smaller causes')
  expect(bars.reduce((sum, b) => sum + b.share, 0)).toBeCloseTo(1, 12)
})

/** JCGM 100:2008, Table G.2: 4 degrees of freedom at 95 % give 2.78. */
test('few degrees of freedom are said in words', () => {
  const q = leaf(10, 'V', { kind: 'read', what: 'v', seen: '10' }, [
    { cause: 'scatter', label: 'scatter of 5 readings', slope: 1, u: 0.1, dof: 4, distribution: 't' },
  ])
  const w = partWorkings([{ id: 'a', symbol: 'V', quantity: q }], 'w').own.get('a')!
  expect(w.coverage).toBe(
    'Standard uncertainty 100 mV; \u00b1 is 2.78 times that, to cover 95 %, because few readings stand behind it (4 degrees of freedom).',
  )
})
