import fc from 'fast-check'
import { describe, expect, test, vi } from 'vitest'
import { judgeReduced, parametersDocument, reduceFile, verdictsDocument } from '#bench'
import { parseValue, units } from '#core/quantity'
import {
  parseShown,
  type Range,
  type ReadingKind,
  readingKinds,
  readingsExampleCsv,
  readingsExampleJson,
  readReadings,
  seenAtPart,
  type Tester,
} from '#core/tester'
import { anyText, anyValue, spoiled } from './spoiled.ts'
import { bench, exampleTester, runs, testers, tryAll } from './take.ts'

vi.setConfig({ testTimeout: 180_000 })

/** All that is done with a file of readings. */
function judged(text: string, tester: (typeof testers)[number]): unknown {
  const reduced = reduceFile(bench, { text, file: 'lot.csv', tester, typeName: '2N1305' })
  const one = parametersDocument(reduced)
  return [one, verdictsDocument(judgeReduced(reduced))]
}

/** Zero, full scale, next to nothing, or anything between. */
const fraction = fc.oneof(fc.constantFrom(0, 1, 1e-12, 1e-6, 0.02, 0.5), fc.double({ min: 0, max: 1, noNaN: true }))

/** A reading the tester takes, with a value that need make no sense beside the others. */
function oddReading(tester: Tester) {
  const kinds = [...new Set(tester.tests.map((t) => t.reads))]
  const top = (reads: ReadingKind, range: Range | undefined): string => {
    if (reads === 'h_FE' || range === undefined) return '1000'
    return `${range.fullScale} ${range.measures === 'current' ? 'A' : 'V'}`
  }
  return fc
    .record({
      reads: fc.constantFrom(...kinds),
      x: fraction,
      pick: fc.nat(20),
      point: fc.integer({ min: 1, max: 3 }),
      supply: fc.option(fc.constantFrom('0 V', '1.5 V', '4.5 V', '9 V', '0.001 V'), { nil: undefined }),
      ambient: fc.option(fc.constantFrom('-30 degC', '60 degC', '21 degC +- 0 degC', '25 degC +- 20 degC'), {
        nil: undefined,
      }),
      state: fc.constantFrom('clear', 'clear', 'open', 'short', 'over'),
      isState: fc.nat(9).map((n) => n === 0),
    })
    .map(({ reads, x, pick, point, supply, ambient, state, isState }) => {
      const ids = tester.tests.filter((t) => t.reads === reads).flatMap((t) => t.ranges)
      const range = tester.ranges.find((r) => r.id === ids[pick % Math.max(1, ids.length)])
      const [size, unit] = top(reads, range).split(' ')
      const shown = reads === 'short' || isState ? state : `${x * Number(size)}${unit === undefined ? '' : ` ${unit}`}`
      const more = { ...(supply === undefined ? {} : { supply }), ...(ambient === undefined ? {} : { ambient }) }
      const on = reads === 'h_FE' || reads === 'short' || range === undefined ? {} : { range: range.id }
      return { reads, shown, point, ...on, ...more }
    })
}

const typed = (text: string): string => text.replaceAll('\n', '\r\n')

describe('fuzzed readings', () => {
  test('engineering values', () => {
    tryAll(
      fc.tuple(anyValue, fc.option(fc.constantFrom(...units)), fc.constantFrom('point', 'comma', 'either')),
      'values',
      ([text, unit, decimal]) => parseValue(text, { ...(unit === null ? {} : { unit }), decimal: decimal as 'point' }),
    )
  })

  test('tables of readings', () => {
    const semicolons = readingsExampleCsv.replaceAll(',', ';').replaceAll('7.3', '7,3')
    const texts = fc.oneof(
      { weight: 5, arbitrary: spoiled(readingsExampleCsv, typed(readingsExampleCsv), semicolons) },
      { weight: 1, arbitrary: anyText },
      { weight: 1, arbitrary: anyText.map((t) => `part,reads,shown\n${t}`) },
    )
    tryAll(texts, 'tables', (text) => judged(text, exampleTester))
    tryAll(texts, 'loose', (text) => readReadings(text))
  })

  test('readings as JSON and YAML', () => {
    const texts = fc.oneof(
      { weight: 5, arbitrary: spoiled(readingsExampleJson) },
      { weight: 1, arbitrary: anyText.map((t) => `{"format":"germane/readings/1","readings":${t}}`) },
      { weight: 1, arbitrary: anyText.map((t) => `format: germane/readings/1\nreadings:\n  - ${t}`) },
    )
    tryAll(texts, 'documents', (text) => judged(text, exampleTester))
  })

  test('what is typed for a reading', () => {
    const input = fc.record({
      tester: fc.constantFrom(exampleTester, ...testers),
      reads: fc.constantFrom(...readingKinds),
      x: fraction,
      unit: fc.constantFrom('div', 'uA', 'mA', 'A', 'mV', 'V', ''),
      odd: fc.option(anyValue, { nil: undefined, freq: 1 }),
      range: fc.option(fc.oneof(fc.constantFrom('100 uA', '1 mA', '10 mA', '1 V', 'high', 'low', 'middle'), anyValue), {
        nil: undefined,
      }),
      ambientC: fc.option(fc.double({ min: -30, max: 60, noNaN: true }), { nil: undefined }),
    })
    tryAll(input, 'typed', ({ tester, reads, x, unit, odd, range, ambientC }) => {
      const text = odd ?? `${x * 60} ${unit}`
      const parsed = parseShown(text, reads, tester, range)
      if (!parsed.ok || reads === 'short') return parsed
      const reading = { part: 'A1', reads, shown: parsed.shown, seen: parsed.seen, point: 1 }
      return [
        parsed,
        seenAtPart(tester, {
          ...reading,
          ...(range === undefined ? {} : { range }),
          ...(ambientC === undefined ? {} : { ambientC }),
        }),
      ]
    })
  })

  test('readings that are well formed and odd', () => {
    const types = [undefined, ...bench.types.map((t) => t.type)]
    const lot = fc
      .constantFrom(exampleTester, ...testers)
      .chain((tester) =>
        fc.tuple(
          fc.constant(tester),
          fc.constantFrom(...types),
          fc.array(oddReading(tester), { minLength: 1, maxLength: 9 }),
        ),
      )
    tryAll(lot, 'odd', ([tester, type, readings]) => {
      const text = JSON.stringify({
        format: 'germane/readings/1',
        readings: readings.map((r) => ({ part: 'A1', ...(type === undefined ? {} : { type }), ...r })),
      })
      return judged(text, tester)
    })
  })

  test('with descriptions and wishes are at least 20,000 inputs', () => {
    expect(Object.values(runs).reduce((sum, n) => sum + n, 0)).toBeGreaterThanOrEqual(20_000)
  })
})
