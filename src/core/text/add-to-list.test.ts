import { expect, test } from 'vitest'
import { addToList, readYaml } from './index.ts'

const dataOf = (text: string): unknown => {
  const read = readYaml(text)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.document.data
}

test('a YAML text keeps its comments and its other lines', () => {
  const text = '# mine\nid: a # the name\nranges:\n  - { id: 1 mA, of: [1, 2] }\n'
  const once = addToList(text, 'notes', { at: '2024-05-12', say: 'one: two' })
  expect(once).toContain('# mine\nid: a # the name\n')
  const twice = addToList(once, 'notes', { at: '2024-06-01' })
  expect(dataOf(twice)).toEqual({
    id: 'a',
    ranges: [{ id: '1 mA', of: [1, 2] }],
    notes: [{ at: '2024-05-12', say: 'one: two' }, { at: '2024-06-01' }],
  })
})

test('a JSON text stays JSON', () => {
  const twice = addToList(addToList('{ "id": "a" }', 'notes', 1), 'notes', 2)
  expect(JSON.parse(twice)).toEqual({ id: 'a', notes: [1, 2] })
})
