import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { loadCatalog, sampleTester, sampleTesters } from '#catalog'
import type { PartType } from '#core/device'
import { planSheet, type RunSheet } from '#core/sheet'
import { anyTester, heatFaults, orderFaults, ratingFaults, resetFaults, testerFaults } from '#core/testing'

const types = await loadCatalog()

/** Everything wrong with a sheet, each with the type it is for. */
const faultsOf = (sheet: RunSheet, t: PartType): readonly string[] =>
  [
    ...ratingFaults(sheet, t),
    ...heatFaults(sheet, t),
    ...testerFaults(sheet, sheet.tester),
    ...orderFaults(sheet),
    ...resetFaults(sheet),
  ].map((f) => `${t.type}: ${f}`)

const planned = types.filter((t) => t.family === 'bjt' || t.family === 'diode' || t.family === 'zener')

describe.each(sampleTesters.map((s) => s.id))('every type of the catalog on %s', (id) => {
  const tester = sampleTester(id)!

  test('no step passes a rating, a limit of the tester or T_Jmax; the order holds', () =>
    expect(types.flatMap((t) => faultsOf(planSheet(tester, t), t))).toEqual([]))

  test('in a hot room, known badly', () =>
    expect(types.flatMap((t) => faultsOf(planSheet(tester, t, { ambientC: 35, ambientU: 3 }), t))).toEqual([]))

  test('every published limit is read at its condition, or the sheet says why not', () => {
    const silent = planned.flatMap((t) => {
      const sheet = planSheet(tester, t)
      const told = new Set(sheet.gaps.map((g) => g.symbol))
      const read = new Set<string>(sheet.steps.flatMap((s) => (s.kind === 'read' ? [s.reads] : [])))
      if (told.has('all')) return []
      return t.limits
        .map((l) => l.symbol)
        .filter((s) => !told.has(s) && !read.has(s === 'V_BE(on)' ? 'V_BE' : s) && !/^h_(fe|ie|oe|FE)$/.test(s))
        .map((s) => `${t.type}: ${s}`)
    })
    expect(silent).toEqual([])
  })
})

test('any tester with any type of the catalog', () =>
  fc.assert(
    fc.property(anyTester, fc.constantFrom(...types), (tester, t) => {
      expect(faultsOf(planSheet(tester, t), t)).toEqual([])
    }),
    { numRuns: 800 },
  ))

test('the needle testers read gain of most transistors, and forward voltage of most diodes', () => {
  const share = (id: string, family: string, reads: string): number => {
    const of = types.filter((t) => t.family === family)
    const tester = sampleTester(id)!
    const sheets = of.map((t) => planSheet(tester, t))
    return sheets.filter((s) => s.steps.some((x) => x.kind === 'read' && x.reads === reads)).length / of.length
  }
  expect(share('larkfield', 'bjt', 'h_FE')).toBeGreaterThan(0.95)
  expect(share('marlpit', 'bjt', 'I_B')).toBeGreaterThan(0.95)
  expect(share('larkfield', 'diode', 'V_F')).toBeGreaterThan(0.9)
  expect(share('larkfield', 'zener', 'V_F')).toBeGreaterThan(0.9)
})

test('a socket that works above the limit of its own tester is not used', () => {
  const display = sampleTester('copperhill')!
  const torn = { ...display, supplies: [], limits: { ...display.limits, maxVoltageV: 2 } }
  const t = types.find((one) => one.type === 'BC107')!
  const sheet = planSheet({ ...torn, tests: [{ reads: 'h_FE', ranges: [] }] }, t)
  expect(faultsOf(sheet, t)).toEqual([])
  expect(sheet.gaps.map((g) => g.why).join(' ')).toContain('above the limit of 2 V')
})
