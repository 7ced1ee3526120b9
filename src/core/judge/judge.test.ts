import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Limit, PartType } from '#core/device'
import { FaultError } from '#core/fault'
import { leaf, limitTerm, type Quantity, standardUncertainty, type Term, term } from '#core/quantity'
import type { Doubt, Parameter, PartResult } from '#core/reduce'
import { judge, judgeDefaults } from './judge.ts'
import { judgePart } from './judge-part.ts'
import type { Verdict } from './verdict.ts'

/** An invented type with the limits that a test is about. */
const typeWith = (limits: readonly Limit[], more: Partial<PartType> = {}): PartType => ({
  type: 'TX1',
  family: 'bjt',
  polarity: 'PNP',
  material: 'Ge',
  ratings: { V_CBO: 30, V_CEO: 20, power: [] },
  limits,
  provenance: { kind: 'read', where: ["maker's datasheet"] },
  ...more,
})

const room = (t = 25, u = 0.5): Quantity<'degC'> =>
  leaf(t, 'degC', { kind: 'read', what: 'room temperature', seen: `${t}` }, [
    term('t/thermometer', { label: 'ambient temperature', u: 1, slope: u }),
  ])

const measured = (
  symbol: string,
  value: number,
  u: number,
  conditions: Parameter['conditions'],
  more: Partial<Parameter> & { readonly budget?: readonly Term[] } = {},
): Parameter => {
  const unit = symbol.startsWith('h_') ? '1' : symbol.startsWith('I') ? 'A' : 'V'
  const { budget, ...rest } = more
  return {
    part: 'P1',
    symbol,
    quantity: leaf(
      value,
      unit,
      { kind: 'read', what: symbol, seen: String(value) },
      budget ?? [term(`reading/P1/${symbol}/1/resolution`, { label: 'reading', u })],
    ),
    conditions: { T: 25, ...conditions },
    temperatureC: 25,
    temperatureU: 0.5,
    junction: room(),
    points: [1],
    standing: 'measured',
    doubts: [],
    ...rest,
  }
}

const one = (p: Parameter | readonly Parameter[], limit: Limit, more: Partial<PartType> = {}): Verdict => {
  const verdicts = judge([p].flat() as readonly Parameter[], typeWith([limit], more))
  expect(verdicts).toHaveLength(1)
  return verdicts[0]!
}

const gainLimit: Limit = { symbol: 'h_FE', min: 100, max: 300, unit: '1', at: { I_C: 10e-3, V_CE: 5 } }
const cutoffLimit: Limit = { symbol: 'I_CBO', max: 10e-6, unit: 'A', at: { V_CB: 10, T: 25 } }

describe('common practice: small silicon transistors at 10 mA against a published 100 to 300', () => {
  test.each([175, 187, 200, 210])('a gain of %d conforms, and the working says so', (h) => {
    const v = one(measured('h_FE', h, 0.04 * h, { I_C: 10e-3, V_CE: 4.5 }), gainLimit, { material: 'Si' })
    expect(v.verdict).toBe('conforms')
    expect(v.probability).toBeGreaterThan(0.99)
    expect(v.why).toContain('against 100 to 300')
    expect(v.why).toMatch(/probability that it meets the limit is (above 99\.9|99\.\d|100) %/)
    expect(v.source).toBe("maker's datasheet")
  })
})

describe('a limit at the measured conditions', () => {
  const at = { I_C: 10e-3, V_CE: 5 }
  test.each([
    [150, 5, 'conforms'],
    [85, 5, 'does not conform'],
    [320, 8, 'does not conform'],
    [104, 6, 'undecided'],
    [96, 6, 'undecided'],
  ] as const)('gain %d with u = %d: %s', (h, u, word) =>
    expect(one(measured('h_FE', h, u, at), gainLimit).verdict).toBe(word),
  )
  test('a gain with leakage taken out goes before the plain one, and is named', () => {
    const v = one([measured('h_FE', 130, 2, at), measured('h_FE0', 80, 2, at)], gainLimit)
    expect(v).toMatchObject({ verdict: 'does not conform', symbol: 'h_FE', parameter: 'h_FE0' })
  })
  test('plain germanium gain says that leakage is still in it', () =>
    expect(one(measured('h_FE', 150, 2, at), gainLimit).why).toContain('leakage was not measured'))
  test('typical values are never judged', () =>
    expect(judge([measured('h_FE', 5, 1, at)], typeWith([{ symbol: 'h_FE', typ: 100, unit: '1', at }]))).toEqual([]))
  test('values brought to 25 degC are not judged twice', () => {
    const p = measured('h_FE', 150, 2, at)
    expect(judge([p, { ...p, standing: 'brought to 25 C' }], typeWith([gainLimit]))).toHaveLength(1)
  })
  test('of several points the nearest is compared', () => {
    const v = one(
      [measured('h_FE', 150, 2, { I_C: 25e-3, V_CE: 5 }), measured('h_FE', 180, 2, { I_C: 9e-3, V_CE: 5 })],
      gainLimit,
    )
    expect(v.conditions.I_C).toBe(9e-3)
  })
  test('a limit that was not measured is listed, or left out', () => {
    const p = measured('I_EBO', 1e-6, 1e-8, { V_EB: 5 })
    expect(judge([p], typeWith([cutoffLimit]))).toMatchObject([
      { verdict: 'not comparable', settle: 'Measure I_CBO at V_CB = 10 V, T = 25 °C.' },
    ])
    expect(judge([p], typeWith([cutoffLimit]), { unmeasured: false })).toEqual([])
  })
  test('a unit that does not fit is not compared', () =>
    expect(one(measured('h_FE', 150, 2, at), { ...gainLimit, unit: 'ohm' }).verdict).toBe('not comparable'))
})

describe('gain carried to another operating point', () => {
  test('within three times the current: with its own cause, and wider', () => {
    const p = measured('h_FE0', 200, 4, { I_C: 5e-3, V_CE: 4.5 })
    const v = one(p, gainLimit)
    expect(v.verdict).toBe('conforms')
    expect(v.why).toContain('carried from I_C = 5 mA to 10 mA')
    expect(v.compared!.budget.map((t) => t.cause)).toContain('law/gain-current/P1')
    expect(standardUncertainty(v.compared!)).toBeGreaterThan(2 * standardUncertainty(p.quantity))
  })
  test('further away it is not comparable, and the window is named', () => {
    const v = one(measured('h_FE0', 90, 2, { I_C: 10e-3, V_CE: 4.5 }), { ...gainLimit, at: { I_C: 0.3, V_CE: 1 } })
    expect(v.verdict).toBe('not comparable')
    expect(v.probability).toBeUndefined()
    expect(v.why).toContain('too far from 300 mA')
    expect(v.settle).toContain('100 mA to 900 mA')
  })
  test('at the edge of saturation only failing is proven', () => {
    const limit: Limit = { symbol: 'h_FE', min: 30, unit: '1', at: { I_C: 12e-3, V_CE: 0.15 } }
    const at = { I_C: 12e-3, V_CE: 4.5 }
    expect(one(measured('h_FE0', 80, 2, at), limit).verdict).toBe('not comparable')
    expect(one(measured('h_FE0', 20, 2, at), limit)).toMatchObject({ verdict: 'does not conform' })
  })
  test('V_CB = 0 is the edge of saturation for germanium', () => {
    const limit: Limit = { symbol: 'h_FE', min: 45, unit: '1', at: { I_C: 12e-3, V_CB: 0 } }
    expect(one(measured('h_FE0', 80, 2, { I_C: 12e-3, V_CE: 4.5 }), limit).verdict).toBe('not comparable')
  })
  test('an unknown collector current compares with nothing', () =>
    expect(one(measured('h_FE', 200, 4, {}), gainLimit)).toMatchObject({ verdict: 'not comparable' }))
  test('a limit at 1 kHz holds for slow changes, one at 1 MHz does not', () => {
    const p = measured('h_fe', 200, 4, { I_C: 10e-3, V_CE: 5 })
    const limit = (f: number): Limit => ({ ...gainLimit, symbol: 'h_fe', at: { ...gainLimit.at, f } })
    expect(one(p, limit(1000)).verdict).toBe('conforms')
    expect(one(p, limit(1e6)).verdict).toBe('not comparable')
  })
})

describe('leakage carried to another condition', () => {
  const at = (V_CB: number, T = 25): Partial<Parameter> => ({
    conditions: { V_CB, T },
    temperatureC: T,
    junction: room(T),
  })
  const cutoff = (value: number, V_CB: number, T = 25, u = 0.02 * value): Parameter =>
    measured('I_CBO', value, u, {}, at(V_CB, T))
  test('to a higher voltage, within three times: with its own cause', () => {
    const v = one(cutoff(3e-6, 4.5), cutoffLimit)
    expect(v.verdict).toBe('conforms')
    expect(v.why).toContain('carried from 4.5 V to 10 V')
    expect(v.compared!.budget.map((t) => t.cause)).toContain('law/voltage-exponent/I_CBO/P1')
    expect(v.compared!.value).toBeCloseTo(3e-6 * Math.sqrt(10 / 4.5), 12)
  })
  test('what fails at a lower voltage fails', () => {
    const limit = { ...cutoffLimit, at: { V_CB: 25, T: 25 } }
    const v = one(cutoff(15e-6, 4.5), limit)
    expect(v).toMatchObject({ verdict: 'does not conform' })
    expect(v.why).toContain('is at least')
  })
  test('what passes at a lower voltage is not thereby proven', () => {
    const v = one(cutoff(0.5e-6, 4.5), { ...cutoffLimit, at: { V_CB: 25, T: 25 } })
    expect(v.verdict).toBe('not comparable')
    expect(v.settle).toBe('Measure I_CBO at V_CB = 25 V.')
  })
  test('what passes at a higher voltage passes at a lower one', () => {
    const limit = { ...cutoffLimit, at: { V_CB: 1.5, T: 25 } }
    expect(one(cutoff(5e-6, 9), limit).verdict).toBe('conforms')
    expect(one(cutoff(15e-6, 9), limit).verdict).toBe('not comparable')
  })
  test('nothing is carried up to near breakdown', () => {
    const type = { ratings: { V_CBO: 12, power: [] } }
    expect(one(cutoff(0.5e-6, 4.5), cutoffLimit, type).verdict).toBe('not comparable')
    expect(one(cutoff(0.5e-6, 4.5), cutoffLimit).verdict).toBe('conforms')
  })
  test('to another temperature, the law and the thermometer in the budget', () => {
    const v = one(cutoff(3e-6, 10, 18), cutoffLimit)
    expect(v.verdict).toBe('conforms')
    expect(v.why).toContain('brought from 18 °C to 25 °C')
    expect(v.compared!.value).toBeCloseTo(3e-6 * 2 ** 0.7, 12)
    expect(v.compared!.budget.map((t) => t.cause)).toEqual(
      expect.arrayContaining(['law/doublings/I_CBO/P1', 't/thermometer']),
    )
  })
  test('a limit at 80 degC: only failing is proven at room temperature', () => {
    const limit: Limit = { symbol: 'I_CBO', max: 90e-6, unit: 'A', at: { V_CB: 10, T: 80 } }
    expect(one(cutoff(5e-6, 10, 22), limit).verdict).toBe('not comparable')
    expect(one(cutoff(120e-6, 10, 22), limit).verdict).toBe('does not conform')
  })
  test('voltage and temperature that point apart compare with nothing', () => {
    const limit: Limit = { symbol: 'I_CBO', max: 1e-6, unit: 'A', at: { V_CB: 1.5, T: 60 } }
    expect(one(cutoff(5e-6, 10, 22), limit).why).toContain('one condition makes it larger')
  })
  test('a voltage nobody wrote down', () =>
    expect(one(measured('I_CBO', 1e-6, 1e-8, {}), cutoffLimit).why).toContain('was not written down'))
  test('a reading of nothing on a coarse scale decides nothing about nanoamperes', () => {
    const limit: Limit = { symbol: 'I_CBO', max: 15e-9, unit: 'A', at: { V_CB: 5, T: 25 } }
    const v = one(measured('I_CBO', 0, 0.1e-6, { V_CB: 4.9 }), limit, { material: 'Si' })
    expect(v.verdict).toBe('undecided')
    expect(v.settle).toContain('finer range')
  })
  test('but passes a limit of microamperes', () =>
    expect(one(measured('I_CBO', 0, 0.1e-6, { V_CB: 4.9 }), cutoffLimit).verdict).toBe('conforms'))
})

describe('voltages', () => {
  test('V_BE is carried by current and temperature', () => {
    const limit: Limit = { symbol: 'V_BE(on)', max: 0.77, unit: 'V', at: { I_C: 10e-3, V_CE: 5 } }
    const p = measured('V_BE', 0.66, 0.002, { I_C: 2e-3 }, { junction: room(21) })
    const v = one(p, limit, { material: 'Si' })
    expect(v.verdict).toBe('conforms')
    expect(v.compared!.value).toBeCloseTo(0.66 + 1.25 * 0.02535 * Math.log(5) - 0.008, 3)
  })
  test('V_F far from the current of the limit: only one side is proven', () => {
    const limit: Limit = { symbol: 'V_F', max: 1, unit: 'V', at: { I_F: 1 } }
    const at = (vf: number): Parameter => measured('V_F', vf, 0.002, { I_F: 10e-3 })
    expect(one(at(0.65), limit, { material: 'Si' }).verdict).toBe('not comparable')
    expect(one(at(1.2), limit, { material: 'Si' }).verdict).toBe('does not conform')
  })
  test('V_CE(sat) is compared at its currents, or on the safe side of them', () => {
    const limit: Limit = { symbol: 'V_CE(sat)', max: 0.25, unit: 'V', at: { I_C: 10e-3, I_B: 0.5e-3 } }
    const sat = (v: number, I_C: number, I_B: number): Verdict =>
      one(measured('V_CE(sat)', v, 0.003, { I_C, I_B }), limit)
    expect(sat(0.12, 10e-3, 0.5e-3).verdict).toBe('conforms')
    expect(sat(0.12, 20e-3, 0.4e-3).verdict).toBe('conforms')
    expect(sat(0.12, 5e-3, 1e-3).verdict).toBe('not comparable')
    expect(sat(0.4, 5e-3, 1e-3).verdict).toBe('does not conform')
    expect(sat(0.4, 20e-3, 0.4e-3).verdict).toBe('not comparable')
    expect(sat(0.12, 20e-3, 1e-3).verdict).toBe('not comparable')
  })
})

describe('what would settle it', () => {
  const at = { I_C: 10e-3, V_CE: 5 }
  const undecided = (budget: readonly Term[], h = 105): Verdict => {
    const v = one(measured('h_FE', h, 0, at, { budget }), gainLimit)
    expect(v.verdict).toBe('undecided')
    return v
  }
  const causes: readonly (readonly [Term, RegExp])[] = [
    [term('reading/P1/I_B/1/resolution', { label: 'reading', u: 5 }), /finer range, or take 3 readings/],
    [
      term('willow/movement/sensitivity', { label: 'class 1.5 movement', u: 5 }),
      /hold the movement against a better meter/,
    ],
    [limitTerm('willow/range/1 mA/shunt', 'shunt', 8), /measure the shunt/],
    [term('willow/gain/200/dial', { label: 'dial', u: 5 }), /read I_C and I_B in place of the dial/],
    [term('heron/range/20 mA/gain', { label: '20 mA: 1 % of reading', u: 5 }), /better instrument/],
    [term('willow/thermometer', { label: 'ambient temperature', u: 5 }), /as warm as the room/],
  ]
  test.each(causes)('where $cause rules', (t, mend) => {
    const v = undecided([t])
    expect(v.settle).toMatch(mend)
    expect(v.settle).toContain('The standard uncertainty must come down from')
    expect(v.needU).toBeCloseTo(5 / 1.6448536, 2)
  })
  test('a carried value is to be measured where the limit holds', () => {
    const p = measured('I_CBO', 6e-6, 0.05e-6, { V_CB: 4.5 })
    expect(one(p, cutoffLimit).settle).toMatch(/the law it was carried over by.*V_CB = 10 V/)
    const cold = measured('I_CBO', 4e-6, 0.05e-6, { V_CB: 10 }, { junction: room(12), temperatureC: 12 })
    expect(one(cold, cutoffLimit).settle).toMatch(/room and part at 25 °C/)
  })
  test('a value on the limit is not worth more readings', () =>
    expect(undecided([term('reading/P1/h_FE/1/resolution', { label: 'reading', u: 5 })], 100).settle).toContain(
      'hardly any reading',
    ))
  test('every undecided verdict says what would settle it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 60, max: 340, noNaN: true }),
        fc.double({ min: 0.5, max: 60, noNaN: true }),
        (h, u) => {
          const v = one(measured('h_FE', h, u, at), gainLimit)
          if (v.verdict === 'undecided') expect(v.settle!.length).toBeGreaterThan(20)
          else expect(v.settle).toBeUndefined()
        },
      ),
    )
  })
})

describe('what decides nothing', () => {
  const at = { I_C: 10e-3, V_CE: 5 }
  test('a record of low confidence never fails a part', () => {
    const provenance = { kind: 'memory', confidence: 'low', where: [] } as const
    const bad = one(measured('h_FE', 20, 1, at), gainLimit, { provenance })
    expect(bad.verdict).toBe('undecided')
    expect(bad.settle).toContain("find the maker's datasheet")
    expect(bad.source).toContain('from memory')
    expect(one(measured('h_FE', 200, 1, at), gainLimit, { provenance }).verdict).toBe('conforms')
  })
  test('a record from memory of good confidence does', () => {
    const provenance = { kind: 'memory', confidence: 'high', where: [] } as const
    const v = one(measured('h_FE', 20, 1, at), gainLimit, { provenance })
    expect(v).toMatchObject({ verdict: 'does not conform', source: 'from memory: check the datasheet' })
  })
  const nonsense: Doubt = {
    code: 'gain-negative',
    say: 'The gain comes out negative. Check the leads.',
    weight: 'nonsense',
  }
  test('nonsense makes a verdict undecided, with the reason', () => {
    const v = one(measured('h_FE', -20, 1, at, { doubts: [nonsense] }), gainLimit)
    expect(v).toMatchObject({ verdict: 'undecided', settle: nonsense.say })
    expect(v.why).toContain(nonsense.say)
  })
  test('a value without nonsense goes first', () => {
    const v = one([measured('h_FE0', -20, 1, at, { doubts: [nonsense] }), measured('h_FE', 150, 2, at)], gainLimit)
    expect(v).toMatchObject({ verdict: 'conforms', parameter: 'h_FE' })
  })
  test('a notice changes nothing', () => {
    const doubts: Doubt[] = [{ ...nonsense, weight: 'notice' }]
    expect(one(measured('h_FE', 150, 2, at, { doubts }), gainLimit).verdict).toBe('conforms')
  })
})

describe('rules', () => {
  const p = measured('h_FE', 104, 6, { I_C: 10e-3, V_CE: 5 })
  test('simple acceptance goes by the value', () => {
    const rule = { kind: 'simple', probability: 0.5 } as const
    expect(judge([p], typeWith([gainLimit]), { rule })[0]).toMatchObject({ verdict: 'conforms', rule })
  })
  test('a milder guard decides more', () => {
    const rule = { kind: 'guarded', probability: 0.7 } as const
    expect(judge([p], typeWith([gainLimit]), { rule })[0]!.verdict).toBe('conforms')
    expect(judgeDefaults.rule.probability).toBe(0.95)
  })
  test('a probability that makes no sense is refused', () => {
    for (const probability of [0.5, 1, 0, Number.NaN])
      expect(() => judge([p], typeWith([gainLimit]), { rule: { kind: 'guarded', probability } })).toThrow(FaultError)
  })
})

describe('a whole part', () => {
  const at = { I_C: 10e-3, V_CE: 5 }
  const type = typeWith([gainLimit, cutoffLimit])
  const result = (parameters: readonly Parameter[], more: Partial<PartResult> = {}): PartResult => ({
    part: 'P1',
    state: 'measured',
    parameters,
    doubts: [],
    ...more,
  })
  const good = measured('h_FE', 180, 3, at)
  test('is as good as its worst verdict', () => {
    const leaky = measured('I_CBO', 30e-6, 0.5e-6, { V_CB: 10 })
    const near = measured('I_CBO', 10.2e-6, 0.5e-6, { V_CB: 10 })
    expect(judgePart(result([good]), type)).toMatchObject({
      word: 'conforms',
      why: 'It meets the limit it could be held against.',
    })
    expect(judgePart(result([good, near]), type).word).toBe('undecided')
    expect(judgePart(result([good, leaky]), type).word).toBe('does not conform')
  })
  test('shorted or open does not conform; unknown stays undecided', () => {
    expect(judgePart(result([], { state: 'short' }), type)).toMatchObject({
      word: 'does not conform',
      why: 'It is shorted.',
    })
    expect(judgePart(result([], { state: 'open' }), type).word).toBe('does not conform')
    expect(judgePart(result([good]), undefined).word).toBe('undecided')
    expect(judgePart(result([]), type).word).toBe('undecided')
  })
  test('a part that shows nonsense is not passed', () => {
    const doubts: Doubt[] = [{ code: 'x', say: 'Something is odd. Look again.', weight: 'nonsense' }]
    expect(judgePart(result([good], { doubts }), type)).toMatchObject({ word: 'undecided', why: doubts[0]!.say })
  })
})

test('parts are judged apart, and the order of parameters does not matter', () => {
  const parameters = ['A', 'B', 'C'].flatMap((part, i) => [
    measured('h_FE', 90 + 40 * i, 3, { I_C: 10e-3, V_CE: 5 }, { part }),
    measured('h_FE', 100 + 40 * i, 3, { I_C: 4e-3, V_CE: 5 }, { part }),
    measured('I_CBO', 5e-6 * (i + 1), 1e-8, { V_CB: 10 }, { part }),
  ])
  const sorted = (v: readonly Verdict[]): readonly Verdict[] =>
    [...v].sort((a, b) => (a.part + a.symbol < b.part + b.symbol ? -1 : 1))
  const expected = sorted(judge(parameters, typeWith([gainLimit, cutoffLimit])))
  expect(expected).toHaveLength(6)
  fc.assert(
    fc.property(fc.shuffledSubarray(parameters, { minLength: parameters.length }), (shuffled) => {
      expect(sorted(judge(shuffled, typeWith([gainLimit, cutoffLimit])))).toEqual(expected)
    }),
    { numRuns: 20 },
  )
})
