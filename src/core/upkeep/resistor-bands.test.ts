import { expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { readBands } from './index.ts'

/** Worked by hand from the colour table of IEC 60062:2016. */
test.each([
  ['brown black red', { ohm: 1000, tolerance: 0.2 }],
  ['yellow violet red gold', { ohm: 4700, tolerance: 0.05 }],
  ['green blue silver silver', { ohm: 0.56, tolerance: 0.1 }],
  ['brown black black red brown', { ohm: 10_000, tolerance: 0.01 }],
  ['red red green pink violet', { ohm: 0.225, tolerance: 0.001 }],
  ['orange white black gold green red', { ohm: 39, tolerance: 0.005, perK: 50e-6 }],
])('%s', (bands, meant) => expect(readBands(bands.split(' '))).toEqual(meant))

test('all bad bands are told together', () => {
  const read = () => readBands(['gold', 'mauve', 'red', 'white'])
  expect(read).toThrow(FaultError)
  expect(read).toThrow(/band 1[\s\S]*band 2[\s\S]*band 4/)
})

test.each([[[]], [['red', 'red']], [Array(7).fill('red')]])('%s are refused', (bands) =>
  expect(() => readBands(bands)).toThrow(FaultError),
)
