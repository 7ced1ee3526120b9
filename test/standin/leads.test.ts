import { describe, expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import type { PartType } from '#core/device'
import { baseOf, caseJoin, leadPlan } from '#core/standin'
import { leadDrawing } from '#report/leads'

const types = await loadCatalog()
const named = (name: string): PartType => types.find((t) => t.type === name)!

const line = 'flat side facing you, leads down, left to right'
const ring = 'bottom view, clockwise from the tab'
const part = (type: string, order: string, view: string): PartType => ({
  type,
  family: 'bjt',
  leads: { order, view },
  ratings: { power: [] },
  limits: [],
  provenance: { kind: 'own', where: [] },
})
const orders = ['E-B-C', 'E-C-B', 'B-E-C', 'B-C-E', 'C-E-B', 'C-B-E']
const pairs = orders.flatMap((a) => orders.map((b) => [a, b] as const))

describe('leads in a line', () => {
  test.each(pairs)('where %s was, %s is brought into its order by what the plan says', (a, b) => {
    const plan = leadPlan(part('old', a, line), part('new', b, line))
    const back = (order: readonly string[]): readonly string[] => order.toReversed()
    const swap = ([x, y]: readonly [string, string], order: readonly string[]): readonly string[] =>
      order.map((n) => (n === x ? y : n === y ? x : n))
    const wanted = a.split('-')
    const leads = b.split('-')
    switch (plan.work) {
      case 'none':
        return expect(leads).toEqual(wanted)
      case 'turn':
        return expect(back(leads)).toEqual(wanted)
      case 'cross': {
        // crossed only where neither way round does it
        expect([leads.join(), back(leads).join()]).not.toContain(wanted.join())
        const crossed = swap(plan.crossed!, leads)
        return expect(/half round/.test(plan.says) ? back(crossed) : crossed).toEqual(wanted)
      }
      default:
        throw new Error(`${plan.work} is no work of a line`)
    }
  })

  test('two orders cross as often as the other way about', () => {
    for (const [a, b] of pairs)
      expect(leadPlan(part('old', a, line), part('new', b, line)).work).toBe(
        leadPlan(part('old', b, line), part('new', a, line)).work,
      )
  })
})

test.each(pairs)('a circle %s and a line %s meet without crossing, in the words and in the drawing', (a, b) => {
  for (const [wanted, offered] of [
    [part('old', a, ring), part('new', b, line)],
    [part('old', b, line), part('new', a, ring)],
  ] as const) {
    const plan = leadPlan(wanted, offered)
    expect(plan.work).toBe('bend')
    expect(gaps(wanted, offered)).toBe(0)
  }
})

/** Gaps in the drawn leads: each is a crossing. */
function gaps(wanted: PartType, offered: PartType): number {
  const svg = leadDrawing({ wanted: wanted.type, offered: offered.type, plan: leadPlan(wanted, offered) })!
  const paths = [...svg.matchAll(/<path class="(?:limit|centre)" d="([^"]*)"/g)].map((m) => m[1]!)
  expect(paths).toHaveLength(3)
  return paths.reduce((sum, d) => sum + d.split('M').length - 2, 0)
}

test.each(pairs)('the drawing of %s for %s has a crossing where the plan has one, and only there', (a, b) => {
  const [wanted, offered] = [part('old', a, line), part('new', b, line)]
  const { work } = leadPlan(wanted, offered)
  expect(gaps(wanted, offered) > 0).toBe(work === 'cross')
})

describe('known pairs', () => {
  // KiCad symbols 6.0.10 (2N3904 E-B-C, BC547 C-B-E, 2SC1815 E-C-B), and the orders printed in their datasheets
  test('2N3904 for BC547 is turned half round', () =>
    expect(leadPlan(named('BC547'), named('2N3904')).work).toBe('turn'))
  test('2SC1815 for BC547 crosses base and collector', () =>
    expect(leadPlan(named('BC547'), named('2SC1815'))).toMatchObject({ work: 'cross', crossed: ['C', 'B'] }))
  test('a TO-3 for a TO-1 is wired', () => expect(leadPlan(named('AC128'), named('AD149')).work).toBe('refit'))
  test('BC109 for BC107 goes as it is', () => expect(leadPlan(named('BC107'), named('BC109')).work).toBe('none'))
  test('the screen of an AF117 leaves its place empty', () =>
    expect(leadPlan(named('AF117'), named('OC45')).says).toContain(
      'the place of the fourth lead'.replace('the', 'The'),
    ))
  test('an order that is not settled is to be found', () => {
    const unsettled = types.find((t) => t.leads?.order === 'verify')!
    expect(leadPlan(named('BC107'), unsettled)).toMatchObject({ work: 'find' })
    expect(leadPlan(named('BC107'), unsettled).bases).toBeUndefined()
  })
})

test('every base of the catalog is read, or said not to be settled', () => {
  for (const t of types.filter((x) => x.family === 'bjt' || x.family === 'diode')) {
    const base = baseOf(t)
    if (base === undefined)
      expect(t.leads?.order === 'verify' || /not recorded/.test(t.leads?.view ?? 'not recorded')).toBe(true)
    else expect(base.leads.length, t.type).toBe(t.family === 'diode' ? 2 : 3)
  }
})

test('what a case is joined to', () => {
  expect(caseJoin(named('BC107'))).toEqual({ kind: 'joined', to: 'C' })
  expect(caseJoin(named('2N404'))).toEqual({ kind: 'measure' })
  expect(caseJoin(named('BC547'))).toEqual({ kind: 'insulated' })
  expect(caseJoin(named('AF117'))).toEqual({ kind: 'insulated' })
})
