import { describe, expect, test } from 'vitest'
import { explain } from '#core/fault'
import { testerExample } from './example.ts'
import { findRange, rangesFor, unitOf } from './find-range.ts'
import { bestRange, needle } from './needle.ts'
import { parseShown } from './parse-shown.ts'
import { readTester } from './read-tester.ts'
import { readingKindOf } from './reading-kind.ts'
import { seenAtPart } from './seen-at-part.ts'
import { readingKinds, type Tester } from './tester.ts'

const tester = ((): Tester => {
  const read = readTester(testerExample)
  if (!read.ok) throw new Error(read.faults.map(explain).join('\n'))
  return read.tester
})()

const rangeNamed = (text: string): string => {
  const found = findRange(tester, text)
  return found.ok ? found.range.id : found.faults.map(explain).join('\n')
}

describe('ranges', () => {
  test.each([
    ['100 uA', '100 uA'],
    ['100uA', '100 uA'],
    ['100 \u00b5a', '100 uA'],
    ['0.1 mA', '100 uA'],
    ['1000 uA', '1 mA'],
    ['1 v', '1 V'],
    [
      '10',
      'There is no range on Bench tester called "10". Near it: 100 uA, 10 mA. Its ranges here: 100 uA, 1 mA, 10 mA, 1 V.',
    ],
  ])('%j is %j', (text, id) => expect(rangeNamed(text)).toBe(id))

  test('those of a test, and the best of them', () => {
    expect(rangesFor(tester, 'I_CEO').map((r) => r.id)).toEqual(['100 uA', '1 mA', '10 mA'])
    expect(rangesFor(tester, 'I_EBO')).toEqual([])
    expect(bestRange(tester, 'I_CEO', 50e-6)?.id).toBe('100 uA')
    expect(bestRange(tester, 'I_CEO', 0.1e-3)?.id).toBe('100 uA')
    expect(bestRange(tester, 'I_CEO', 0.11e-3)?.id).toBe('1 mA')
    expect(bestRange(tester, 'I_CEO', 20e-3)).toBeUndefined()
  })

  test('every reading has its unit', () => {
    expect(readingKinds.map(unitOf)).toEqual([
      undefined,
      'A',
      'A',
      'A',
      'A',
      'A',
      'A',
      '1',
      'V',
      'V',
      'V',
      'V',
      'A',
      'A',
    ])
  })
})

describe('needle', () => {
  const range = (id: string) => tester.ranges.find((r) => r.id === id)!

  test('straight on the movement it stands in proportion', () => {
    expect(needle(tester, range('100 uA'), 12.5e-6)).toEqual({
      fraction: 0.125,
      divisions: 6.25,
      scale: '100',
      over: false,
    })
    expect(needle(tester, range('100 uA'), 101e-6).over).toBe(true)
  })

  test('a warm coil sends more through the shunt', () => {
    const cold = needle(tester, range('1 mA'), 0.5e-3, 10)
    const warm = needle(tester, range('1 mA'), 0.5e-3, 30)
    expect(warm.divisions).toBeLessThan(cold.divisions)
    expect(warm.divisions).toBeGreaterThan(0.92 * cold.divisions)
  })

  test('a tester without scales shows percent of full scale', () => {
    const display: Tester = { ...tester, kind: 'display', scales: [] }
    const { movement: _, ...bare } = display
    expect(needle(bare, range('1 mA'), 0.25e-3)).toEqual({ fraction: 0.25, divisions: 25, scale: '', over: false })
  })
})

describe('what is typed at a step', () => {
  const said = (...a: Parameters<typeof parseShown>): string => {
    const p = parseShown(...a)
    return p.ok ? p.echo : p.faults.map(explain).join('\n')
  }
  test.each([
    ['7.3 div', 'I_CEO', '100 uA', '7.3 div of 50 on 100 uA = 14.6 \u00b5A'],
    ['7,3div', 'I_CEO', '100 uA', '7.3 div of 50 on 100 uA = 14.6 \u00b5A'],
    [' 12.5 uA ', 'I_CEO', '100 uA', 'I_CEO 12.5 \u00b5A on 100 uA'],
    ['118', 'h_FE', 'high', 'h_FE 118'],
    ['clear', 'short', undefined, 'short: clear'],
    ['OL', 'I_CEO', '100 uA', 'I_CEO: over'],
    [
      '7.3',
      'I_CEO',
      '100 uA',
      'shown: "7.3" has no unit. Write it with its unit: 7.3 div, or as in 7.3 div or 12.5 uA.',
    ],
    [
      '60 div',
      'I_CEO',
      '100 uA',
      'shown: "60 div" is beyond the end of the scale (50 divisions, 100 \u00b5A). Check the number, or read again on 1 mA.',
    ],
    ['', 'V_BE', '1 V', 'shown: "" is empty. Write what was shown: 7.3 div or 0.65 V.'],
    [
      'shrot',
      'short',
      undefined,
      'shown: "shrot" is not the outcome of a short check. Write clear, short or open. Did you mean short?',
    ],
    ['118 uA', 'h_FE', undefined, 'shown: "118 uA" is not in plain numbers, as h_FE is. Write it as in 118.'],
    [
      'no null',
      'I_CEO',
      '100 uA',
      'shown: "no null" belongs to a gain dial, not to I_CEO. Write what was shown: 7.3 div or 12.5 uA.',
    ],
  ] as const)('%j for %s on %s: %s', (text, reads, range, echo) => {
    expect(said(text, reads, tester, range)).toBe(echo)
  })

  test('without a tester the number alone is said back', () => {
    expect(said('7.3 div', 'I_CEO')).toBe('7.3 divisions')
    expect(said('12.5 uA', 'I_CEO')).toBe('I_CEO 12.5 \u00b5A')
  })
})

test.each([
  ['I_CEO', 'I_CEO'],
  ['iceo', 'I_CEO'],
  ['hfe', 'h_FE'],
  ['H FE', 'h_FE'],
  ['vce sat', 'V_CE(sat)'],
  ['VCE(sat)', 'V_CE(sat)'],
  ['Short', 'short'],
  ['I-CBO', 'I_CBO'],
])('%j reads %s', (text, reads) => expect(readingKindOf(text)).toEqual({ ok: true, reads }))

describe('on a calibrated range', () => {
  const head = { date: '2026-05-12', ambientC: 21 } as const
  const line = { kind: 'line', at: 5e-3, offset: 0.13e-3, slope: -0.02, uOffset: 0, uSlope: 0 } as const
  const curve = { kind: 'curve', shown: [0, 5e-3, 10e-3], correction: [0, 2e-4, 1e-4], u: [0, 0, 0] } as const
  const of = (
    law: typeof line | typeof curve,
    trust: 'with corrections' | 'not trusted' = 'with corrections',
  ): Tester => ({
    ...tester,
    calibrations: [
      { ...head, ranges: [{ range: '10 mA', trust, why: '', from: 0, to: 10e-3, law, uReference: 0, uRepeat: 0 }] },
    ],
  })
  const range = tester.ranges.find((r) => r.id === '10 mA')!

  // the way back is `seenAtPart`, which calibration.test.ts holds to sums by hand
  test.each([
    ['line', line],
    ['curve', curve],
  ] as const)('%s: what is shown is read back as what is at the part', (_, law) => {
    const corrected = of(law)
    for (const ambientC of [15, 21, 30])
      for (const value of [0.4e-3, 3e-3, 5e-3, 8e-3, 9.6e-3]) {
        const { divisions } = needle(corrected, range, value, ambientC)
        const shown = { kind: 'deflection', divisions } as const
        const read = seenAtPart(corrected, {
          part: 'P',
          reads: 'I_C',
          shown,
          seen: '',
          range: '10 mA',
          point: 1,
          ambientC,
        })
        if (!read.ok) throw new Error(JSON.stringify(read.faults))
        expect(read.quantity.value / value).toBeCloseTo(1, 9)
        expect(divisions).not.toBeCloseTo(needle(tester, range, value, ambientC).divisions, 2)
      }
  })

  test('that is not trusted, and beyond what was calibrated, it stands as described', () => {
    expect(needle(of(line, 'not trusted'), range, 5e-3)).toEqual(needle(tester, range, 5e-3))
    const short = of(line)
    const [c] = short.calibrations!
    const low = { ...short, calibrations: [{ ...c!, ranges: [{ ...c!.ranges[0]!, to: 4e-3 }] }] }
    expect(needle(low, range, 8e-3)).toEqual(needle(tester, range, 8e-3))
  })
})
