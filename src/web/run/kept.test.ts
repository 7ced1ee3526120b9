import { expect, test } from 'vitest'
import {
  forgetPlace,
  keepPlace,
  noteRefused,
  placeIn,
  putDown,
  type Store,
  strikeOff,
  type Unsent,
  unsentIn,
} from './kept.ts'

function store(): Store & { readonly all: Map<string, string> } {
  const all = new Map<string, string>()
  return {
    all,
    getItem: (key) => all.get(key) ?? null,
    setItem: (key, text) => void all.set(key, text),
    removeItem: (key) => void all.delete(key),
  }
}

const unsent = (clientId: string): Unsent => ({
  run: 3,
  body: { clientId, part: 'A-1', step: 'i-ceo', seen: '4 div' },
  reading: { part: 'A-1', reads: 'I_CEO', shown: { kind: 'deflection', divisions: 4 }, seen: '4 div', point: 1 },
})

test('what is put down stays, in order, until it is struck off', () => {
  const s = store()
  for (const id of ['first-one', 'second-one']) putDown(s, unsent(id))
  strikeOff(s, 'first-one')
  expect(unsentIn(s)).toEqual([unsent('second-one')])
  strikeOff(s, 'second-one')
  expect([unsentIn(s), s.all.size]).toEqual([[], 0])
})

test('a reading the book would not take says why, and can be sent again', () => {
  const s = store()
  putDown(s, unsent('first-one'))
  noteRefused(s, 'first-one', 'Run 3 is finished.')
  expect(unsentIn(s)[0]?.refused).toBe('Run 3 is finished.')
  noteRefused(s, 'first-one')
  expect(unsentIn(s)).toEqual([unsent('first-one')])
})

test('the place in a run is kept for each run, with what stands in the field', () => {
  const s = store()
  const place = { part: 'A-1', at: 12, draft: { step: 'i-ceo', text: '4.', unit: 'div' } }
  keepPlace(s, 3, place)
  expect([placeIn(s, 3), placeIn(s, 4)]).toEqual([place, undefined])
  forgetPlace(s, 3)
  expect(placeIn(s, 3)).toBeUndefined()
})

test('a store that someone wrote nonsense into is as good as empty', () => {
  const s = store()
  s.all.set('germane/unsent', '{half')
  expect(unsentIn(s)).toEqual([])
})
