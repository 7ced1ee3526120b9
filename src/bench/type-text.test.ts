import { expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import { partTypeExample, readPartTypes } from '#core/device'
import { typeText } from './type-text.ts'

test('every record of the catalog comes back from its text as it was', async () => {
  const types = [...(await loadCatalog()), ...readPartTypes(partTypeExample)]
  expect(types.length).toBeGreaterThan(300)
  for (const type of types) expect(readPartTypes(typeText(type)), type.type).toEqual([type])
})

test('a text has its values with their units, and a limit to a line', () => {
  const [type] = readPartTypes(partTypeExample)
  const lines = typeText(type!).split('\n')
  expect(lines).toContain('  V_CEO: 15 V')
  expect(lines).toContain('  - { symbol: I_CBO, max: 12 uA, unit: A, at: { V_CB: 10 V, T: 25 degC } }')
})
