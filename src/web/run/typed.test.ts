import { describe, expect, test } from 'vitest'
import { planSheet, type ReadStep } from '#core/sheet'
import { readTester, testerExample } from '#core/tester'
import { faceOf, placeOf, rangeChoices } from './face.ts'
import { isBegun, meant, statesFor, understood, unitsFor } from './typed.ts'
import { firstSentence, secondsText } from './words.ts'

const read = readTester(testerExample)
if (!read.ok) throw new Error('the example of a tester is read')
const sheet = planSheet(read.tester, undefined, { polarity: 'PNP', material: 'Ge' })
const stepOf = (reads: string): ReadStep =>
  sheet.steps.find((s): s is ReadStep => s.kind === 'read' && s.reads === reads)!
const leakage = stepOf('I_CEO')

describe('what was meant', () => {
  const units = { unit: 'div', base: 'A' } as const
  test.each([
    ['7.3', '7.3 div'],
    ['1,2', '1,2 div'],
    ['12u', '12uA'],
    ['1,2m', '1,2mA'],
    ['12.5 uA', '12.5 uA'],
    ['7.3 div', '7.3 div'],
    ['ov', 'over'],
    ['', ''],
    ['-', '-'],
  ])('"%s" is "%s"', (typed, is) => expect(meant(typed, units, ['over'])).toBe(is))

  test.each([
    ['c', 'clear'],
    ['S', 'short'],
    ['op', 'open'],
  ])('at the short check "%s" is %s', (typed, is) =>
    expect(meant(typed, { unit: undefined, base: undefined }, statesFor(sheet, stepOf('short')))).toBe(is),
  )

  test('a gain is a plain number', () => expect(unitsFor(sheet, { ...leakage, reads: 'h_FE' }, undefined)).toEqual([]))

  test('a text that is only begun is no mistake', () =>
    expect(['7.', '-', '', '7x'].map(isBegun)).toEqual([true, true, true, false]))
})

describe('the face of a step', () => {
  const face = faceOf(sheet, leakage)!

  test('runs over the whole scale, with its window inside', () => {
    expect([face.kind, face.low]).toEqual(['needle', 0])
    expect(face.ticks.filter((t) => t.label !== undefined).length).toBeGreaterThan(3)
    expect(face.window?.max).toBeGreaterThan(0)
  })

  test('shows the needle where divisions or a current put it', () => {
    const shown = understood(sheet, leakage, { text: '5' })
    expect(shown?.ok && placeOf(sheet, leakage, face, undefined, shown.shown)).toBe(5)
    const range = read.tester.ranges.find((r) => r.id === leakage.range)!
    const half = understood(sheet, leakage, { text: `${(range.fullScale / 2) * 1e6} uA` })
    expect(half?.ok && placeOf(sheet, leakage, face, undefined, half.shown)).toBeCloseTo(face.high / 2, 0)
  })

  test('there is none where nothing is read off a scale', () => expect(faceOf(sheet, stepOf('short'))).toBeUndefined())

  test('the ranges one can take are those of the test, finest first', () =>
    expect(rangeChoices(read.tester, leakage).map((r) => r.id)).toContain(leakage.range))
})

describe('words', () => {
  test('the first sentence is said large', () =>
    expect(firstSentence('Read I_CBO at 1.5 V. Switch off if it passes 100 uA.')).toEqual([
      'Read I_CBO at 1.5 V.',
      'Switch off if it passes 100 uA.',
    ]))
  test('seconds as a person counts', () =>
    expect([secondsText(59.2), secondsText(125)]).toEqual(['60 s', '2 min 05 s']))
})
