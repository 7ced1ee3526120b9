import { expect, test } from 'vitest'
import { nearNames } from './near.ts'

test.each([
  ['clas', ['class', 'coil', 'zero'], ['class']],
  ['ICEO', ['I_CEO', 'I_CBO', 'h_FE'], ['I_CEO', 'I_CBO']],
  ['tolerence', ['tolerance', 'taps'], ['tolerance']],
  ['shnut', ['shunt', 'short'], ['shunt']],
  ['multi', ['multiplier', 'movement'], ['multiplier']],
  ['polarity', ['format', 'polarities'], ['polarities']],
  ['10', ['1 V', '100 uA', '10 mA'], ['100 uA', '10 mA']],
  ['xyz', ['class', 'coil'], []],
  ['', ['a'], []],
])('near %j among %j', (text, names, near) => {
  expect(nearNames(text, names)).toEqual(near)
})
