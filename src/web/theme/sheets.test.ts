import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'

const root = join(import.meta.dirname, '..')
const sheets = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.css'))

/** Classes that a style sheet gives rules to by themselves, wherever they stand. */
function ownClasses(file: string): readonly string[] {
  const text = readFileSync(join(root, file), 'utf8').replaceAll(/\/\*.*?\*\//gs, '')
  const selectors = [...text.matchAll(/([^{};]+)\{/g)].flatMap((m) => m[1]!.split(','))
  return selectors.flatMap((s) => /^\s*\.([\w-]+)\s*$/.exec(s)?.[1] ?? [])
}

test('no screen styles a class of another: the sheets of all screens are on the page together', () => {
  const owners = new Map<string, Set<string>>()
  for (const file of sheets)
    for (const name of ownClasses(file)) {
      const folder = file.replaceAll('\\', '/').split('/')[0]!
      owners.set(name, (owners.get(name) ?? new Set()).add(folder))
    }
  const shared = [...owners]
    .filter(([, folders]) => folders.size > 1)
    .map(([name, folders]) => [name, ...folders].join(' '))
  expect(owners.size).toBeGreaterThan(100)
  // The theme takes the top line off what is printed.
  expect(shared.filter((one) => !/^(skip|top) /.test(one))).toEqual([])
})
