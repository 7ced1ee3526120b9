import { beforeAll, describe, expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import { contradictionsIn, type PartType } from '#core/device'

let catalog: readonly PartType[]

beforeAll(async () => {
  catalog = await loadCatalog()
})

const doubtOf = ({ provenance }: PartType): string | undefined => /In doubt: (.+)$/.exec(provenance.note ?? '')?.[1]
const named = (type: string): PartType => catalog.find((t) => t.type === type)!

describe('records that disagree with themselves', () => {
  test('say so in their notes, and no others do', () => {
    const found = catalog.filter((t) => contradictionsIn(t).length > 0).map((t) => t.type)
    expect(catalog.filter((t) => doubtOf(t) !== undefined).map((t) => t.type)).toEqual(found)
    // as docs/reference/part-types.md tells
    expect(found).toHaveLength(48)
  })

  test('are these, each for one reason', () => {
    const others = catalog.filter((t) => contradictionsIn(t).length > 0 && !/^1N47[2-6]\dA$/.test(t.type))
    const reasons = others.map((t) => `${t.type}: ${contradictionsIn(t).join(' ')}`)
    expect(reasons.sort()).toEqual([
      '2N404: 150 mW at air of 25 °C less 2 mW/K is nothing at 100 °C, and T_Jmax is 85 °C.',
      '2N464: 150 mW at air of 25 °C less 2 mW/K is nothing at 100 °C, and T_Jmax is 85 °C.',
      '2N465: 150 mW at air of 25 °C less 2 mW/K is nothing at 100 °C, and T_Jmax is 85 °C.',
      '2N467: 150 mW at air of 25 °C less 2 mW/K is nothing at 100 °C, and T_Jmax is 85 °C.',
      'AD149: 22.5 W at a case of 50 °C and 2 K/W: the junction would be at 95 °C, and T_Jmax is 100 °C.',
      'BC107: Rank C, 420 to 800, is outside the gains of the type.',
      'BC109: Rank A, 110 to 220, is outside the gains of the type.',
      'BC546: Rank C, 420 to 800, is outside the gains of the type.',
      'BC549: Rank A, 110 to 220, is outside the gains of the type.',
      'BC550: Rank A, 110 to 220, is outside the gains of the type.',
      'BC556: Rank C, 420 to 800, is outside the gains of the type.',
    ])
  })

  test('the 1 W Zener diodes: their derating ends at 200 °C, and the junction is rated 175 °C', () => {
    const zeners = catalog.filter((t) => /^1N47[2-6]\dA$/.test(t.type) && contradictionsIn(t).length > 0)
    expect(zeners).toHaveLength(37)
    for (const t of zeners)
      expect(contradictionsIn(t)).toEqual([
        '1 W at a case of 50 °C less 6.67 mW/K is nothing at 200 °C, and T_Jmax is 175 °C.',
      ])
  })
})

/** As its JAN maker prints them; 1 / 35 K/W is 28.6 mW/K, and 1 / 4.57 mW/K is 219 K/W: (200 - 25) / 5 and / 0.8. */
test.each(['2N3439', '2N3440'])('%s has the power that its thermal resistance allows', (type) => {
  const { ratings, provenance } = named(type)
  expect(ratings).toMatchObject({
    T_Jmax: 200,
    R_thJC: 35,
    power: [
      { powerW: 0.8, of: 'ambient', atC: 25, deratingWPerK: 0.00457 },
      { powerW: 5, of: 'case', atC: 25, deratingWPerK: 0.0285 },
    ],
  })
  expect(provenance.where.join(' ')).toContain('MIL-PRF-19500/368F')
  expect(provenance.where.join(' ')).toContain('5 W at the case')
})

describe('what is a contradiction', () => {
  const sound: PartType = {
    type: 'X1',
    family: 'bjt',
    ratings: {
      V_CBO: 40,
      V_CEO: 30,
      I_C: 0.5,
      T_Jmax: 175,
      R_thJA: 300,
      power: [{ powerW: 0.5, of: 'ambient', atC: 25 }],
    },
    limits: [{ symbol: 'h_FE', min: 50, max: 150, unit: '1', at: { I_C: 0.01, V_CE: 5 } }],
    provenance: { kind: 'own', where: [] },
  }
  const limit = (symbol: string, more: object, at: object = {}) =>
    ({ symbol, unit: '1', at, ...more }) as PartType['limits'][number]
  const having = (limits: PartType['limits']): PartType => ({ ...sound, limits: [...sound.limits, ...limits] })
  const rated = (ratings: Partial<PartType['ratings']>): PartType => ({
    ...sound,
    ratings: { ...sound.ratings, ...ratings },
  })

  test('a sound record has none', () => expect(contradictionsIn(sound)).toEqual([]))

  test.each<readonly [string, PartType, RegExp]>([
    ['power beyond R_th', rated({ R_thJA: 600 }), /junction would be at 325 °C, and T_Jmax is 175 °C/],
    ['power at the junction itself', rated({ power: [{ powerW: 1, of: 'case', atC: 175 }] }), /1 W at a case of 175/],
    ['case worse than air', rated({ R_thJC: 400 }), /R_thJC 400 K\/W is above R_thJA 300 K\/W/],
    ['V_CEO above V_CBO', rated({ V_CEO: 60 }), /V_CEO 60 V is above V_CBO 40 V/],
    ['bounds turned round', having([limit('f_T', { min: 2, max: 1 })]), /f_T: 2, 1 are out of order/],
    ['a test beyond a rating', having([limit('I_CBO', { max: 1 }, { V_CB: 50 })]), /I_CBO is tested at V_CB 50/],
    ['breakdown below the rating', having([limit('V_(BR)CEO', { min: 25 }, { I_C: 1e-3 })]), /may be 25, below/],
    [
      'bounds that no part meets',
      having([limit('h_FE', { max: 40 }, { V_CE: 5, I_C: 0.01 })]),
      /h_FE is to be 50 or more, and 40 or less/,
    ],
    ['no source', { ...sound, provenance: { kind: 'read', where: [] } }, /names no source/],
  ])('%s', (_, t, say) => expect(contradictionsIn(t).join(' ')).toMatch(say))
})
