import { Command, CommanderError } from 'commander'
import { verbs } from './commands.ts'
import { exitCodes } from './exit.ts'
import { reportFailure } from './output.ts'
import { version } from './version.ts'

const program = new Command('germane')
  .description('The bench book of people who keep transistor-era electronics working.')
  .version(version)
  .addHelpText(
    'after',
    `
Every command takes --json (one document on stdout) and --example (prints an input that works);
a file name of - reads standard input.
Exit codes: 0 done, 1 done and something does not conform, 2 the input cannot be used, 3 a fault inside Germane.`,
  )
  .exitOverride()
  .configureOutput({ outputError: () => undefined })

try {
  const asked = process.argv.slice(2).find((a) => !a.startsWith('-'))
  for (const verb of verbs) {
    const command = program.command(verb.name).description(verb.summary).exitOverride()
    command.configureOutput({ outputError: () => undefined })
    if (verb.name === (asked === 'help' ? process.argv[3] : asked)) (await verb.load()).define(command)
  }
  await program.parseAsync()
} catch (error) {
  process.exitCode =
    error instanceof CommanderError && error.exitCode === 0
      ? exitCodes.done
      : reportFailure(error, process.argv.includes('--json'))
}
