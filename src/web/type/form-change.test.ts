import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { partTypeExample, readPartTypes } from '#core/device'
import { withGroup, withItem, without, withText } from './form-change.ts'
import { readConditions, writeConditions } from './form-conditions.ts'
import { countAt, entriesAt, type OpenText, openText, textAt } from './form-open.ts'

const text = `# mine
type: MY-1
family: bjt                # bjt, diode
polarity: PNP
ratings:
  V_CEO: 15 V              # from the sheet
limits:
  - { symbol: h_FE, min: 40, at: { I_C: 2 mA, V_CE: 4.5 V } } # at room temperature
source: a sheet
`
const opened = (t = text): OpenText => openText(t)!

describe('a form over a text', () => {
  test('shows what is written as it was typed', () => {
    const open = opened()
    expect(textAt(open, ['type'])).toBe('MY-1')
    expect(textAt(open, ['ratings', 'V_CEO'])).toBe('15 V')
    expect(textAt(open, ['limits', 0, 'min'])).toBe('40')
    expect(textAt(open, ['ratings', 'I_C'])).toBe('')
    expect(countAt(open, ['limits'])).toBe(1)
    expect(entriesAt(open, ['limits', 0, 'at'])).toEqual([
      ['I_C', '2 mA'],
      ['V_CE', '4.5 V'],
    ])
  })

  test('changes a value and nothing else of the text', () =>
    expect(withText(opened(), ['ratings', 'V_CEO'], '20 V', 'value')).toBe(text.replace('15 V', '20 V')))

  test('writes a new value where its key has its place, and keeps comments', () => {
    const once = withText(opened(), ['material'], 'Ge', 'words')
    const twice = withText(opened(once), ['limits', 0, 'max'], '130', 'value')
    const all = withText(opened(twice), ['leads', 'order'], 'E-B-C', 'words')
    expect(all).toContain('polarity: PNP\nmaterial: Ge\nleads:\n  order: E-B-C\nratings:')
    expect(all).toContain('{ symbol: h_FE, min: 40, max: 130, at: { I_C: 2 mA, V_CE: 4.5 V } } # at room temperature')
    expect(all).toContain('V_CEO: 15 V # from the sheet')
  })

  test('takes a value away, and its group where that is empty then', () => {
    expect(without(opened(), ['ratings', 'V_CEO'])).not.toContain('ratings')
    expect(withText(opened(), ['limits', 0, 'min'], '', 'value')).toContain('{ symbol: h_FE, at:')
    expect(without(opened(), ['limits', 0])).not.toContain('limits')
  })

  test('adds limits and powers', () => {
    const more = withItem(opened(), ['limits'], { symbol: 'I_CBO' })
    expect(countAt(opened(more), ['limits'])).toBe(2)
    const power = withText(opened(), ['ratings', 'power'], '150 mW', 'words')
    const two = withItem(opened(power), ['ratings', 'power'], '1 W at 45 degC case')
    expect(readPartTypes(two)[0]!.ratings.power.map((p) => p.powerW)).toEqual([0.15, 1])
  })

  test('opens the only one of a list, and no more than one', () => {
    expect(openText(partTypeExample)).toBeUndefined()
    expect(openText('family: [')).toBeUndefined()
    const listed = opened('types:\n  - type: GX-1\n    family: diode\n')
    expect(withText(listed, ['type'], 'GX-2', 'words')).toBe('types:\n  - type: GX-2\n    family: diode\n')
  })

  test('a number of a type stays a word, a value with its sign stays a value', () => {
    expect(readPartTypes(withText(opened(), ['type'], '1305', 'words'))[0]!.type).toBe('1305')
    expect(readPartTypes(withText(opened(), ['limits', 0, 'min'], '4e1', 'value'))[0]!.limits[0]!.min).toBe(40)
    expect(withText(opened(), ['limits', 0, 'min'], '1.', 'value')).toContain('min: 1.,')
  })

  const typed = fc.string({ unit: 'grapheme', minLength: 1 }).filter((s) => !/[\p{Cc}\p{Zl}\p{Zp}\ufeff]/u.test(s))
  const place = fc.constantFrom(['type'], ['use'], ['source'], ['leads', 'view'], ['limits', 0, 'symbol'])

  test('whatever is typed is shown as it was typed, once and again', () =>
    fc.assert(
      fc.property(typed, typed, place, (first, second, path) => {
        const once = opened(withText(opened(), path, first, 'words'))
        const twice = opened(withText(once, path, second, 'words'))
        expect([textAt(once, path), textAt(twice, path)]).toEqual([first, second])
        expect(textAt(twice, ['polarity'])).toBe('PNP')
      }),
    ))
})

describe('conditions in a line', () => {
  test.each([
    ['I_C 2 mA, V_CE 4.5 V', 'I_C 2 mA, V_CE 4.5 V'],
    ['ic=2mA; vce = 4,5 V', 'I_C 2mA, V_CE 4,5 V'],
    ['I_C 2 mA, ', 'I_C 2 mA'],
    ['X_Y 3', 'X_Y 3'],
    ['', ''],
  ])('"%s" is "%s"', (typedLine, written) => expect(writeConditions(readConditions(typedLine))).toBe(written))

  test('go into the text and come back', () => {
    const path = ['limits', 0, 'at']
    const changed = opened(withGroup(opened(), path, readConditions('I_C 5 mA, V_CE 6, T 25 degC')))
    expect(writeConditions(entriesAt(changed, path))).toBe('I_C 5 mA, V_CE 6, T 25 degC')
    expect(readPartTypes(changed.text)[0]!.limits[0]!.at).toEqual({ I_C: 0.005, V_CE: 6, T: 25 })
    expect(withGroup(opened(), path, [])).toContain('{ symbol: h_FE, min: 40 }')
  })
})
