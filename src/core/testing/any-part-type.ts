import fc from 'fast-check'
import type { Family, Limit, PartType, PowerRating, Ratings } from '#core/device'

/** Random part types, for tests of what must hold whatever the record says or leaves out. */

const span = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log10(min), max: Math.log10(max), noNaN: true }).map((x) => Number((10 ** x).toPrecision(3)))

const anyPower: fc.Arbitrary<PowerRating> = fc.record({
  powerW: span(0.02, 150),
  of: fc.constantFrom('ambient' as const, 'case' as const),
  atC: fc.constantFrom(25, 45, 50),
})

const anyRatings: fc.Arbitrary<Ratings> = fc.record(
  {
    V_CBO: span(5, 400),
    V_CEO: span(3, 300),
    V_CES: span(5, 300),
    V_CER: span(5, 300),
    V_EBO: span(0.3, 30),
    V_PT: span(5, 60),
    I_C: span(1e-3, 30),
    I_B: span(1e-3, 10),
    V_R: span(2, 1000),
    V_RRM: span(2, 1000),
    I_F: span(1e-3, 10),
    'I_F(AV)': span(1e-3, 10),
    T_Jmax: fc.constantFrom(60, 75, 90, 125, 150, 200),
    R_thJA: span(20, 800),
    R_thJC: span(0.5, 100),
    power: fc.array(anyPower, { maxLength: 2 }),
  },
  { requiredKeys: ['power'] },
)

const limit = (symbol: string, unit: string, at: fc.Arbitrary<Limit['at']>, low: number, high: number) =>
  fc.record({ at, a: span(low, high), b: span(low, high), hasMin: fc.boolean(), hasMax: fc.boolean() }).map(
    ({ at: where, a, b, hasMin, hasMax }): Limit => ({
      symbol,
      unit,
      at: where,
      ...(hasMin ? { min: Math.min(a, b) } : {}),
      ...(hasMax || !hasMin ? { max: Math.max(a, b) } : {}),
    }),
  )

const anyLimit: fc.Arbitrary<Limit> = fc.oneof(
  limit('h_FE', '1', fc.record({ I_C: span(1e-4, 10), V_CE: span(0.1, 20) }), 5, 800),
  limit('I_CBO', 'A', fc.record({ V_CB: span(1, 200), T: fc.constantFrom(25, 75) }), 1e-9, 1e-2),
  limit('I_CEO', 'A', fc.record({ V_CE: span(1, 100) }), 1e-8, 1e-1),
  limit('I_EBO', 'A', fc.record({ V_EB: span(0.5, 20) }), 1e-9, 1e-2),
  limit('V_BE(on)', 'V', fc.record({ I_C: span(1e-4, 10), V_CE: span(0.5, 20) }), 0.1, 2),
  limit('V_CE(sat)', 'V', fc.record({ I_C: span(1e-3, 10), I_B: span(1e-4, 1) }), 0.05, 3),
  limit('V_F', 'V', fc.record({ I_F: span(1e-4, 5) }), 0.2, 2),
  limit('I_R', 'A', fc.record({ V_R: span(0.5, 500), T: fc.constantFrom(25, 100) }), 1e-9, 1e-2),
  limit('V_Z', 'V', fc.record({ I_Z: span(1e-3, 0.1) }), 2, 100),
  limit('f_T', 'Hz', fc.record({ I_C: span(1e-3, 1) }), 1e5, 1e9),
)

const outlines = ['TO-1', 'TO-3', 'TO-18', 'TO-92', 'DO-7', 'DO-35', 'SO-2 glass, in line', 'unheard of'] as const

/** Any part type of the families that are planned, with any ratings missing and any limits published. */
export const anyPartType: fc.Arbitrary<PartType> = fc
  .record({
    family: fc.constantFrom<Family>('bjt', 'bjt', 'bjt', 'diode', 'zener', 'jfet'),
    polarity: fc.constantFrom('NPN' as const, 'PNP' as const),
    material: fc.constantFrom('Si' as const, 'Ge' as const),
    outline: fc.option(fc.constantFrom(...outlines), { nil: undefined }),
    ratings: anyRatings,
    limits: fc.array(anyLimit, { maxLength: 8 }),
    confidence: fc.constantFrom('high' as const, 'low' as const),
  })
  .map(({ outline, confidence, polarity, ...t }) => ({
    type: 'ANY-1',
    ...t,
    ...(t.family === 'bjt' ? { polarity } : {}),
    ...(outline === undefined ? {} : { outline }),
    provenance: { kind: 'own', where: ['invented for a test'], confidence },
  }))
