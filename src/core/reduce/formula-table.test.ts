import { join } from 'node:path'
import { expect, test } from 'vitest'
import { upkeepFormulas } from '#core/upkeep'
import { doubtfulNumbers, formulaTable } from './formula-table.ts'
import { allFormulas } from './registry.ts'

const page = join(import.meta.dirname, '..', '..', '..', 'docs', 'reference', 'formulas.md')

test('the reference page of formulas is the registry (update it with vitest -u)', async () => {
  await expect(formulaTable(upkeepFormulas)).toMatchFileSnapshot(page)
})

test('every formula stands in it once', () => {
  const text = formulaTable(upkeepFormulas)
  for (const f of [...allFormulas.values(), ...upkeepFormulas])
    expect(text.split(`| \`${f.id}\` ${f.version} |`).length, f.id).toBe(2)
})

test('a number known only roughly has a doubt and says its standing', () => {
  for (const [name, n] of doubtfulNumbers) {
    expect(n.halfWidth, name).toBeGreaterThan(0)
    expect(n.source.standing, name).toBe('common practice')
  }
})
