import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'

const root = join(import.meta.dirname, '../..')
const page = readFileSync(join(root, 'docs/reference/json.md'), 'utf8')

/** Keys of the objects under a path, one level, the arrays taken together. */
const keysOf = (all: readonly object[]): readonly string[] => [...new Set(all.flatMap((one) => Object.keys(one)))]

test('every format the command can print is on the page', () => {
  const folder = join(root, 'src/cli')
  const text = readdirSync(folder)
    .filter((f) => f.endsWith('.ts'))
    .map((f) => readFileSync(join(folder, f), 'utf8'))
    .join('\n')
  const formats = [...text.matchAll(/format: '(germane\/[a-z-]+\/\d+)'/g)].map((m) => m[1]!)
  expect(formats.length).toBeGreaterThan(10)
  expect([...new Set(formats)].filter((f) => !page.includes(f))).toEqual([])
})

test('every key of parameters and verdicts is on the page', () => {
  const run = spawnSync(
    process.execPath,
    [join(root, 'bin/germane.mjs'), 'judge', join(root, 'examples/orrin-point.csv'), '--tester', 'larkfield', '--json'],
    { encoding: 'utf8', maxBuffer: 50_000_000 },
  )
  const document = JSON.parse(run.stdout) as Record<'parts' | 'parameters' | 'verdicts', object[]>
  const budget = document.parameters.flatMap((p) => (p as { budget: object[] }).budget)
  const keys = [
    ...Object.keys(document),
    ...keysOf(document.parts),
    ...keysOf(document.parameters),
    ...keysOf(budget),
    ...keysOf(document.verdicts),
  ]
  expect(keys.length).toBeGreaterThan(30)
  expect(
    keys.filter((k) => k !== 'format' && !new RegExp(`\`(?:[a-z]+\\[\\]\\.)?${k}(?:\\[\\])?\``).test(page)),
  ).toEqual([])
})
