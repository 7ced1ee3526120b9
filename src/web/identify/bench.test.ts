import { describe, expect, test } from 'vitest'
import { digitalMeter, identifyPart, type LeadReading, needleMeter } from '#core/identify'
import {
  asked,
  bodyText,
  emptyDraft,
  leadNames,
  pressed,
  readingIn,
  settingTo,
  shownIn,
  withReading,
  withSigns,
} from './bench.ts'

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

describe('tests beside the diode check and ohms', () => {
  test('a gain has a polarity from the start, keeps it over the next leads, and is a bare number', () => {
    const gain = settingTo(emptyDraft(digitalMeter), 'gain')
    expect(gain.joined).toBe('plus')
    const typed = { ...pressed(pressed({ ...gain, joined: 'minus' }, 1), 3), text: '85' }
    expect(readingIn(typed, shownIn(typed, digitalMeter))).toEqual({
      plus: 1,
      minus: 3,
      joined: 'minus',
      shows: { kind: 'gain', gain: 85 },
    })
    expect(settingTo(gain, '2M').joined).toBe('')
  })

  test('12 V take a bare voltage and no joined lead; ohms may be of a warm part', () => {
    const supply = { ...settingTo(emptyDraft(digitalMeter), 'breakdown'), leads: [2, 1], text: '5.6' }
    expect(readingIn(supply, shownIn(supply, digitalMeter))!.shows).toEqual({ kind: 'breakdown', volts: 5.6 })
    const ohms = { ...settingTo(emptyDraft(digitalMeter), '2M'), leads: [2, 1], text: '180 k', isWarm: true }
    expect(readingIn(ohms, shownIn(ohms, digitalMeter))).toMatchObject({ warmed: true })
    expect(settingTo(ohms, '').isWarm).toBe(false)
    expect(settingTo({ ...ohms, joined: 'plus' }, 'breakdown').joined).toBe('')
  })

  test('the test that is offered is put on as it stands', () => {
    const next = { plus: 2, minus: 1, bits: 1, effort: 1, say: '', expected: [] }
    expect(asked({ ...next, test: 'gain', joined: 'minus' }, digitalMeter)).toMatchObject({
      leads: [2, 1],
      setTo: 'gain',
      joined: 'minus',
    })
    expect(asked({ ...next, range: '2M', warmed: true }, digitalMeter)).toMatchObject({ setTo: '2M', isWarm: true })
    expect(asked(next, needleMeter).setTo).toBe('x100')
  })

  test('a warm reading stands beside the cold one', () => {
    const cold: LeadReading = { plus: 1, minus: 3, shows: { kind: 'ohms', ohm: 180e3, range: '2M' } }
    expect(withReading([cold], { ...cold, warmed: true })).toHaveLength(2)
  })
})

test('a part is drawn as what it is, once one is sure of it', () => {
  const read = identifyPart([volts(1, 2, 0.671), volts(1, 3, 0.662)], { meter: digitalMeter })
  const one = { ...read.hypotheses[0]!, probability: 0.95, family: 'BJT', polarity: 'NPN', fault: 'none' }
  expect(bodyText({ hypotheses: [one] })).toBe('NPN')
  expect(bodyText({ hypotheses: [{ ...one, text: 'a', family: 'JFET', polarity: 'N' }] })).toBe('N JFET')
  expect(bodyText({ hypotheses: [{ ...one, fault: 'emitter open' }] })).toBe('×')
  expect(bodyText({ hypotheses: [{ ...one, probability: 0.6 }] })).toBe('?')
})
