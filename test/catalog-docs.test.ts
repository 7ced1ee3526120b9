import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { partTypeExample, ratingUnits } from '#core/device'
import facts from './reference/kicad-facts.json' with { type: 'json' }

const page = readFileSync(join(import.meta.dirname, '../docs/reference/part-types.md'), 'utf8')

test('the page shows the example that the program prints', () => {
  expect(page).toContain(`\`\`\`yaml\n${partTypeExample}\`\`\``)
})

test('the page names every rating', () => {
  expect(Object.keys(ratingUnits).filter((r) => !page.includes(`\`${r}\``))).toEqual([])
})

test('the page lists every disagreement with the KiCad symbols, and no other', () => {
  const listed = facts.disagreements
    .filter((d) => d.about !== 'P' || d.type === '1N4728A')
    .map((d) => {
      const type = d.about === 'P' ? '1N4728A to 1N4764A' : d.type
      return `| ${type} | ${d.about} | ${d.kicad} | ${d.catalog} | ${d.right} | ${d.why} |`
    })
  const rows = page.slice(page.indexOf('| type | about |')).trim().split('\n').slice(2)
  expect(rows).toEqual(listed)
})
