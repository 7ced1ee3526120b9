import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { netlistExampleYaml, stageExampleYaml } from '#core/stage'
import { dialExampleCsv, foundExampleCsv, scaleExampleCsv } from '#core/upkeep'
import { printed } from './here.ts'

/** Pages whose `console` blocks are a command line behind a dollar sign and what it prints. */
const folder = join(import.meta.dirname, '../../docs/how-to')

/** Words of a command line; those in double quotes stay together. */
const wordsOf = (line: string): readonly string[] =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain!)

const block = /```console\n\$ germane (.*)\n[\s\S]*?```/g

test.each(readdirSync(folder))('%s shows what the commands print', async (page) => {
  const text = readFileSync(join(folder, page), 'utf8')
  const outputs = new Map<string, string>()
  for (const [, line] of text.matchAll(block)) outputs.set(line!, await printed(wordsOf(line!)))
  const made = text.replace(
    block,
    (_, line: string) => `\`\`\`console\n$ germane ${line}\n${outputs.get(line)!.trimEnd()}\n\`\`\``,
  )
  await expect(made).toMatchFileSnapshot(join(folder, page))
})

test.each([
  ['movement.csv', scaleExampleCsv],
  ['gain-dial.csv', dialExampleCsv],
  ['found.csv', foundExampleCsv],
  ['stage.yaml', stageExampleYaml],
  ['stage-netlist.yaml', netlistExampleYaml],
])('examples/%s is what the command prints as its example', (file, example) =>
  expect(readFileSync(join(folder, '../../examples', file), 'utf8')).toBe(example),
)
