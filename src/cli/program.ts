import { Command } from 'commander'
import { verbs } from './commands.ts'
import { version } from './version.ts'

/**
 * The command line. Of the verbs only those that `wants` names are loaded, so that `--help` stays quick; the others
 * have their name and summary.
 */
export async function germane(wants: (verb: string) => boolean): Promise<Command> {
  const program = new Command('germane')
    .description('The bench book of people who keep transistor-era electronics working.')
    .version(version)
    .addHelpText(
      'after',
      `
Begin with "germane demo", or with "germane VERB --help" and its --example.
Every command takes --json (one document on stdout) and --example (prints an
input that works); a file name of - reads standard input.
Exit codes: 0 done, 1 done and something does not conform, 2 the input cannot be
used, 3 a fault inside Germane.`,
    )
    .exitOverride()
    .showSuggestionAfterError(false)
    .configureOutput({ outputError: () => undefined })
  for (const verb of verbs) {
    const command = program.command(verb.name).description(verb.summary)
    if (wants(verb.name)) (await verb.load()).define(command)
  }
  return program
}
