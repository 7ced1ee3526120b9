import { describe, expect, test } from 'vitest'
import { readWants } from './wants.ts'

describe('limits as people type them', () => {
  test.each([
    ['V_CEO > 20 V', { V_CEO: { min: 20 } }],
    ['vceo 20', { V_CEO: { min: 20 } }],
    ['hFE 100 to 300', { h_FE: { min: 100, max: 300 } }],
    ['h_FE >= 100, V_CEO 16V; Ptot > 150mW', { h_FE: { min: 100 }, V_CEO: { min: 16 }, P_tot: { min: 0.15 } }],
    ['I_CBO < 10u', { I_CBO: { max: 1e-5 } }],
    ['V_CE(sat) at most 0,2 V', { 'V_CE(sat)': { max: 0.2 } }],
    ['I_C 0,1 A, f_T > 100 MHz', { I_C: { min: 0.1 }, f_T: { min: 1e8 } }],
    ['', {}],
  ])('%s', (text, within) => expect(readWants(text)).toMatchObject({ within, faults: [] }))

  test('says what it understood', () =>
    expect(readWants('vceo>20, hfe 100..300').echo).toEqual(['V_CEO at least 20 V', 'h_FE 100 to 300']))

  test('names the symbol and the mend where it did not', () => {
    expect(readWants('vxyz > 3').faults).toEqual(['"vxyz" is not a symbol. Write V_CEO, I_C, P_tot, h_FE or f_T.'])
    expect(readWants('V_CEO > 20 mA').faults[0]).toMatch(/^V_CEO: "20 mA" is a current, not a voltage/)
    expect(readWants('V_CEO').faults[0]).toMatch(/how much/)
  })
})
