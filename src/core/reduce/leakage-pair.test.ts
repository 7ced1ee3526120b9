import { describe, expect, test } from 'vitest'
import { leaf, type Quantity, term } from '#core/quantity'
import { leakagePair } from './leakage-pair.ts'

/** A leakage as a scale reads it: class 2 of 50 uA and half a division of 1 uA. */
const reading = (value: number, name: string, step = 0.5e-6): Quantity<'A'> =>
  leaf(value, 'A', { kind: 'read', what: name, seen: String(value) }, [
    term('t/movement/sensitivity', { label: 'movement', u: 0.01 * value }),
    term(`reading/p/${name}/1/resolution`, { label: 'reading', u: step / Math.sqrt(12), distribution: 'rectangular' }),
  ])
const gain = (value: number): Quantity<'1'> =>
  leaf(value, '1', { kind: 'read', what: 'h_FE', seen: String(value) }, [
    term('dial', { label: 'dial', u: 0.03 * value }),
  ])

/** Open-base leakage of the order of 10 uA on the lowest range, open-emitter leakage negligible beside it. */
describe('common practice: I_CEO about 10 uA on the lowest range', () => {
  test('I_CBO not resolved: it is mostly the scale, and the I_CBO that would do is named', () => {
    const pair = leakagePair(reading(10e-6, 'I_CEO'), reading(0, 'I_CBO'), gain(180))
    expect(pair.word).toBe('mostly resolution')
    expect(pair.gain).toBeUndefined()
    expect(pair.say).toContain('mostly the resolution of the scale')
    expect(pair.say).toMatch(/I_CBO of 55 nA would do/)
  })
  test('I_CBO clearly there but small: the gain at that tiny current is low', () => {
    const pair = leakagePair(reading(10e-6, 'I_CEO'), reading(1e-6, 'I_CBO'), gain(180))
    expect(pair.word).toBe('low gain at leakage')
    expect(pair.gain!.value).toBeCloseTo(9, 9)
    expect(pair.expected!.value).toBeCloseTo(181e-6, 12)
    expect(pair.say).toContain('only if the gain at that tiny current is low')
  })
})

describe('other pairs', () => {
  test('of a germanium part: consistent', () => {
    const pair = leakagePair(reading(250e-6, 'I_CEO'), reading(5e-6, 'I_CBO'), gain(49))
    expect(pair.word).toBe('consistent')
    expect(pair.gain!.value).toBeCloseTo(49, 6)
  })
  test('more than the gain explains: a path from collector to emitter', () => {
    expect(leakagePair(reading(900e-6, 'I_CEO'), reading(5e-6, 'I_CBO'), gain(49)).word).toBe('extra path')
  })
  test('without a gain only the tiny gain is told', () => {
    const pair = leakagePair(reading(250e-6, 'I_CEO'), reading(5e-6, 'I_CBO'))
    expect(pair.word).toBe('consistent')
    expect(pair.expected).toBeUndefined()
  })
  test('both at nothing: nothing follows', () => {
    expect(leakagePair(reading(0, 'I_CEO'), reading(0, 'I_CBO')).say).toContain('I_CEO and I_CBO are')
  })
})
