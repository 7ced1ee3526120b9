import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { netlistExampleYaml, positionFileSchema, stageExampleYaml } from '#core/stage'
import { readYaml } from '#core/text'

type Json = Readonly<Record<string, unknown>>

const schema = JSON.parse(JSON.stringify(positionFileSchema())) as Json
const page = readFileSync(join(import.meta.dirname, '../../docs/reference/stage.md'), 'utf8')

const dataOf = (text: string): Json => {
  const read = readYaml(text)
  if (!read.ok) throw new Error(text)
  return read.document.data as Json
}

/** Every key of an object the schema knows, however deep. */
function keysOf(part: unknown): readonly string[] {
  if (typeof part !== 'object' || part === null) return []
  const { properties = {} } = part as { properties?: object }
  return [...Object.keys(properties), ...Object.values(part).flatMap((inner) => keysOf(inner))]
}

test('the reference names every key of the schema', () => {
  const keys = [...new Set(keysOf(schema))]
  expect(keys).toContain('netlist')
  expect(keys.filter((key) => !new RegExp(`\\b${key}\\b`).test(page))).toEqual([])
})

test('the schema takes both forms, and refuses what is misspelled or mixed', () => {
  const outside = z.fromJSONSchema(schema)
  const isTaken = (data: Json): boolean => outside.safeParse(data).success
  const [template, netlist] = [dataOf(stageExampleYaml), dataOf(netlistExampleYaml)]
  expect([isTaken(template), isTaken(netlist)]).toEqual([true, true])
  expect(isTaken({ ...template, suply: '9 V' })).toBe(false)
  expect(isTaken({ ...netlist, polarity: 'PNP' })).toBe(false)
  expect(isTaken({ ...template, netlist: netlist.netlist })).toBe(false)
  expect(isTaken({ ...netlist, clipping: [{ between: ['c', 'e'] }] })).toBe(false)
})
