import { describe, expect, test } from 'vitest'
import { digitalMeter, identifyPart, type LeadReading, needleMeter } from '#core/identify'
import { emptyDraft, leadNames, pressed, readingIn, shownIn, withReading, withSigns } from './bench.ts'

const volts = (plus: number, minus: number, v: number): LeadReading => ({
  plus,
  minus,
  shows: { kind: 'volts', volts: v },
})

describe('a reading while it is typed', () => {
  test('two presses are plus and minus, a third begins again, the same lead lets go', () => {
    const one = pressed(emptyDraft(digitalMeter), 2)
    const two = pressed(one, 1)
    expect([one.leads, two.leads, pressed(two, 3).leads, pressed(one, 2).leads]).toEqual([[2], [2, 1], [3], []])
  })

  // the ranges of the digital meter are decades of 200 ohm: 4.7 k is over the top of 2k and under that of 20k
  test.each([
    ['4.7 kΩ', '20k'],
    ['150 ohm', '200'],
    ['1M2', '2M'],
  ])('%s without a range is on the lowest that holds it: %s', (text, range) => {
    expect(shownIn({ text, setTo: '' }, digitalMeter)).toMatchObject({ ok: true, shows: { kind: 'ohms', range } })
  })

  test('a needle meter begins on a range, and finds none by itself', () => {
    expect(emptyDraft(needleMeter).setTo).toBe('x100')
    expect(shownIn({ text: '4.7k', setTo: 'x100' }, needleMeter)).toMatchObject({ ok: true, shows: { range: 'x100' } })
    expect(shownIn({ text: '4.7k', setTo: '' }, needleMeter)).toMatchObject({ ok: false, lacksRange: true })
  })

  test('a range that is typed goes before the one that is set', () => {
    expect(shownIn({ text: 'open on 2M', setTo: '20k' }, digitalMeter)).toEqual({
      ok: true,
      shows: { kind: 'open', range: '2M' },
    })
  })

  test('it is a reading once both leads and what is shown are known', () => {
    const draft = { ...emptyDraft(digitalMeter), leads: [2, 1], text: '0.61' }
    expect(readingIn(draft, shownIn(draft, digitalMeter))).toEqual(volts(2, 1, 0.61))
    expect(readingIn({ ...draft, leads: [2] }, shownIn(draft, digitalMeter))).toBeUndefined()
  })
})

test('one taken again in the same way takes the place of the one before', () => {
  const before = [volts(2, 1, 0.61), volts(2, 3, 0.6)]
  expect(withReading(before, volts(2, 1, 0.62))).toEqual([volts(2, 3, 0.6), volts(2, 1, 0.62)])
  expect(withReading(before, { ...volts(2, 1, 0.7), joined: 'plus' })).toHaveLength(3)
})

test('a lead is as sure as all answers that agree on it', () => {
  const identity = identifyPart([volts(2, 1, 0.67), volts(2, 3, 0.67)], { meter: digitalMeter })
  const agreeing = identity.hypotheses.filter((h) => h.leads['2'] === 'B')
  expect(agreeing.length).toBeGreaterThan(1)
  expect(leadNames(identity)['2']).toEqual({ name: 'B', probability: agreeing.reduce((s, h) => s + h.probability, 0) })
})

test('marks of leads get a real minus, and lead orders keep their hyphen', () =>
  expect(withSigns('2+ 1-: open, as in E-B-C')).toBe('2+ 1−: open, as in E-B-C'))
