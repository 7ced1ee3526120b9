import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { CommanderError } from 'commander'
import { expect, test, vi } from 'vitest'
import { germane as commandLine } from '#cli'
import { dialExampleCsv, scaleExampleCsv } from '#core/upkeep'

/** Pages whose `console` blocks are a command line behind a dollar sign and what it prints. */
const folder = join(import.meta.dirname, '../../docs/how-to')

/** Words of a command line; those in double quotes stay together. */
const wordsOf = (line: string): readonly string[] =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain!)

async function printed(args: readonly string[]): Promise<string> {
  const here = await commandLine(() => true)
  let text = ''
  const spy = vi.spyOn(process.stdout, 'write').mockImplementation((more) => {
    text += String(more)
    return true
  })
  try {
    await here.parseAsync(args, { from: 'user' })
  } catch (error) {
    if (!(error instanceof CommanderError) || error.exitCode !== 0) throw error
  } finally {
    spy.mockRestore()
    process.exitCode = 0
  }
  return text
}

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
])('examples/%s is what the command prints as its example', (file, example) =>
  expect(readFileSync(join(folder, '../../examples', file), 'utf8')).toBe(example),
)
