import { describe, expect, test } from 'vitest'
import { mergeTypes } from './merge-types.ts'
import { sampleTypes } from './sample-types.ref.ts'
import { searchTypes, type TypeQuery } from './search-types.ts'

const names = (query: TypeQuery): readonly string[] => searchTypes(sampleTypes, query).map((t) => t.type)

describe('searchTypes', () => {
  test('by part of the number or by words of use and outline', () => {
    expect(names({ text: '2n-90' })).toEqual(['2N9011', '2N9011A'])
    expect(names({ text: 'driver audio' })).toEqual(['2SB954'])
    expect(names({ text: 'nothing like it' })).toEqual([])
  })

  test('by polarity, material, family and outline together', () => {
    expect(names({ material: 'Ge', polarity: 'PNP' })).toEqual(['2SB954', 'OC971', 'MP939'])
    expect(names({ family: 'zener' })).toEqual(['BZX79-C95V1'])
    expect(names({ outline: 'TO-5' })).toEqual(['OC971'])
    expect(names({ outline: 'to-39' })).toEqual(['OC971'])
    expect(names({ outline: 'TO-3' })).toEqual([])
  })

  test('by ratings and by limits that are guaranteed', () => {
    expect(names({ within: { V_CEO: { min: 50 } } })).toEqual(['BD939', 'BC982'])
    expect(names({ within: { V_CEO: { min: 50, max: 60 } } })).toEqual(['BC982'])
    expect(names({ within: { P_tot: { min: 10 } } })).toEqual(['BD939'])
    expect(names({ within: { h_FE: { min: 100 } } })).toEqual(['BC982'])
    expect(names({ within: { h_FE: { min: 100, max: 400 } } })).toEqual([])
  })
})

describe('mergeTypes', () => {
  test('an own record takes the place of its namesake; others come after', () => {
    const [first] = sampleTypes
    const own = [
      { ...first!, type: '2n-9011', use: 'mine' },
      { ...first!, type: 'GX-17' },
    ]
    const merged = mergeTypes(sampleTypes, own)
    expect(merged).toHaveLength(sampleTypes.length + 1)
    expect(merged[0]).toBe(own[0])
    expect(merged.at(-1)).toBe(own[1])
    expect(mergeTypes(sampleTypes, [])).toEqual(sampleTypes)
  })
})
