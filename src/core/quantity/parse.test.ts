import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type ParseOptions, parseValue } from './parse.ts'
import type { Unit } from './unit.ts'

const understood: readonly (readonly [text: string, value: number, unit: Unit, expected?: Unit])[] = [
  ['4k7', 4700, 'ohm', 'ohm'],
  ['4k7', 4700, '1'],
  ['1k2', 1200, 'ohm', 'ohm'],
  ['1k2\u03a9', 1200, 'ohm'],
  ['1M5 ohm', 1.5e6, 'ohm'],
  ['2R2', 2.2, 'ohm'],
  ['R47', 0.47, 'ohm'],
  ['100R', 100, 'ohm'],
  ['3V3', 3.3, 'V'],
  ['4u7', 4.7e-6, 'F', 'F'],
  ['4\u00b57F', 4.7e-6, 'F'],
  ['10u', 1e-5, 'A', 'A'],
  ['10', 10, 'V', 'V'],
  ['10K', 10_000, 'ohm', 'ohm'],
  ['12.5 uA', 12.5e-6, 'A'],
  ['12.5 \u00b5A', 12.5e-6, 'A'],
  ['12.5\u03bcA', 12.5e-6, 'A'],
  ['12.5 ma', 12.5e-3, 'A'],
  ['1,2 mA', 1.2e-3, 'A'],
  ['-0.65V', -0.65, 'V'],
  ['\u22120.65 V', -0.65, 'V'],
  ['+.5 v', 0.5, 'V'],
  ['7.3 div', 7.3, 'div'],
  ['5 %', 0.05, '1'],
  ['5 \u2030', 0.005, '1'],
  ['200 ppm', 2e-4, '1'],
  ['0.39 %/K', 0.0039, '1/K'],
  ['20 ppm/\u00b0C', 20e-6, '1/K'],
  ['-2.1 mV/\u00b0C', -2.1e-3, 'V/K'],
  ['0.5 \u00b0C/mW', 500, 'K/W'],
  ['250 K/W', 250, 'K/W'],
  ['1e-6 A', 1e-6, 'A'],
  ['1.5\u00d710\u207b\u00b3 A', 1.5e-3, 'A'],
  ['1.5 x 10^-3 A', 1.5e-3, 'A'],
  ['25 C', 25, 'degC'],
  ['25 degC', 25, 'degC'],
  ['25 \u00b0C', 25, 'degC'],
  ['298.15 K', 298.15, 'K'],
  ['1.2 kohm', 1200, 'ohm'],
  ['1.2 k\u2126', 1200, 'ohm'],
  ['10 kilohms', 10_000, 'ohm'],
  ['2.2 Megohm', 2.2e6, 'ohm'],
  ['35 mS', 0.035, 'S'],
  ['5 min', 300, 's'],
  ['20 ms', 0.02, 's'],
  ['1 kHz', 1000, 'Hz'],
  ['100 nF', 1e-7, 'F'],
  ['1.5 m', 1.5, 'm', 'm'],
  ['1.5 mm', 1.5e-3, 'm'],
  ['180 deg', Math.PI, 'rad'],
  ['250 g', 0.25, 'kg'],
  ['12\u2009345 ohm', 12_345, 'ohm'],
  ['1,234,567', 1_234_567, '1'],
  ['1.234,5', 1234.5, '1'],
  ['0,123 A', 0.123, 'A'],
]

test.each(understood.map(([text, value, unit, expected]) => ({ text, value, unit, expected })))(
  '$text is $value $unit',
  ({ text, value, unit, expected }) => {
    const options: ParseOptions = expected === undefined ? {} : { unit: expected }
    expect(parseValue(text, options)).toEqual({ ok: true, value, unit })
  },
)

test.each([
  ['118(6)', 118, 6, '1'],
  ['118.0(56)', 118, 5.6, '1'],
  ['12300(600)', 12_300, 600, '1'],
  ['1.234(5) mA', 1.234e-3, 5e-6, 'A'],
  ['1.5(0.2) V', 1.5, 0.2, 'V'],
  ['12,5(3) mA', 12.5e-3, 0.3e-3, 'A'],
  ['1.0(2)e-3 A', 1e-3, 0.2e-3, 'A'],
  ['12.5 +- 0.3 mA', 12.5e-3, 0.3e-3, 'A'],
  ['12.5 \u00b1 0.3 mA', 12.5e-3, 0.3e-3, 'A'],
  ['12.5 mA +/- 0.3', 12.5e-3, 0.3e-3, 'A'],
  ['3 mV \u00b1 200 uV', 3e-3, 200e-6, 'V'],
  ['(12.5 \u00b1 0.3) mA', 12.5e-3, 0.3e-3, 'A'],
  ['(50 \u00b1 2) %', 0.5, 0.02, '1'],
  ['5 % \u00b1 1 %', 0.05, 0.01, '1'],
  ['100 ohm \u00b1 5 %', 100, 5, 'ohm'],
  ['4k7 ohm \u00b1 1 %', 4700, 47, 'ohm'],
])('%s carries its uncertainty', (text, value, u, unit) => {
  expect(parseValue(text)).toEqual({ ok: true, value, unit, u })
})

describe('the decimal mark', () => {
  test('a comma that could also group thousands is refused, with both readings to choose from', () => {
    expect(parseValue('1,234 mA')).toEqual({
      ok: false,
      problem: 'can be read as 1.234 or as 1234',
      mend: 'Write 1.234 mA or 1234 mA.',
    })
  })
  test.each([
    ['1,234', 'comma', 1.234],
    ['1,234', 'point', 1234],
    ['1.234', 'either', 1.234],
    ['1.234', 'comma', 1234],
    ['1.234.567,8', 'comma', 1_234_567.8],
  ] as const)('%s with the mark %s is %d', (text, decimal, value) => {
    expect(parseValue(text, { decimal })).toEqual({ ok: true, value, unit: '1' })
  })
  test.each([
    ['1.5', 'comma'],
    ['1,5', 'point'],
    ['1.2.3', 'either'],
    ['1,23,456', 'either'],
  ] as const)('%s with the mark %s is refused', (text, decimal) => {
    expect(parseValue(text, { decimal })).toMatchObject({
      ok: false,
      problem: 'has its points and commas in odd places',
    })
  })
})

test.each<readonly [string, Unit | undefined, string]>([
  ['', 'A', 'is empty'],
  ['abc', 'A', 'does not begin with a number'],
  ['NaN', 'A', 'does not begin with a number'],
  ['5 V', 'A', 'is a voltage, not a current'],
  ['5 %', 'A', 'is a number, not a current'],
  ['3V3', 'A', 'is a voltage, not a current'],
  ['10K', 'A', 'is a temperature in kelvin, not a current'],
  ['5 furlongs', undefined, 'has "furlongs" where a unit should be'],
  ['5 constructor', 'A', 'has "constructor" where a unit should be'],
  ['12 345 ohm', undefined, 'has "345 ohm" where a unit should be'],
  ['5m', 's', 'has "m" where milliseconds or minutes could be meant'],
  ['5m', undefined, 'has "m" where milli or metres could be meant'],
  ['4k7 kohm', 'ohm', 'has two units or two prefixes'],
  ['1e999', undefined, 'is too large for a number'],
  ['1e-999', undefined, 'is too small for a number'],
  ['1 +- 2 +- 3', undefined, 'has more than one plus-minus'],
  ['1 +- -2', undefined, 'has its uncertainty in an odd form'],
  ['100 +- 5 %', undefined, 'can be read as percent of the value or as percent on both sides'],
  ['1'.repeat(81), undefined, 'is too long for a value'],
])('"%s" where %s is wanted: %s', (text, unit, problem) => {
  const got = parseValue(text, unit === undefined ? {} : { unit })
  expect(got).toMatchObject({ ok: false, problem })
  expect(got.ok ? '' : got.mend).toMatch(/^[A-Z].*\.$/)
})

test('whatever is typed, the answer is a finite value or a problem with its mend', () => {
  const piece = fc.constantFrom(
    ...[
      '1',
      '0',
      '9',
      '.',
      ',',
      '-',
      '+',
      'e',
      '(',
      ')',
      ' ',
      'k',
      'm',
      '\u00b5',
      'A',
      'V',
      '\u03a9',
      '%',
      '/',
      'K',
      '\u00b1',
      'C',
      '\u207b',
      'x10^',
      '=',
    ],
  )
  const typed = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.array(piece, { maxLength: 14 }).map((p) => p.join('')),
  )
  fc.assert(
    fc.property(
      typed,
      fc.constantFrom<Unit | undefined>('A', '1', 'degC', 's', undefined),
      fc.constantFrom('point', 'comma', 'either'),
      (text, unit, decimal) => {
        const got = parseValue(text, { decimal, ...(unit === undefined ? {} : { unit }) })
        if (!got.ok) {
          expect([got.problem, got.mend]).not.toContain('')
          return
        }
        expect(Number.isFinite(got.value) && Number.isFinite(got.u ?? 0) && (got.u ?? 0) >= 0).toBe(true)
        if (unit !== undefined) expect(got.unit).toBe(unit)
      },
    ),
    { numRuns: 20_000 },
  )
})
