import { join } from 'node:path'
import type { Command, Option } from 'commander'
import { expect, test } from 'vitest'
import { exitCodes, germane, verbs } from '#cli'

const page = join(import.meta.dirname, '../../docs/reference/commands.md')

const cell = (text: string): string => text.replaceAll('|', '\\|')

/** What an option is taken for where it is left out, unless its description says so. */
const takenFor = (o: Option): string =>
  o.defaultValue === undefined || o.description.includes('default') ? '' : ` (default: ${String(o.defaultValue)})`

/** One verb or sub-verb: how it is called, what it does, what it takes. */
function section(command: Command, name: string, level: number): readonly string[] {
  const takes = command.registeredArguments.map((a) => (a.required ? `<${a.name()}>` : `[${a.name()}]`))
  const options = command.options.filter((o) => o.long !== '--help' && !o.hidden)
  const verb = command.commands.length === 0 ? [] : ['VERB']
  return [
    `${'#'.repeat(level)} ${name}`,
    '',
    command.description(),
    '',
    `    germane ${[name, ...verb, ...takes].join(' ')}`,
    '',
    ...command.registeredArguments.map((a) => `- \`${a.name()}\`: ${a.description}`),
    ...(takes.length > 0 ? [''] : []),
    ...(options.length === 0
      ? []
      : [
          '| option | meaning |',
          '|---|---|',
          ...options.map((o) => `| \`${cell(o.flags)}\` | ${cell(o.description + takenFor(o))} |`),
          '',
        ]),
    ...command.commands.flatMap((c) => section(c, `${name} ${c.name()}`, level + 1)),
  ]
}

/** The whole page, made from the commands themselves. */
async function manual(): Promise<string> {
  const program = await germane(() => true)
  const lines = [
    '# Commands',
    '',
    'This page is made from the commands themselves: `npm test -- test/cli/commands-doc.test.ts -u`.',
    '',
    'Every verb takes `--json`: one document on stdout and nothing else, see [JSON](json.md). Every verb takes `--example`,',
    'which prints an input that works (the verbs of `tester`, `type`, `part` and `book` that of their group, unless they say that they',
    'have one of their own), and `--help`. With `--json` the example is one document: the file in its JSON form, where it has one',
    'that reads back, else `germane/example/1` with its text in it. A file name of `-` reads standard input, one file a command. A value that begins with',
    'a minus sign stands after `--`. `germane --version` says the version; `germane help VERB` is `germane VERB --help`.',
    '',
    '| exit code | meaning |',
    '|---|---|',
    `| ${exitCodes.done} | done |`,
    `| ${exitCodes.notConforming} | done, and something does not conform; for \`book check\`: something is wrong with the book |`,
    `| ${exitCodes.unusable} | the input cannot be used; stderr says why, and nothing was changed |`,
    `| ${exitCodes.internal} | a fault inside Germane itself |`,
    '',
    'Faults stand on stderr, all of an input at once: for people the first twenty, with `--json` every one, as one document,',
    '`germane/faults/1`. Tables keep to the width of a terminal; in a file or a pipe each row is one line.',
    '',
    '| environment | meaning |',
    '|---|---|',
    '| `GERMANE_BOOK` | the book to use where `--book` does not name one |',
    '',
    ...program.commands.flatMap((command) => section(command, command.name(), 2)),
  ]
  return `${lines.join('\n').trimEnd()}\n`
}

test('the page of commands is what the commands say', async () => {
  const text = await manual()
  for (const verb of verbs) expect(text).toContain(`## ${verb.name}\n`)
  await expect(text).toMatchFileSnapshot(page)
})

test('every argument and option says what it is', async () => {
  const every = (c: Command): readonly Command[] => [c, ...c.commands.flatMap(every)]
  const silent = every(await germane(() => true)).flatMap((c) => [
    ...c.registeredArguments.filter((a) => a.description === '').map((a) => `${c.name()} ${a.name()}`),
    ...c.options.filter((o) => o.description === '').map((o) => `${c.name()} ${o.flags}`),
  ])
  expect(silent).toEqual([])
})
