import { describe, expect, test } from 'vitest'
import { ratioTester, smallSi } from './bench.ref.ts'
import { planSheet, sheetText, windowText } from './index.ts'

const value = { unit: 'A' } as const
const on = (w: { min?: number; typ?: number; max?: number }, unit: 'div' | 'A' | '1' = 'div') =>
  windowText({ unit, ...w, value, from: 'a test' }, unit === 'div' ? '0-50' : undefined)

describe('a window in words', () => {
  test.each([
    [on({ min: 12, typ: 20, max: 30 }), '12 to 30 div, typically 20, on the 0-50 scale'],
    [on({ max: 8.66 }), 'at most 8.7 div, on the 0-50 scale'],
    [on({ min: 30, typ: 40 }), '30 div or more, typically 40, on the 0-50 scale'],
    [on({ typ: 7 }), 'about 7 div, on the 0-50 scale'],
    [on({ min: 25, typ: 25, max: 25 }), '25 div, on the 0-50 scale'],
    [on({ max: 0.01 }), 'no deflection to be seen, on the 0-50 scale'],
    [on({}), 'up to the end and beyond, on the 0-50 scale'],
    [on({ max: 12.5e-6 }, 'A'), 'at most 12.5 uA'],
    [on({ min: 110, max: 450 }, '1'), '110 to 450'],
  ])('%s', (got, wanted) => expect(got).toBe(wanted))
})

describe('a sheet for a terminal', () => {
  const sheet = planSheet(ratioTester, smallSi)
  const plain = sheetText(sheet)
  const full = sheetText(sheet, { advice: true })

  test('every step is numbered, with its reason', () => {
    for (const [i, s] of sheet.steps.entries()) {
      const at = plain.findIndex((line) => line.startsWith(`${String(i + 1).padStart(2)}. `))
      expect(plain[at]).toContain(s.say.slice(0, 20))
    }
    expect(plain.filter((line) => line.startsWith('    why:'))).toHaveLength(sheet.steps.length)
  })

  test('it is plain ASCII and at most 80 columns wide', () => {
    expect(full.filter((line) => line.length > 80)).toEqual([])
    expect(full.filter((line) => /[^\x20-\x7e]/.test(line))).toEqual([])
  })

  test('advice only where it is asked for', () => {
    expect(plain.some((line) => line.startsWith('    odd:'))).toBe(false)
    expect(full.some((line) => line.startsWith('    odd:'))).toBe(true)
  })

  test('it says what cannot be had', () => expect(plain.join(' ')).toContain('f_T: It needs other equipment'))
})
