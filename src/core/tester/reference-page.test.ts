import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readingsExampleCsv, readingsExampleJson, testerExample } from './example.ts'
import { readTester, testerSchema } from './read-tester.ts'
import { readingFields } from './reading-entry.ts'
import { readReadings } from './readings-file.ts'
import { readingKinds } from './tester.ts'

const page = (name: string): string => readFileSync(new URL(`../../../docs/reference/${name}`, import.meta.url), 'utf8')

/** Names of all keys in a JSON Schema. */
function keysOf(schema: unknown): readonly string[] {
  if (typeof schema !== 'object' || schema === null) return []
  return Object.entries(schema).flatMap(([key, value]) => [
    ...(key === 'properties' ? Object.keys(value as object) : []),
    ...keysOf(value),
  ])
}

test('the page on testers shows the example, and names every key', () => {
  const text = page('testers.md')
  expect(text).toContain(`\`\`\`yaml\n${testerExample}\`\`\``)
  const missing = [...new Set(keysOf(testerSchema()))].filter(
    (k) => !text.includes(`\`${k}\``) && !text.includes(`\`${k}: `),
  )
  expect(missing).toEqual([])
})

test('the page on readings shows the examples, and names every column and reading', () => {
  const text = page('readings.md')
  expect(text).toContain(`\`\`\`csv\n${readingsExampleCsv}\`\`\``)
  expect(text).toContain(`\`\`\`json\n${readingsExampleJson}\`\`\``)
  for (const name of [...readingFields.map((f) => f.name), ...readingKinds]) expect(text).toContain(`\`${name}\``)
})

test('the examples fit each other', () => {
  const read = readTester(testerExample)
  if (!read.ok) throw new Error('the example tester does not read')
  for (const text of [readingsExampleCsv, readingsExampleJson])
    expect(readReadings(text, { tester: read.tester })).toMatchObject({ ok: true })
})
