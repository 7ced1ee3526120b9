import { describe, expect, test } from 'vitest'
import { leadOrderDoubt } from './lead-order.ts'
import { type Limit, type PartType, provenanceText, type Ratings } from './part-type.ts'
import { collectorBaseLimitV, collectorLimitV, currentLimitA, emitterLimitV, reverseLimitV } from './test-limits.ts'

const typeWith = (
  ratings: Partial<Ratings>,
  family: PartType['family'] = 'bjt',
  limits: readonly Limit[] = [],
): PartType => ({
  type: 'GX-17',
  family,
  ratings: { power: [], ...ratings },
  limits,
  provenance: { kind: 'own', where: [] },
})

describe('collectorLimitV', () => {
  test('the lowest published rating with open base', () => {
    expect(collectorLimitV(typeWith({ V_CBO: 30, V_CEO: 16 }))).toEqual({
      value: 16,
      how: 'published V_CEO',
      published: true,
    })
    expect(collectorLimitV(typeWith({ V_CBO: 30, V_CEO: 16, V_PT: 12 }))).toMatchObject({
      value: 12,
      how: 'published V_PT',
    })
    const sustaining: Limit = { symbol: 'V_CEO(sus)', min: 14, unit: 'V', at: { I_C: 0.2 } }
    expect(collectorLimitV(typeWith({ V_CEO: 16 }, 'bjt', [sustaining]))).toMatchObject({
      value: 14,
      how: 'published V_CEO(sus)',
    })
  })

  const gain = (max: number, atV: number): Limit => ({ symbol: 'h_FE', min: 20, max, unit: '1', at: { V_CE: atV } })

  test('where V_CEO is not published, worked out from the other ratings and the gain', () => {
    const germanium = { ...typeWith({ V_CBO: 30 }, 'bjt', [gain(125, 2)]), material: 'Ge' } as const
    expect(collectorLimitV(germanium)).toEqual({
      // 30 V / 125^(1/3)
      value: expect.closeTo(6, 12),
      how: 'V_CEO is not published: it is worked out from the other ratings and the gain, V_CBO / h_FE^(1/n)',
      published: false,
    })
    const silicon = typeWith({ V_CBO: 60, V_CER: 40 }, 'bjt', [gain(256, 1)])
    expect(collectorLimitV({ ...silicon, polarity: 'NPN', material: 'Si' })?.value).toBeCloseTo(10, 12)
    expect(collectorLimitV({ ...silicon, polarity: 'PNP', material: 'Si' })?.value).toBe(2.5)
    expect(collectorLimitV({ ...germanium, limits: [] })?.value).toBeCloseTo(30 / 100 ** (1 / 3), 12)
  })

  test('never below a V_CE at which the gain is published, nor above V_PT', () => {
    const t = { ...typeWith({ V_CBO: 30 }, 'bjt', [gain(125, 9)]), material: 'Ge' } as const
    expect(collectorLimitV(t)).toMatchObject({
      value: 9,
      how: 'V_CEO is not published: the V_CE at which its gain is published is taken',
    })
    expect(collectorLimitV({ ...t, ratings: { ...t.ratings, V_PT: 8 } })).toMatchObject({
      value: 8,
      how: 'published V_PT',
      published: true,
    })
    expect(collectorLimitV(typeWith({}))).toBeUndefined()
  })
})

describe('other bounds of a test', () => {
  test('collector-base and emitter-base voltage', () => {
    expect(collectorBaseLimitV(typeWith({ V_CBO: 30, V_CEO: 16 }))?.value).toBe(30)
    expect(collectorBaseLimitV(typeWith({ V_CEO: 16 }))).toMatchObject({
      value: 16,
      how: 'V_CBO is not published: the published V_CEO is taken',
    })
    expect(collectorBaseLimitV(typeWith({}))).toBeUndefined()
    expect(emitterLimitV(typeWith({ V_EBO: 5 }))?.value).toBe(5)
    expect(emitterLimitV(typeWith({}))).toBeUndefined()
  })

  test('reverse voltage of a diode, never of a Zener diode', () => {
    expect(reverseLimitV(typeWith({ V_R: 60, V_RRM: 75 }, 'diode'))).toMatchObject({ value: 60, how: 'published V_R' })
    expect(reverseLimitV(typeWith({ V_RRM: 50 }, 'diode'))?.value).toBe(50)
    expect(reverseLimitV(typeWith({ V_R: 5 }, 'zener'))).toBeUndefined()
  })

  test('current by family', () => {
    expect(currentLimitA(typeWith({ I_C: 0.1 }))).toMatchObject({ value: 0.1, how: 'published I_C' })
    expect(currentLimitA(typeWith({ I_F: 0.2, 'I_F(AV)': 0.15 }, 'diode'))?.value).toBe(0.15)
    expect(currentLimitA(typeWith({ other: { I_ZM: 0.07 } }, 'zener'))?.value).toBe(0.07)
    expect(currentLimitA(typeWith({ other: { 'I_T(RMS)': 4 } }, 'scr'))?.value).toBe(4)
    expect(currentLimitA(typeWith({ other: { I_D: 0.2 } }, 'mosfet'))?.value).toBe(0.2)
    expect(currentLimitA(typeWith({ other: { 'I_E(RMS)': 0.05 } }, 'ujt'))?.value).toBe(0.05)
    expect(currentLimitA(typeWith({}))).toBeUndefined()
  })

  test('a Zener current from its power where I_ZM is not published', () => {
    const power = [
      { powerW: 0.5, of: 'case', atC: 25 },
      { powerW: 0.4, of: 'ambient', atC: 50 },
    ] as const
    const voltage: Limit = { symbol: 'V_Z', min: 7.6, max: 8, unit: 'V', at: { I_Z: 0.005 } }
    expect(currentLimitA(typeWith({ power }, 'zener', [voltage]))).toMatchObject({ value: 0.05, published: false })
    expect(currentLimitA(typeWith({ power }, 'zener'))).toBeUndefined()
  })
})

describe('leadOrderDoubt', () => {
  const view = 'bottom view'
  test('none where the order is settled', () => {
    expect(leadOrderDoubt({ ...typeWith({}), leads: { order: 'E-B-C', view } })).toBeUndefined()
  })

  test('a sentence for each kind of doubt', () => {
    expect(leadOrderDoubt(typeWith({}))).toMatch(/^The lead order of GX-17 is not on record\. /)
    expect(
      leadOrderDoubt({ ...typeWith({}), leads: { order: 'verify', view, variants: 'C-E-B or B-E-C by maker' } }),
    ).toBe(
      'The lead order of GX-17 is not settled (C-E-B or B-E-C by maker). Find the leads by a junction test before you connect it.',
    )
    expect(leadOrderDoubt({ ...typeWith({}), leads: { order: 'C-B-E', view, variants: 'GX-17L: E-C-B' } })).toBe(
      'The leads of GX-17 are C-B-E, but that is not sure (GX-17L: E-C-B). If the first readings look odd, suspect another lead order.',
    )
  })
})

describe('provenanceText', () => {
  test('read, remembered, own', () => {
    const where = ['House sheet 3', 'House sheet 4']
    expect(provenanceText({ kind: 'read', where })).toBe('House sheet 3; House sheet 4')
    expect(provenanceText({ kind: 'read', where, recalled: 'V_EBO' })).toBe(
      'House sheet 3; House sheet 4 (from memory: V_EBO)',
    )
    expect(provenanceText({ kind: 'memory', confidence: 'high', where: [] })).toBe('from memory: check the datasheet')
    expect(provenanceText({ kind: 'memory', confidence: 'low', where: [] })).toBe(
      'from memory: check the datasheet (low confidence: a guide only)',
    )
    expect(provenanceText({ kind: 'own', where: [] })).toBe('own record')
  })
})
