import { join } from 'node:path'
import { Command } from 'commander'
import { expect, test } from 'vitest'
import { verbs } from '../../src/cli/commands.ts'
import { exitCodes } from '../../src/cli/exit.ts'

const page = join(import.meta.dirname, '../../docs/reference/commands.md')

const cell = (text: string): string => text.replaceAll('|', '\\|')

/** One verb or sub-verb: how it is called, what it does, its options. */
function section(command: Command, name: string, level: number): readonly string[] {
  const takes = command.registeredArguments.map((a) => (a.required ? `<${a.name()}>` : `[${a.name()}]`)).join(' ')
  const options = command.options.filter((o) => o.long !== '--help')
  return [
    `${'#'.repeat(level)} ${name}`,
    '',
    command.description(),
    '',
    `    germane ${name}${takes === '' ? '' : ` ${takes}`}`,
    '',
    ...command.registeredArguments.map((a) => `- \`${a.name()}\`: ${a.description || 'see above'}`),
    ...(command.registeredArguments.length > 0 ? [''] : []),
    ...(options.length === 0
      ? []
      : [
          '| option | meaning |',
          '|---|---|',
          ...options.map((o) => `| \`${cell(o.flags)}\` | ${cell(o.description)} |`),
          '',
        ]),
    ...command.commands.flatMap((c) => section(c, `${name} ${c.name()}`, level + 1)),
  ]
}

/** The whole page, made from the commands themselves. */
async function manual(): Promise<string> {
  const lines = [
    '# Commands',
    '',
    'This page is made from the commands themselves: `npm test -- test/cli/commands-doc.test.ts -u`.',
    '',
    "Every verb takes `--json` (one document on stdout, people's text never mixed in; see [JSON](json.md)) and",
    '`--example`; a file name of `-` reads standard input. Errors stand on stderr: with `--json` as one document',
    '`germane/faults/1`. The environment variable `GERMANE_BOOK` names the book where `--book` does not.',
    '',
    '| exit code | meaning |',
    '|---|---|',
    `| ${exitCodes.done} | done |`,
    `| ${exitCodes.notConforming} | done, and something does not conform |`,
    `| ${exitCodes.unusable} | the input cannot be used; stderr says why |`,
    `| ${exitCodes.internal} | a fault inside Germane itself |`,
    '',
  ]
  for (const verb of verbs) {
    const command = new Command(verb.name).description(verb.summary)
    ;(await verb.load()).define(command)
    lines.push(...section(command, verb.name, 2))
  }
  return `${lines.join('\n').trimEnd()}\n`
}

test('the page of commands is what the commands say', async () => {
  const text = await manual()
  for (const verb of verbs) expect(text).toContain(`## ${verb.name}\n`)
  await expect(text).toMatchFileSnapshot(page)
})
