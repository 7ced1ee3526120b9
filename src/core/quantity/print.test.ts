import fc from 'fast-check'
import { expect, test } from 'vitest'
import { parseValue } from './parse.ts'
import { type PrintOptions, printMeasured, printPlain, printRounded, printValue } from './print.ts'
import { type Unit, units } from './unit.ts'

const printed: readonly (readonly [value: number, unit: Unit, text: string, options?: PrintOptions])[] = [
  [12.5e-6, 'A', '12.50 \u00b5A'],
  [12.5e-6, 'A', '12.50 uA', { ascii: true }],
  [999.96, 'ohm', '1.000 k\u03a9'],
  [4700, 'ohm', '4.7 kohm', { digits: 2, ascii: true }],
  [0, 'A', '0 A'],
  [-0.65, 'V', '-650.0 mV'],
  [118, '1', '118.0'],
  [118, '1', '120', { digits: 2 }],
  [1e-9, '1', '1.000e-9'],
  [25, 'degC', '25.00 \u00b0C'],
  [0.001, 'degC', '0.001000 degC', { ascii: true }],
  [0.02, 'div', '0.020 div', { digits: 2 }],
  [-0.0021, 'V/K', '-2.100 mV/K'],
  [300, 's', '300.0 s'],
  [1e-30, 'A', '1.000e-30 A'],
]

test.each(printed.map(([value, unit, text, options]) => ({ value, unit, text, options })))(
  '$value $unit is printed $text',
  ({ value, unit, text, options }) => {
    expect(printValue(value, unit, options)).toBe(text)
  },
)

test.each<readonly [number, Unit, string]>([
  [100, 'ohm', '100 \u03a9'],
  [4.5, 'V', '4.5 V'],
  [1.5e-20, 'A', '1.5e-20 A'],
  [0.0012345, 'A', '1.235 mA'],
])('%d %s is printed plain as %s', (value, unit, text) => {
  expect(printPlain(value, unit)).toBe(text)
})

test.each<readonly [number, number, Unit, string, string, string]>([
  [118, 5.6, '1', '118(6)', '118.0(56)', '118.0 +- 5.6'],
  [118, 15, '1', '118(15)', '118(15)', '118 +- 15'],
  [1.234e-3, 5e-6, 'A', '1.234(5) mA', '1.2340(50) mA', '(1.2340 +- 0.0050) mA'],
  [1.234e-3, 56e-6, 'A', '1.23(6) mA', '1.234(56) mA', '(1.234 +- 0.056) mA'],
  [12_345, 560, '1', '12300(600)', '12350(560)', '12350 +- 560'],
  [12_345, 560, 'ohm', '12.3(6) kohm', '12.35(56) kohm', '(12.35 +- 0.56) kohm'],
  [118, 0.96, '1', '118.0(10)', '118.00(96)', '118.00 +- 0.96'],
  [118, 0.0996, '1', '118.00(10)', '118.00(10)', '118.00 +- 0.10'],
  [118, 0.2996, '1', '118.0(3)', '118.00(30)', '118.00 +- 0.30'],
  [1e-6, 1e-3, 'A', '0.0(10) mA', '0.0(10) mA', '(0.0 +- 1.0) mA'],
  [-0.04, 1000, 'V', '0.0(10) kV', '0.0(10) kV', '(0.0 +- 1.0) kV'],
  [25, 0.5, 'degC', '25.0(5) degC', '25.00(50) degC', '(25.00 +- 0.50) degC'],
  [4.5, 0, 'V', '4.5 V', '4.5 V', '4.5 V'],
])('%d with u = %d (%s) is printed %s, %s and %s', (value, u, unit, auto, two, plusMinus) => {
  expect(printMeasured(value, u, unit, { ascii: true })).toBe(auto)
  expect(printMeasured(value, u, unit, { ascii: true, uDigits: 2 })).toBe(two)
  expect(printMeasured(value, u, unit, { ascii: true, uDigits: 2, style: 'plus-minus' })).toBe(plusMinus)
})

test.each<readonly [number, number, Unit, string]>([
  [10.0000971, 18e-6, 'V', '10.000097 V'],
  [83.7224, 1.6724, '1', '83.7'],
  [-0.00004, 0.001, 'A', '0.0 mA'],
  [980.4e-3, 12e-3, 'V', '980 mV'],
  [5, 0, 'V', '5 V'],
])('%d is cut where u = %d (%s) ends: %s', (value, u, unit, text) => {
  expect(printRounded(value, u, unit)).toBe(text)
})

const anyUnit = fc.constantFrom(...units)
const magnitude = fc.tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -24, max: 20 }), fc.boolean())
const anyValue = magnitude.map(([m, e, isNegative]) => (isNegative ? -1 : 1) * Number(`${m}e${e}`))
const anyStyle = fc.record({ ascii: fc.boolean(), style: fc.constantFrom('paren', 'plus-minus') })

test('a value printed with all its digits is read back as the same double', () => {
  fc.assert(
    fc.property(anyValue, anyUnit, fc.boolean(), (value, unit, ascii) => {
      const text = printValue(value, unit, { digits: 17, ascii })
      expect(parseValue(text, { unit }), text).toEqual({ ok: true, value, unit })
    }),
    { numRuns: 3000 },
  )
})

test('a value printed with its uncertainty is read back within half of the last place', () => {
  fc.assert(
    fc.property(
      anyValue,
      fc.double({ min: -12, max: 4, noNaN: true }),
      anyUnit,
      anyStyle,
      (value, power, unit, style) => {
        const u = Math.abs(value) * 10 ** power
        const text = printMeasured(value, u, unit, { ...style, uDigits: 2 })
        const got = parseValue(text, { unit })
        if (!got.ok) throw new Error(`${text} ${got.problem}`)
        const half = 0.5001 * 10 ** (Number(u.toExponential(1).split('e')[1]) - 1) + 1e-15 * Math.abs(value)
        expect(Math.abs(got.value - value), text).toBeLessThanOrEqual(half)
        expect(Math.abs((got.u ?? 0) - u), text).toBeLessThanOrEqual(half)
        expect(printMeasured(got.value, got.u ?? 0, unit, { ...style, uDigits: 2 })).toBe(text)
      },
    ),
    { numRuns: 3000 },
  )
})
