import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { anyPartType, anyTester, heatFaults, orderFaults, ratingFaults, resetFaults, testerFaults } from '#core/testing'
import { planSheet, sheetText, type Wishes } from './index.ts'

const runs = 400

const anyWishes: fc.Arbitrary<Partial<Wishes>> = fc.record(
  {
    ambientC: fc.integer({ min: 0, max: 45 }),
    ambientU: fc.constantFrom(0, 1, 5),
    collectorA: fc.constantFrom(1e-5, 1e-3, 0.1, 5),
    supplyV: fc.constantFrom(1, 4.5, 30),
    forwardA: fc.constantFrom(1e-4, 0.02, 3),
    polarity: fc.constantFrom('NPN' as const, 'PNP' as const),
    material: fc.constantFrom('Ge' as const, 'Si' as const),
    family: fc.constantFrom('bjt' as const, 'diode' as const),
  },
  { requiredKeys: [] },
)

const check = (holds: (...x: Parameters<typeof planSheet>) => void): void =>
  fc.assert(
    fc.property(anyTester, anyPartType, anyWishes, (tester, t, w) => {
      holds(tester, t, w)
    }),
    { numRuns: runs },
  )

describe('whatever the type and the tester', () => {
  test('no step passes a derated rating', () =>
    check((tester, t, w) => expect(ratingFaults(planSheet(tester, t, w), t!)).toEqual([])))

  test('no junction passes T_Jmax, the whole sheet gone through', () =>
    check((tester, t, w) => expect(heatFaults(planSheet(tester, t, w), t!)).toEqual([])))

  test('no step passes a limit of the tester', () =>
    check((tester, t, w) => expect(testerFaults(planSheet(tester, t, w), tester)).toEqual([])))

  test('the short check comes first, leakage before gain, every step has its reason', () =>
    check((tester, t, w) => expect(orderFaults(planSheet(tester, t, w))).toEqual([])))

  test('the collector current is set again after each change of range', () =>
    check((tester, t, w) => expect(resetFaults(planSheet(tester, t, w))).toEqual([])))

  test('the same question gets the same sheet, printed on at most 80 columns', () =>
    check((tester, t, w) => {
      const sheet = planSheet(tester, t, w)
      expect(planSheet(structuredClone(tester), structuredClone(t), { ...w })).toEqual(sheet)
      expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet)
      expect(
        sheetText(sheet, { advice: true }).filter((line) => line.length > 80 && line.trim().includes(' ')),
      ).toEqual([])
    }))

  test('an unknown part gets at most a milliampere and six volts', () =>
    check((tester, _t, w) => {
      const sheet = planSheet(tester, undefined, w)
      const reads = sheet.steps.filter((s) => s.kind === 'read')
      const driven = reads.filter((s) => s.reads !== 'short')
      expect(driven.filter((s) => (s.currentA ?? 0) > 1e-3 * (1 + 1e-9) || (s.supplyV ?? 0) > 6)).toEqual([])
      expect(reads.filter((s) => s.reads === 'short' && (s.currentA ?? 0) > 0.02)).toEqual([])
      expect(driven.filter((s) => s.reads === 'I_EBO')).toEqual([])
      expect([...orderFaults(sheet), ...testerFaults(sheet, tester)]).toEqual([])
    }))
})

test('random testers and types reach every kind of reading', () => {
  const seen = new Set<string>()
  fc.assert(
    fc.property(anyTester, anyPartType, (tester, t) => {
      for (const s of planSheet(tester, t).steps) if (s.kind === 'read') seen.add(s.reads)
    }),
    { numRuns: 2000, seed: 7 },
  )
  expect([...seen].sort()).toEqual(
    [
      'I_B',
      'I_C',
      'I_CBO',
      'I_CEO',
      'I_CES',
      'I_EBO',
      'I_F',
      'I_R',
      'V_BE',
      'V_CE(sat)',
      'V_F',
      'h_FE',
      'short',
    ].sort(),
  )
})
