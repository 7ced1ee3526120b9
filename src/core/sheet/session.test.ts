import { describe, expect, test } from 'vitest'
import { dialTester, switchingGe } from './bench.ref.ts'
import { planSheet } from './plan.ts'
import {
  answer,
  askAgain,
  back,
  currentStep,
  goTo,
  mustAnswer,
  nextTag,
  type ReadStep,
  type Session,
  startSession,
} from './session.ts'

const sheet = planSheet(dialTester, switchingGe)
const now = { at: '2026-03-14T14:30:00.000Z', ambientC: 21, ambientU: 1 }
const fresh = startSession(sheet, 'A-1')
const checkAt = sheet.steps.findIndex((s) => s.kind === 'read' && s.reads === 'short')

const type = (s: Session, typed: string): Session => {
  const got = answer(s, typed, now)
  if (got.kind === 'refused') throw got.error
  return got.session
}
const toCheck = (): Session => goTo(fresh, checkAt)

describe('the short check is a gate', () => {
  test('it cannot be left out', () => {
    const got = answer(toCheck(), '', now)
    expect(got.kind).toBe('refused')
    expect(got.kind === 'refused' && got.error.message).toContain('Make the short check first')
  })

  test('nothing is asked after a short, and no step beyond it can be reached', () => {
    const s = type(toCheck(), 'short')
    expect([currentStep(s), s.stopped]).toEqual([undefined, expect.any(String)])
    expect(goTo(s, sheet.steps.length - 1).at).toBe(checkAt)
  })

  test('no step beyond an open check can be reached', () => expect(goTo(fresh, 999).at).toBe(checkAt))

  test('a short that was a slip is corrected and the run goes on', () => {
    const slip = type(toCheck(), 'short')
    const s = type(back(slip), 'clear')
    expect([s.stopped, currentStep(s)?.kind]).toEqual([undefined, 'wait'])
  })

  test('a check that was answered is kept by an empty line', () => {
    const s = type(toCheck(), 'clear')
    expect(type(goTo(s, checkAt), '').readings).toEqual(s.readings)
  })

  test('only steps with a decision on them must be answered', () => {
    const reads = sheet.steps.filter((s) => s.kind === 'read')
    expect(reads.filter((s) => mustAnswer(sheet, s)).map((s) => s.reads)).toEqual(['short'])
  })
})

test('a reading is refused with the sentence of its fault, and the session stays', () => {
  const s = type(toCheck(), 'clear')
  const leak = goTo(
    s,
    sheet.steps.findIndex((x) => x.kind === 'read' && x.reads === 'I_CEO'),
  )
  const got = answer(leak, '7.3', now)
  expect(got.kind === 'refused' && got.error.message).toContain('7.3 div')
})

const atStep = (reads: string): Session =>
  goTo(
    type(toCheck(), 'clear'),
    sheet.steps.findIndex((x) => x.kind === 'read' && x.reads === reads),
  )

test('a gain off the dial is taken on the span the sheet names, or on another', () => {
  const gain = atStep('h_FE')
  const { range } = currentStep(gain) as ReadStep
  const spans = dialTester.gain.kind === 'dial' ? dialTester.gain.spans : []
  const own = spans.find((span) => span.id === range)!
  const other = spans.find((span) => span.to < own.to || span.from > own.from)!
  const on = answer(gain, String(own.to), now)
  const off = answer(gain, String(other.from), { ...now, range: other.id })
  expect([on, off].map((a) => a.kind === 'on' && a.reading?.range)).toEqual([own.id, other.id])
  expect(answer(gain, String(2 * own.to), now).kind).toBe('refused')
})

test('a reading on another range than the sheet names is still the answer to its step', () => {
  const got = answer(atStep('I_CEO'), '4.2 div', { ...now, range: '10mA' })
  if (got.kind === 'refused') throw got.error
  expect([got.reading?.range, got.reading?.scale]).toEqual(['10mA', 'lower'])
  expect(Object.keys(startSession(sheet, 'A-1', Object.values(got.session.readings)).readings)).toContain('i-ceo')
})

test('a part whose readings are known goes on after the last of them', () => {
  const s = type(toCheck(), 'clear')
  const again = startSession(sheet, 'A-1', Object.values(s.readings))
  expect([again.at, again.readings]).toEqual([s.at, s.readings])
})

test.each([
  ['OP-7', 'OP-8'],
  ['Q9', 'Q10'],
  ['A009b', 'A010b'],
  ['bag 3/99', 'bag 3/100'],
  ['spare', 'spare-2'],
  ['', ''],
])('after %s comes %s', (tag, next) => expect(nextTag(tag)).toBe(next))

test('a reading that was left out stays so when the part is gone on with, until it is asked for again', () => {
  const past = type(toCheck(), 'clear')
  const reads = sheet.steps.flatMap((s, i) => (s.kind === 'read' && i > checkAt ? [{ id: s.id, i }] : []))
  const [first, second] = reads
  const left = type(goTo(past, first!.i), '')
  expect(left.leftOut).toEqual([first!.id])
  const on = startSession(sheet, 'A-1', Object.values(left.readings), left.leftOut)
  expect(on.at).toBe(left.at)
  const again = askAgain(on)
  expect([again.leftOut, again.at <= first!.i]).toEqual([[], true])
  expect(sheet.steps.slice(again.at, first!.i).some((s) => s.kind === 'read')).toBe(false)
  const taken = type(goTo(left, first!.i), '3 div')
  expect([taken.leftOut, taken.at]).toEqual([[], left.at])
  expect(second!.i).toBeGreaterThan(first!.i)
})
