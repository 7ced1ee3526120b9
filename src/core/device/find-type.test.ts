import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { findType, needType } from './find-type.ts'
import { sampleTypes } from './sample-types.ref.ts'

const found = (text: string): string | undefined => findType(sampleTypes, text).found?.partType.type

describe('findType', () => {
  test.each([
    ['2n9011', '2N9011'],
    [' 2N 9011-A ', '2N9011A'],
    ['bc_982', 'BC982'],
    ['0C971', 'OC971'],
    ['МП939', 'MP939'],
    ['BZX79C95.1', 'BZX79-C95V1'],
  ])('%s is %s', (text, type) => {
    expect(findType(sampleTypes, text).found).toMatchObject({ partType: { type }, how: 'same' })
  })

  test('a JAN prefix is a quality level', () => {
    const match = findType(sampleTypes, 'JANTX 2N9011').found
    expect(match).toMatchObject({ partType: { type: '2N9011' }, how: 'quality' })
    expect(match?.note).toContain('JANTX is a military quality level')
  })

  test('"2S" may be left off', () => {
    expect(findType(sampleTypes, 'B954').found).toMatchObject({ partType: { type: '2SB954' }, how: 'short' })
    expect(found('c9815gr')).toBe('2SC9815GR')
  })

  test('a gain rank narrows h_FE at its conditions and nothing else', () => {
    const match = findType(sampleTypes, '2SC9815-GR').found!
    expect(match.how).toBe('rank')
    expect(match.note).toBe('GR is a gain rank of 2SC9815: h_FE 200 to 400.')
    expect(match.partType.limits).toEqual([
      { symbol: 'h_FE', min: 200, max: 400, unit: '1', at: { I_C: 0.002, V_CE: 6 }, note: 'gain rank GR' },
      { symbol: 'h_FE', min: 25, unit: '1', at: { I_C: 0.15, V_CE: 6 } },
    ])
    expect(found('BD939-10')).toBe('BD939-10')
  })

  test('an unknown suffix is taken off, and said', () => {
    const match = findType(sampleTypes, 'BC982L').found!
    expect(match).toMatchObject({ partType: { type: 'BC982' }, how: 'suffix' })
    expect(match.note).toContain('The suffix L is not on record')
    expect(match.note).toContain('Leads: BC982L: E-C-B.')
  })

  test('what is not there has near names, best first', () => {
    expect(findType(sampleTypes, 'OC917')).toEqual({ near: ['OC971'] })
    expect(findType(sampleTypes, 'D939').near[0]).toBe('BD939')
    expect(findType(sampleTypes, '')).toEqual({ near: [] })
  })

  test('a number that is needed and not there is a fault with its near names', () => {
    expect(() => needType(sampleTypes, '2N9O11')).toThrow(FaultError)
    expect(() => needType(sampleTypes, 'OC917')).toThrow('There is no part type called "OC917". Near it: OC971.')
    expect(needType(sampleTypes, 'oc971').partType.type).toBe('OC971')
  })

  test('case, blanks and hyphens never matter', () => {
    const any = fc.constantFrom(...sampleTypes.map((t) => t.type))
    fc.assert(
      fc.property(
        any,
        fc.array(fc.constantFrom(' ', '-', ''), { minLength: 12, maxLength: 12 }),
        fc.boolean(),
        (type, gaps, low) => {
          const text = [...type].map((c, i) => c + (gaps[i] ?? '')).join('')
          expect(found(low ? text.toLowerCase() : text)).toBe(type)
        },
      ),
    )
  })

  test('any text at all is answered', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme' }), (text) => Array.isArray(findType(sampleTypes, text).near)))
  })
})
