import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { temperatureFormulas, thermalVoltage } from '#core/physics'
import { type AnyFormula, derive, leaf, numericSlopes, type Quantity, standardUncertainty, term } from '#core/quantity'
import { formulaLaws } from '#core/testing'
import {
  alphaCheck,
  cutoffCheck,
  earlyCheck,
  propagations,
  smallSignalChecks,
  threePointFactor,
} from './formula.ref.ts'
import {
  currentDifference,
  dialledLessCutoff,
  dialledLessLeakage,
  gainFromAlpha,
  gainLessCutoff,
  gainLessLeakage,
  gainRatio,
  openBaseLeakage,
} from './gain.ts'
import { emissionVoltage, idealityFromEmission, idealityWithResistance, seriesResistance } from './junction.ts'
import { runningMean } from './operating-point.ts'
import { allFormulas, reduceFormulas } from './registry.ts'
import { earlyVoltage, emitterResistance, inputResistance, outputResistance, transconductance } from './small-signal.ts'

const close = (got: number, want: number, relative = 1e-12): void =>
  expect(Math.abs(got / want - 1), `${got} is not ${want}`).toBeLessThan(relative)

describe('textbook values', () => {
  test('gain with leakage taken out', () => {
    close(gainLessCutoff.evaluate(cutoffCheck), cutoffCheck.corrected)
    close(gainRatio.evaluate(cutoffCheck), cutoffCheck.plain)
    close(dialledLessCutoff.evaluate({ ...cutoffCheck, gain: cutoffCheck.plain }), cutoffCheck.corrected)
  })
  test('open-base leakage from alpha', () => {
    const gain = gainFromAlpha.evaluate(alphaCheck)
    close(openBaseLeakage.evaluate({ gain, cutoff: alphaCheck.cutoff }), alphaCheck.leakage, 1e-11)
  })
  test('small-signal parameters', () => {
    const at = { collector: 1e-3, emitter: 1e-3, ideality: 1, temperature: 298.15, gain: 100 }
    close(transconductance.evaluate(at), smallSignalChecks.transconductance)
    close(inputResistance.evaluate(at), smallSignalChecks.inputResistance)
    close(emitterResistance.evaluate({ ...at, temperature: 300 }), smallSignalChecks.emitterResistance)
  })
  test('Early voltage', () => {
    const early = earlyVoltage.evaluate({ collector1: 1e-3, collector2: 1.1e-3, voltage1: 2, voltage2: 12 })
    close(early, earlyCheck)
    close(outputResistance.evaluate({ early, voltage: 2, collector: 1e-3 }), 100e3)
  })
  test('three points in geometric steps give the textbook series resistance, and ideality with it', () => {
    const v = { voltage1: 0.55, voltage2: 0.615, voltage3: 0.69 }
    const at = { ...v, current1: 1e-4, current2: 1e-3, current3: 1e-2 }
    const rs = seriesResistance.evaluate(at)
    close(rs, (v.voltage3 - 2 * v.voltage2 + v.voltage1) / (threePointFactor * 1e-4), 1e-9)
    const n = idealityFromEmission.evaluate({ emission: emissionVoltage.evaluate(at), temperature: 300 })
    close(n, idealityWithResistance.evaluate({ ...at, resistance: rs, temperature: 300 }), 1e-9)
  })
  test('a diode with known ideality and series resistance is found again', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 2, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        (n, rs) => {
          const volts = (i: number): number => n * thermalVoltage(300) * Math.log(i / 1e-12) + i * rs
          const at = {
            voltage1: volts(1e-4),
            voltage2: volts(1e-3),
            voltage3: volts(8e-3),
            current1: 1e-4,
            current2: 1e-3,
            current3: 8e-3,
          }
          close(seriesResistance.evaluate(at), rs, 1e-8)
          close(idealityFromEmission.evaluate({ emission: emissionVoltage.evaluate(at), temperature: 300 }), n, 1e-8)
        },
      ),
    )
  })
  test('the two ways of taking I_CEO out are one', () => {
    const x = { collector: 1.02e-3, leakage: 0.15e-3, base: 1e-5 }
    close(dialledLessLeakage.evaluate({ ...x, gain: x.collector / x.base }), gainLessLeakage.evaluate(x))
  })
})

test.each(propagations)('$id: value and uncertainty of the stored propagation', (p) => {
  const f = allFormulas.get(p.formula)!
  const inputs: Record<string, Quantity> = {}
  for (const [name, [value, u]] of Object.entries(p.inputs))
    inputs[name] = {
      ...leaf(value, (f.inputs as Record<string, Quantity['unit']>)[name]!, { kind: 'stated', what: name }, [
        term(name, { label: name, u }),
      ]),
      ...(p.correlation === undefined ? {} : { correlations: p.correlation.map(([a, b, r]) => ({ a, b, r })) }),
    }
  const got = derive(f, inputs)
  close(got.value, p.value, 2e-8)
  close(standardUncertainty(got), p.u, 2e-7)
})

/** A point inside the domain of a formula. */
const pointOf = (f: AnyFormula): fc.Arbitrary<Record<string, number>> =>
  fc.record(
    Object.fromEntries(
      Object.entries(f.domain as Record<string, readonly [number, number]>).map(([name, [min, max]]) => [
        name,
        fc.integer({ min: 0, max: 1000 }).map((k) => min + (k / 1000) * (max - min)),
      ]),
    ),
  )

/** Quantities at a point, each with one own cause of a share of its value. */
const quantitiesAt = (f: AnyFormula, at: Readonly<Record<string, number>>, share: number): Record<string, Quantity> =>
  Object.fromEntries(
    Object.entries(at).map(([name, value]) => [
      name,
      leaf(value, (f.inputs as Record<string, Quantity['unit']>)[name]!, { kind: 'stated', what: name }, [
        term(name, { label: name, u: Math.abs(value) * share }),
      ]),
    ]),
  )

describe.each(reduceFormulas.map((f) => [f.id, f] as const))('%s', (_, f) => {
  test('is finite in its domain, and its stated slopes agree with differences', () =>
    fc.assert(
      fc.property(pointOf(f), (at) => {
        expect(Number.isFinite(f.evaluate(at))).toBe(true)
        const byDifference = numericSlopes(f, at)
        const stated: Readonly<Record<string, number>> = f.partials!(at)
        expect(Object.keys(stated).sort()).toEqual(Object.keys(f.inputs).sort())
        for (const name of Object.keys(stated)) {
          const scale = Math.max(
            ...Object.keys(at).map((k) => Math.abs(byDifference[k]! * (at[k] === 0 ? 1 : at[k]!))),
            1e-300,
          )
          const x = Math.max(Math.abs(at[name]!), 1e-3)
          expect(Math.abs((stated[name]! - byDifference[name]!) * x), name).toBeLessThanOrEqual(2e-6 * scale + 1e-12)
        }
      }),
      { numRuns: 60 },
    ))
  test('twice the doubt in, twice the doubt out', () =>
    fc.assert(
      fc.property(pointOf(f), (at) => {
        const one = standardUncertainty(derive(f, quantitiesAt(f, at, 0.01)))
        const two = standardUncertainty(derive(f, quantitiesAt(f, at, 0.02)))
        expect(Math.abs(two - 2 * one)).toBeLessThanOrEqual(1e-12 * two)
      }),
      { numRuns: 30 },
    ))
  test('says where it comes from, and names every input in its text', () => {
    expect(f.source.title.length).toBeGreaterThan(3)
    for (const symbol of Object.values(f.symbols as Record<string, string>)) expect(f.text).toContain(symbol)
  })
})

test('a mean keeps a shared cause whole and shrinks the readings own', () => {
  const read = (own: string): Quantity<'A'> =>
    leaf(1, 'A', { kind: 'read', what: 'I_CEO', seen: '1' }, [
      term('movement', { label: 'movement', u: 0.03 }),
      term(own, { label: 'reading', u: 0.06 }),
    ])
  let mean = read('r1')
  for (let n = 2; n <= 9; n++)
    mean = derive(runningMean.A, { mean, next: read(`r${n}`), count: leaf(n, '1', { kind: 'stated', what: 'count' }) })
  expect(mean.value).toBeCloseTo(1, 12)
  expect(standardUncertainty(mean)).toBeCloseTo(Math.hypot(0.03, 0.06 / 3), 12)
})

test('a current less itself is nothing, without doubt', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-9, max: 1, noNaN: true }), (value) => {
      const x = leaf(value, 'A', { kind: 'read', what: 'I', seen: '' }, [term('c', { label: 'cause', u: 0.1 * value })])
      const d = derive(currentDifference, { first: x, second: x })
      expect([d.value, standardUncertainty(d)]).toEqual([0, 0])
    }),
  )
})

describe('laws that every formula keeps', () => formulaLaws([...temperatureFormulas, ...reduceFormulas]))

test('every registered formula is found by its id', () => {
  for (const f of reduceFormulas) expect(allFormulas.get(f.id)).toBe(f)
})
