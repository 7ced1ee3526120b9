import { describe, expect, test } from 'vitest'
import type { PartType } from '#core/device'
import { candidateTypes } from './candidates.ts'
import type { IdentifiedAs } from './identify.ts'

const type = (name: string, more: Partial<PartType>): PartType => ({
  type: name,
  family: 'bjt',
  polarity: 'PNP',
  material: 'Ge',
  ratings: { power: [] },
  limits: [],
  provenance: { kind: 'own', where: [] },
  ...more,
})

const gain = (min: number, max: number) => [{ symbol: 'h_FE', min, max, unit: '1', at: {} }]
const order = (text: string) => ({ order: text, view: 'below' })

/** Invented types. */
const types = [
  type('LOW', { limits: gain(20, 50), leads: order('E-B-C'), outline: 'TO-1' }),
  type('HIGH', { limits: gain(90, 200), leads: order('E-B-C'), outline: 'TO-1' }),
  type('OTHER', { limits: gain(90, 200), leads: order('B-E-C'), outline: 'TO-5' }),
  type('SILICON', { material: 'Si', limits: gain(90, 200), leads: order('E-B-C') }),
  type('NPN', { polarity: 'NPN', limits: gain(90, 200), leads: order('E-B-C') }),
]

const part: IdentifiedAs = {
  family: 'BJT',
  technology: 'germanium',
  polarity: 'PNP',
  fault: 'none',
  leads: { 1: 'C', 2: 'B', 3: 'E' },
  probability: 0.99,
  text: 'germanium PNP BJT',
}

const names = (...args: Parameters<typeof candidateTypes>) => candidateTypes(...args).types.map((t) => t.type)

describe('part types that a part may be', () => {
  test('are of its material and polarity; leads may be recorded from the other side', () => {
    expect(names(part, types)).toEqual(['LOW', 'HIGH', 'OTHER'])
    expect(candidateTypes(part, types).types[2]!.because).toEqual(['its leads are B-E-C, not these'])
  })

  test('are ranked by gain, outline and what lies in the drawer', () => {
    expect(names(part, types, { gain: 130 })[0]).toBe('HIGH')
    expect(names(part, types, { gain: 33 })[0]).toBe('LOW')
    expect(names(part, types, { outline: 'TO-5' })).toEqual(['OTHER'])
    expect(names(part, types, { inDrawer: new Map([['HIGH', 3]]) })[0]).toBe('HIGH')
  })

  test('shares add to 1, and it says when many fit', () => {
    const many = Array.from({ length: 40 }, (_, k) => type(`T${k}`, { leads: order('E-B-C') }))
    const found = candidateTypes(part, many)
    expect(found.asGoodAs).toBeCloseTo(40, 6)
    expect(found.types).toHaveLength(10)
    expect(found.say).toMatch(/^Many types fit: 40 on record/)
    const few = candidateTypes(part, types, { gain: 130 })
    expect(few.types.reduce((s, t) => s + t.share, 0)).toBeCloseTo(1, 12)
    expect(candidateTypes({ ...part, family: 'triac' }, types).say).toBe('No type on record is of this kind.')
  })
})
