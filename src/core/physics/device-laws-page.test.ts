import { existsSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const root = new URL('../../../', import.meta.url)
const page = readFileSync(new URL('docs/explanation/device-laws.md', root), 'utf8')

test('every test that the page on device laws names is there', () => {
  const named = [...page.matchAll(/`(src\/[^`]+)`/g)].map((m) => m[1]!)
  expect(named.length).toBeGreaterThan(10)
  expect(named.filter((file) => !existsSync(new URL(file, root)))).toEqual([])
})

test('its links lead somewhere', () => {
  const links = [...page.matchAll(/\]\(([^)#]+)\)/g)].map((m) => m[1]!)
  expect(links.length).toBeGreaterThan(0)
  expect(links.filter((link) => !existsSync(new URL(`docs/explanation/${link}`, root)))).toEqual([])
})
