import fc from 'fast-check'
import type { Circuit, Gain, Range, ReadingKind, Supply, Tester, TestOffer } from '#core/tester'
import { readingKinds } from '#core/tester'

/** Random testers of every kind, well formed but of any size, for tests of what must hold whatever the tester. */

const oneOf = <T>(...items: readonly T[]): fc.Arbitrary<T> => fc.constantFrom(...items)
const span = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log10(min), max: Math.log10(max), noNaN: true }).map((x) => Number((10 ** x).toPrecision(3)))

const coilOhm = 1000
const movementA = 50e-6

const needleCircuit = (fullScale: number): Circuit =>
  fullScale <= movementA * 1.01
    ? { kind: 'movement' }
    : { kind: 'shunt', shuntOhm: (movementA * coilOhm) / (fullScale - movementA), tolerance: 0.01, contactOhm: 0 }

const statedCircuit: Circuit = { kind: 'stated', ofReading: 0.01, ofRange: 0, counts: 2, step: 1e-6, burdenV: 0.2 }

const currentRange = (fullScale: number, isNeedle: boolean): Range => ({
  id: `${fullScale} A`,
  measures: 'current',
  fullScale,
  ...(isNeedle ? { scale: 'upper' } : {}),
  circuit: isNeedle ? needleCircuit(fullScale) : statedCircuit,
})

const voltageRange = (fullScale: number, isNeedle: boolean): Range => ({
  id: `${fullScale} V`,
  measures: 'voltage',
  fullScale,
  ...(isNeedle ? { scale: 'upper' } : {}),
  circuit: isNeedle
    ? { kind: 'multiplier', seriesOhm: fullScale / movementA - coilOhm, tolerance: 0.01 }
    : statedCircuit,
})

const currentSteps = [50e-6, 200e-6, 1e-3, 5e-3, 20e-3, 0.1, 0.5, 2, 10, 20] as const
const voltageSteps = [0.5, 1, 5, 10, 50] as const

const anySupply: fc.Arbitrary<Supply> = fc.oneof(
  fc.record({
    id: oneOf('cells', 'block'),
    kind: fc.constant('cells' as const),
    taps: fc.uniqueArray(oneOf(1.5, 3, 4.5, 6, 9, 13.5, 22.5, 45), { minLength: 1, maxLength: 5 }),
    ohmPerCell: oneOf(0.05, 0.3, 1),
    cellV: fc.constant(1.5),
    tolerance: fc.constant(0.03),
    maxA: span(1e-3, 20),
  }),
  fc.record({
    id: oneOf('outside', 'bench'),
    kind: fc.constant('external' as const),
    taps: fc.constant([]),
    min: oneOf(0, 1, 5),
    max: oneOf(12, 60, 300),
    ohmPerCell: oneOf(0.1, 1, 1000),
    cellV: fc.constant(1),
    tolerance: fc.constant(0.02),
    maxA: span(1e-3, 10),
  }),
)

const currentSpan = fc
  .tuple(span(1e-5, 10), span(1e-5, 10))
  .map(([a, b]): readonly [number, number] => [Math.min(a, b), Math.max(a, b)])

const anyGain: fc.Arbitrary<Gain> = fc.oneof(
  fc.record({
    kind: fc.constant('dial' as const),
    spans: fc.constant([
      { id: 'low', from: 5, to: 100 },
      { id: 'high', from: 50, to: 1000 },
    ]),
    tolerance: fc.constant(0.05),
    readable: fc.constant(0.01),
    nullWithin: fc.constant(0.02),
    collectorA: currentSpan,
  }),
  fc.record({ kind: fc.constant('ratio' as const), maxBaseA: span(1e-5, 1), collectorA: currentSpan }),
  fc.record(
    {
      kind: fc.constant('digital' as const),
      step: fc.constant(1),
      collectorA: span(1e-4, 1),
      baseA: span(1e-6, 1e-2),
      collectorV: oneOf(1, 3, 9),
    },
    { requiredKeys: ['kind', 'step'] },
  ),
  fc.constant({ kind: 'none' as const }),
)

const isCurrent = (reads: ReadingKind): boolean => reads.startsWith('I_') || reads === 'short' || reads === 'h_FE'

const offerOf = (
  reads: ReadingKind,
  ranges: readonly Range[],
  supplies: readonly Supply[],
): fc.Arbitrary<TestOffer> => {
  const fits = ranges.filter((r) => (r.measures === 'current') === isCurrent(reads)).map((r) => r.id)
  return fc
    .record({
      ranges: fits.length === 0 ? fc.constant([]) : fc.subarray(fits, { minLength: 1 }),
      supply: supplies.length === 0 ? fc.constant(undefined) : oneOf(undefined, ...supplies.map((s) => s.id)),
      seriesOhm: oneOf(undefined, undefined, 10, 100, 1000),
    })
    .map(({ ranges: r, supply, seriesOhm }) => ({
      reads,
      ranges: r,
      ...(supply === undefined ? {} : { supply }),
      ...(seriesOhm === undefined ? {} : { seriesOhm }),
    }))
}

const movement = {
  fullScaleA: movementA,
  coilOhm,
  copperPerK: 0.0039,
  atC: 20,
  classPercent: 2,
  zero: 'left',
  readable: 0.2,
} as const

/** Any tester: needle, digital or display; with any supplies, ranges, gain readout and tests. */
export const anyTester: fc.Arbitrary<Tester> = fc
  .record({
    kind: oneOf('needle' as const, 'digital' as const, 'display' as const),
    currents: fc.subarray([...currentSteps], { minLength: 1 }),
    voltages: fc.subarray([...voltageSteps], { minLength: 1 }),
    supplies: fc.uniqueArray(anySupply, { maxLength: 2, selector: (s) => s.id }),
    gain: anyGain,
    polarities: fc.subarray(['NPN', 'PNP'] as const),
    maxCurrentA: span(1e-3, 20),
    maxVoltageV: oneOf(3, 9, 15, 60, 300),
  })
  .chain((r) => {
    const isNeedle = r.kind === 'needle'
    const ranges = [
      ...r.currents.map((x) => currentRange(x, isNeedle)),
      ...r.voltages.map((x) => voltageRange(x, isNeedle)),
    ]
    return fc
      .tuple(
        fc.array(
          fc.constantFrom(...readingKinds).chain((k) => offerOf(k, ranges, r.supplies)),
          { maxLength: 6 },
        ),
        fc.tuple(...readingKinds.map((k) => fc.option(offerOf(k, ranges, r.supplies), { nil: undefined, freq: 4 }))),
      )
      .map(
        ([more, each]): Tester => ({
          format: 'germane/tester/1',
          id: 'any',
          name: 'Any tester',
          kind: r.kind,
          polarities: r.polarities,
          ...(isNeedle ? { movement } : {}),
          scales: isNeedle ? [{ id: 'upper', divisions: 50, end: 50 }] : [],
          ranges,
          supplies: r.supplies,
          gain: r.gain,
          tests: [...each.filter((o) => o !== undefined), ...more],
          limits: { maxCurrentA: r.maxCurrentA, maxVoltageV: r.maxVoltageV },
        }),
      )
  })
