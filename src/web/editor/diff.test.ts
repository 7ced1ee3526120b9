import fc from 'fast-check'
import { expect, test } from 'vitest'
import { diffLines } from './diff.ts'

test('a changed line goes and comes', () =>
  expect(diffLines('a\nb\nc', 'a\nB\nc')).toEqual([
    { kind: 'same', text: 'a' },
    { kind: 'gone', text: 'b' },
    { kind: 'new', text: 'B' },
    { kind: 'same', text: 'c' },
  ]))

const text = fc.array(fc.constantFrom('a', 'b', 'c', '')).map((l) => l.join('\n'))

test('both texts can be read back from what changed', () =>
  fc.assert(
    fc.property(text, text, (older, newer) => {
      const lines = diffLines(older, newer)
      const without = (kind: string): string =>
        lines
          .filter((l) => l.kind !== kind)
          .map((l) => l.text)
          .join('\n')
      expect([without('new'), without('gone')]).toEqual([older, newer])
    }),
  ))

test('a text against itself has nothing new', () =>
  fc.assert(fc.property(text, (t) => diffLines(t, t).every((l) => l.kind === 'same'))))
