import { expect, test } from 'vitest'
import type { PartType } from '#core/device'
import { goalOf, merged, type Place, placesHere } from './hits.ts'

const type = (name: string): PartType => ({
  type: name,
  family: 'bjt',
  polarity: 'PNP',
  material: 'Ge',
  ratings: { power: [] },
  limits: [],
  provenance: { kind: 'own', where: [] },
})
const types = ['AC125', 'AC128', 'BC107', '2SB54'].map(type)
const testers = [{ id: 'larkfield', name: 'Larkfield bench tester' }]

const names = (q: string): readonly string[] => placesHere(q, types, testers).map((p) => p.name)

test('a number found by its beginning, case and blanks not counting', () => {
  expect(names('ac 12')).toEqual(['AC125', 'AC128'])
  expect(names('lark')).toEqual(['larkfield'])
  expect(names('')).toEqual([])
})

test('a marking without its 2S is understood', () => expect(names('b54')).toEqual(['2SB54']))

test('what the book finds as well stands once', () => {
  const here: readonly Place[] = [{ kind: 'type', name: 'AC128', say: 'Ge' }]
  const found = merged('ac128', here, [
    { kind: 'type', name: 'AC128', say: 'part type' },
    { kind: 'part', name: 'AC128-1', say: 'a part' },
  ])
  expect(found.map((p) => `${p.kind} ${p.name} ${p.say}`)).toEqual(['part AC128-1 a part', 'type AC128 Ge'])
})

test('a name that begins as typed stands before what only holds it', () => {
  const found = merged(
    'bc1',
    [{ kind: 'type', name: 'BC107', say: 'Si' }],
    [{ kind: 'part', name: 'OP-8', say: 'BC107' }],
  )
  expect(found.map((p) => p.name)).toEqual(['BC107', 'OP-8'])
})

test('a note leads to its part', () =>
  expect(goalOf({ kind: 'reading', name: '3', say: 'leaky', part: 'OP-4' })).toEqual({
    to: '/parts/$tag',
    params: { tag: 'OP-4' },
  }))
