import { expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { wishDefaults } from './index.ts'
import { wishesOf } from './wish.ts'

test('nothing wished is an ordinary room', () => expect(wishesOf({})).toEqual(wishDefaults))

test('what is wished stays, what is left out comes from the defaults', () =>
  expect(wishesOf({ ambientC: 31, collectorA: 0.002 })).toEqual({ ambientC: 31, ambientU: 2, collectorA: 0.002 }))

test('all that makes no sense is said at once, field, value and mend', () => {
  const wrong = { ambientC: Number.NaN, supplyV: -3, polarity: 'PMP', colour: 'red' } as never
  let caught: unknown
  try {
    wishesOf(wrong)
  } catch (e) {
    caught = e
  }
  expect(caught).toBeInstanceOf(FaultError)
  expect((caught as FaultError).faults.map((f) => (f.code === 'bad-input' ? f.place.field : f.code))).toEqual([
    'ambientC',
    'supplyV',
    'polarity',
    'colour',
  ])
  expect((caught as FaultError).message).toContain('supplyV: "-3" is not between 0.1 and 1000 V.')
})
