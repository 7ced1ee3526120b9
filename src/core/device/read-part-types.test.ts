import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Fault, FaultError } from '#core/fault'
import { partTypesFromData, readPartTypes } from './read-part-types.ts'
import { partTypeExample } from './type-example.ts'
import { partTypeSchema } from './type-schema.ts'

function faultsOf(text: string): readonly Fault[] {
  try {
    readPartTypes(text, { file: 'own.yaml' })
  } catch (e) {
    if (e instanceof FaultError) return e.faults
    throw e
  }
  return []
}

const messageOf = (text: string): string => new FaultError(faultsOf(text)).message

const head = 'type: GX-17\nfamily: bjt\npolarity: PNP\n'

describe('readPartTypes', () => {
  test('the example reads', () => {
    const [first, second] = readPartTypes(partTypeExample)
    expect(first).toEqual({
      type: 'GX-17',
      family: 'bjt',
      polarity: 'PNP',
      material: 'Ge',
      construction: 'alloy junction',
      outline: 'TO-1',
      leads: { order: 'E-B-C', view: 'three leads in line, collector by the dot', caseConnected: 'insulated' },
      ratings: {
        V_CBO: 30,
        V_CEO: 15,
        V_EBO: 10,
        I_C: 0.15,
        T_Jmax: 75,
        power: [{ powerW: 0.15, of: 'ambient', atC: 25 }],
      },
      limits: [
        { symbol: 'h_FE', min: 40, typ: 75, max: 130, unit: '1', at: { I_C: 0.002, V_CE: 4.5 } },
        { symbol: 'I_CBO', max: 12e-6, unit: 'A', at: { V_CB: 10, T: 25 } },
        { symbol: 'V_CE(sat)', max: 0.2, unit: 'V', at: { I_C: 0.05, I_B: 0.0025 } },
      ],
      use: 'audio driver',
      provenance: { kind: 'own', where: ['House sheet GX, 1964, page 3'] },
    })
    expect(second).toMatchObject({
      type: 'GX-80',
      family: 'diode',
      ratings: { V_R: 40, I_F: 0.03, T_Jmax: 75, power: [] },
    })
  })

  test('one type, a list, or a list under types; numbers are SI; symbols may be written plainly', () => {
    const [one] = readPartTypes(
      `${head}limits: [{ symbol: hFE, min: 30, at: { I_C: 0.001 } }, { symbol: ICBO, max: 1.2e-5 }]`,
    )
    expect(one?.limits).toEqual([
      { symbol: 'h_FE', min: 30, unit: '1', at: { I_C: 0.001 } },
      { symbol: 'I_CBO', max: 1.2e-5, unit: 'A', at: {} },
    ])
    expect(readPartTypes(JSON.stringify([{ type: 'A1', family: 'diode' }]))).toHaveLength(1)
    expect(one?.provenance).toEqual({ kind: 'own', where: [] })
  })

  test('powers in words', () => {
    const power = (text: string): unknown => readPartTypes(`${head}ratings:\n  power: ${text}`)[0]!.ratings.power
    expect(power('150 mW')).toEqual([{ powerW: 0.15, of: 'ambient', atC: 25 }])
    expect(power('[4 W at 60 degC case, 0.6W at 45 C ambient]')).toEqual([
      { powerW: 4, of: 'case', atC: 60 },
      { powerW: 0.6, of: 'ambient', atC: 45 },
    ])
    expect(messageOf(`${head}ratings: { power: 150 mA at 25 degC }`)).toContain(
      'Write it as 150 mW at 25 degC ambient.',
    )
  })

  test('a symbol that is not in the list needs its unit', () => {
    expect(messageOf(`${head}limits:\n  - { symbol: F_noise, max: 10 }`)).toContain(
      'own.yaml, line 5:15, limits[1].symbol: "F_noise" is not a letter symbol',
    )
    const [t] = readPartTypes(`${head}limits:\n  - { symbol: F_noise, max: 10, unit: '1' }`)
    expect(t?.limits[0]).toEqual({ symbol: 'F_noise', max: 10, unit: '1', at: {} })
    expect(messageOf(`${head}limits:\n  - { symbol: I_CBO, max: 10, unit: uA }`)).toContain(
      '"uA" is not the unit of this symbol. I_CBO is in A: write the prefix with the value',
    )
    expect(messageOf(`${head}limits:\n  - { symbol: I_CBO, max: 10, unit: V }`)).toContain('I_CBO is in A')
  })

  test('all faults come together, each with line, path, value and mend', () => {
    const message = messageOf(`${head}materiel: Ge
ratings:
  V_CEO: 15 mA
  I_C: -150 mA
  V_CE0: 15 V
limits:
  - { symbol: h_FE, min: 130, max: 40, at: { I_C: 2 mV } }
  - { symbol: I_CBO, at: { V_CB: 10 V } }
`)
    expect(message).toContain(
      'own.yaml, line 4:1, materiel: "materiel" is not a key that is known here. Did you mean material?',
    )
    expect(message).toContain('line 6:10, ratings.V_CEO: "15 mA" is a current, not a voltage.')
    expect(message).toContain('line 7:8, ratings.I_C: "-150 mA" is not above zero. Ratings are magnitudes')
    expect(message).toContain('ratings.V_CE0: "V_CE0" is not a key that is known here. Did you mean')
    expect(message).toContain('line 10:51, limits[1].at.I_C: "2 mV" is a voltage, not a current.')
    expect(message).toContain('limits[2]')
    const lines = [...message.matchAll(/line (\d+)/g)].map((m) => Number(m[1]))
    expect(lines).toEqual([4, 6, 7, 8, 10, 11])
  })

  test('bounds out of order, a missing polarity and a number given twice', () => {
    expect(messageOf(`${head}limits: [{ symbol: h_FE, min: 130, max: 40 }]`)).toContain(
      'limits[1].min: "130" is above max.',
    )
    expect(messageOf(`${head}limits: [{ symbol: h_FE, min: 30, typ: 20 }]`)).toContain('is not between min and max')
    expect(messageOf(`${head}limits: [{ symbol: h_FE }]`)).toContain(
      'has no min, typ or max. Add a line such as max: 10 uA.',
    )
    expect(messageOf('type: GX-17\nfamily: bjt')).toContain('is missing. Write polarity: NPN or polarity: PNP.')
    expect(messageOf('type: GX-17\nfamily: bjt\npolarity: N')).toContain(
      '"N" is not a polarity of a bipolar transistor',
    )
    expect(messageOf('family: diode')).toContain('"type" is missing. Add a line such as type: GX-17')
    const twice = 'types:\n  - { type: GX-17, family: diode }\n  - { type: gx17, family: diode }'
    expect(messageOf(twice)).toBe(
      'own.yaml, line 3:13, types[2].type: "gx17" is given twice. Keep one of the two records.',
    )
  })

  test('ratings of other families take the unit of their letter', () => {
    const [t] = readPartTypes(
      'type: GX-90\nfamily: scr\nratings: { other: { V_DRM: 100 V, I_T(RMS): 800 mA, P_GM: 0.1 } }',
    )
    expect(t?.ratings.other).toEqual({ V_DRM: 100, 'I_T(RMS)': 0.8, P_GM: 0.1 })
    expect(messageOf('type: GX-90\nfamily: scr\nratings: { other: { V_DRM: 100 mA } }')).toContain(
      'ratings.other.V_DRM: "100 mA" is a current',
    )
  })

  test('data that were read elsewhere are held to the same schema', () => {
    expect(partTypesFromData({ type: 'GX-17', family: 'diode' })).toHaveLength(1)
    expect(() => partTypesFromData({ type: 'GX-17', family: 'valve' })).toThrow(
      'family: "valve" is not a word allowed here',
    )
    expect(() => partTypesFromData(undefined)).toThrow(FaultError)
  })

  test('any text gives types or faults, never anything else', () => {
    const keys = fc.constantFrom('type', 'family', 'polarity', 'ratings', 'limits', 'types', 'source', 'leads', 'x')
    const value = fc.oneof(
      fc.string(),
      fc.double(),
      fc.constantFrom('bjt', 'PNP', '12 mA', null, true),
      fc.array(fc.string(), { maxLength: 2 }),
    )
    const data = fc.oneof(fc.anything(), fc.dictionary(keys, fc.oneof(value, fc.dictionary(keys, value))))
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          data.map((d) => JSON.stringify(d) ?? ''),
        ),
        (text) => {
          try {
            return Array.isArray(readPartTypes(text))
          } catch (e) {
            return e instanceof FaultError
          }
        },
      ),
      { numRuns: 500 },
    )
  })
})

describe('partTypeSchema', () => {
  test('is a JSON Schema of what may be written', () => {
    const text = JSON.stringify(partTypeSchema())
    expect(text).toContain('"$schema"')
    expect(text).toContain('"V_CEO"')
    expect(text).toContain('"additionalProperties":false')
    expect(text).toContain('12.5 uA')
  })
})
