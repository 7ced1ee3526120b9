import { expect, test } from 'vitest'
import { bookText } from './signs.ts'

const plain = (text: string): string => bookText(text).replaceAll('\u00a0', '~')

test('letters people type for signs become the signs, after a number and in the name of a range', () => {
  expect(plain('Read on 300 uA through 10 kohm')).toBe('Read on 300~µA through 10~kΩ')
  expect(plain('100uA, 47ohm, 36.4 mohm')).toBe('100µA, 47Ω, 36.4~mΩ')
  expect(plain('in uA at 25 degC')).toBe('in µA at 25~°C')
})

test('words stay words', () => {
  expect(plain('Let us see: 3 us long')).toBe('Let us see: 3~µs long')
  expect(plain('the ohmmeter, 2 Volts, 5 parts')).toBe('the ohmmeter, 2 Volts, 5 parts')
})

test('a value stays on one line with its unit, and with its doubt', () => {
  expect(plain('5 mA ± 2 %, known to 2 K, 4 div of 50, 45 s')).toBe('5~mA~±~2~%, known to 2~K, 4~div of 50, 45~s')
})
