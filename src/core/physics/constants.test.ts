import { expect, test } from 'vitest'
import { boltzmann, elementaryCharge, zeroCelsius } from './index.ts'

/** SI Brochure, 9th ed. (2019), 2.2 Table 1 and 2.3.1. As printed. */
const printed = [
  [boltzmann, '1.380649e-23', 'J/K'],
  [elementaryCharge, '1.602176634e-19', 'C'],
  [zeroCelsius, '273.15', 'K'],
] as const

test.each(printed)('$symbol is %s %s as the SI Brochure prints it, exact, with its source', (constant, text, unit) => {
  expect(constant.value).toBe(Number(text))
  expect(constant.unit).toBe(unit)
  expect(constant.u).toBe(0)
  expect(constant.source.title).toContain('SI Brochure')
})
