import { describe, expect, test } from 'vitest'
import { blockOf, smallDrawer } from './drawer.ref.ts'
import { matching, readFilter } from './filter.ts'
import { listed, type Sorting, sortingDefault } from './order.ts'
import { changed, type Parts, partsOf, withMore, wordAt } from './parts.ts'

const parts = partsOf(smallDrawer)

const tags = (p: Parts, text: string, sorting: Partial<Sorting> = {}, words = {}): string =>
  [...listed(p, matching(p, { text, words }), { by: 'row', isDown: false, ...sorting }, false)]
    .map((row) => p.tags[row])
    .join(' ')

describe('a filter', () => {
  test.each([
    ['', 'A-10 A-2 B-1 A-9 C'],
    ['a-', 'A-10 A-2 A-9'],
    ['drawer 3', 'A-10 B-1'],
    ['gx undecided', 'A-2'],
    ['h_FE>100', 'A-10 B-1'],
    ['hfe>=80 hfe<=120', 'A-10 A-2 C'],
    ['iceo<100u', 'A-2'],
    ['I_CEO>0.1mA', 'A-10'],
    ['hfe=80', 'A-2 C'],
    ['drawer hfe>', 'A-10 B-1 C'],
    ['beta>100 sx', 'B-1 A-9'],
    ['nothing', ''],
  ])('"%s" shows %s', (text, found) => expect(tags(parts, text)).toBe(found))

  test('by a word of a column takes that word alone', () =>
    expect([tags(parts, '', {}, { types: 'SX-7' }), tags(parts, '', {}, { types: 'SX' })]).toEqual(['B-1 A-9', '']))

  test.each([
    ['conforms', 'A-10'],
    ['undecided', 'A-2'],
    ['not judged', 'B-1 A-9 C'],
    ['short', ''],
    ['', 'A-10 A-2 B-1 A-9 C'],
  ])('by the outcome "%s" shows %s', (outcome, found) =>
    expect(
      [...listed(parts, matching(parts, { text: '', words: {}, outcome }), sortingDefault, false)]
        .map((row) => parts.tags[row])
        .join(' '),
    ).toBe(found),
  )

  test('a number is read with or without its unit', () =>
    expect(readFilter('I_CEO<200uA I_CEO<200u', parts.symbols).comparisons.map((c) => c.max)).toEqual([2e-4, 2e-4]))
})

describe('sorting', () => {
  test.each([
    ['tag', false, 'A-2 A-9 A-10 B-1 C'],
    ['tag', true, 'C B-1 A-10 A-9 A-2'],
    ['h_FE', false, 'A-2 C A-10 B-1 A-9'],
    ['h_FE', true, 'B-1 A-10 A-2 C A-9'],
    ['places', false, 'A-2 A-10 B-1 C A-9'],
    ['types', false, 'A-10 A-2 B-1 A-9 C'],
  ])('by %s, downwards %s', (by, isDown, order) => expect(tags(parts, '', { by, isDown })).toBe(order))
})

test('changes write over rows and add new ones', () => {
  const before = partsOf(smallDrawer)
  const after = changed(before, {
    version: 5,
    count: 6,
    rows: [1, 5],
    block: blockOf([
      { tag: 'A-2', type: 'GX-1', place: 'bin', gain: 81 },
      { tag: 'D-1', type: 'NEW' },
    ]),
  })
  expect([after.version, after.count, wordAt(after, 'places', 1), wordAt(after, 'types', 5)]).toEqual([
    5,
    6,
    'bin',
    'NEW',
  ])
  expect([after.symbols.get('h_FE')!.value[1], after.symbols.get('I_CEO')!.value[1]]).toEqual([81, Number.NaN])
  expect([tags(after, ''), tags(after, 'new')]).toEqual(['A-10 A-2 B-1 A-9 C D-1', 'D-1'])
})

test('a drawer that comes in pieces is the same as one that comes at once', () => {
  const [first, ...rest] = smallDrawer.blocks
  const begun = partsOf({ ...smallDrawer, blocks: [first!] })
  expect([begun.count, begun.total, tags(begun, ''), tags(begun, 'b-1')]).toEqual([2, 5, 'A-10 A-2', ''])
  const whole = withMore(begun, { ...smallDrawer, from: 1, blocks: rest })
  expect([whole.count, tags(whole, '', { by: 'tag' }), tags(whole, 'drawer')]).toEqual([
    5,
    tags(parts, '', { by: 'tag' }),
    tags(parts, 'drawer'),
  ])
})

test('a hundred thousand parts are filtered within a keystroke', () => {
  const many = partsOf({
    version: 1,
    count: 100_000,
    from: 0,
    blocks: [
      blockOf(
        Array.from({ length: 100_000 }, (_, i) => ({
          tag: `F-${i}`,
          type: `T-${i % 300}`,
          place: `drawer ${i % 40}`,
          gain: 20 + (i % 400),
          leakage: 1e-6 * (1 + (i % 90)),
        })),
      ),
    ],
  })
  const typed = ['d', 'dr', 'drawer 7', 'f-12', 'f-12 t-1', 'hfe>100', 'hfe>100 iceo<20u', 'f-99999']
  const times = typed.map((text) => {
    const start = performance.now()
    const rows = listed(many, matching(many, { text, words: {} }), { by: 'row', isDown: false }, false)
    expect(rows.length).toBeGreaterThan(0)
    return performance.now() - start
  })
  expect(times.sort((a, b) => a - b)[times.length / 2]!).toBeLessThan(50)
})
