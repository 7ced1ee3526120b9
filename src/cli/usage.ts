import type { Command, CommanderError } from 'commander'
import type { Fault } from '#core/fault'
import { nearNames } from '#core/text'
import { notAmong } from './words.ts'

/** The command that was meant, and the first word after it. */
interface Meant {
  readonly command: Command
  /** As it is typed: `germane tester show`. */
  readonly path: string
  readonly next?: string
}

function meant(program: Command, words: readonly string[]): Meant {
  let command = program
  let path = program.name()
  for (const word of words.filter((w) => !w.startsWith('-'))) {
    const found = command.commands.find((c) => c.name() === word)
    if (found === undefined) return { command, path, next: word }
    command = found
    path = `${path} ${word}`
  }
  return { command, path }
}

const verbsOf = (command: Command): readonly string[] => command.commands.map((c) => c.name())

/** The fault for a verb that is not there; undefined where every verb is. */
export function unknownVerb(program: Command, words: readonly string[]): Fault | undefined {
  const { command, path, next } = meant(program, words)
  const verbs = verbsOf(command)
  if (next === undefined || verbs.length === 0) return undefined
  return {
    code: 'not-found',
    what: `verb of ${path}`,
    name: next,
    near: nearNames(next, verbs),
    mend: `Its verbs are: ${verbs.join(', ')}.`,
  }
}

/** What is wrong with a command line, as a fault with a sentence of ours. */
export function usageFault(error: CommanderError, program: Command, words: readonly string[]): Fault {
  const verb = unknownVerb(program, words)
  if (verb !== undefined) return verb
  const { command, path } = meant(program, words)
  const named = /'([^']+)'/.exec(error.message)?.[1] ?? ''
  const form = `Write it as: ${path} ${command.usage()}.`
  switch (error.code) {
    case 'commander.unknownOption':
      return unknownOption(named, command, path)
    case 'commander.missingArgument':
      return { code: 'usage', problem: `${path} lacks its <${named}>`, mend: form }
    case 'commander.excessArguments': {
      const extra = command.args[command.registeredArguments.length] ?? ''
      return {
        code: 'usage',
        problem: `"${extra}" is more than ${path} takes`,
        mend: `${form} Text with blanks goes in quotes.`,
      }
    }
    case 'commander.missingMandatoryOptionValue':
      return mandatory(named, command, path)
    case 'commander.invalidArgument':
      return choice(error.message, named, command) ?? { code: 'usage', problem: plainly(error), mend: form }
    case 'commander.optionMissingArgument':
      return { code: 'usage', problem: `${named.split(' ')[0]} lacks its value`, mend: `Write it as ${named}.` }
    default:
      return { code: 'usage', problem: plainly(error), mend: form }
  }
}

const plainly = (error: CommanderError): string => error.message.replace(/^error: /, '').replace(/\.?\s*$/, '')

/** An option that the command cannot do without, with what it stands for. */
function mandatory(flags: string, command: Command, path: string): Fault {
  const meaning = command.options.find((o) => o.flags === flags)?.description
  const what = meaning === undefined ? '' : `: ${meaning}`
  return { code: 'usage', problem: `${path} lacks ${flags}`, mend: `Add it${what}.` }
}

/** A word that is none of those an option takes. */
function choice(message: string, flags: string, command: Command): Fault | undefined {
  const words = command.options.find((o) => o.flags === flags)?.argChoices
  const value = /argument '([^']*)' is invalid/.exec(message)?.[1]
  if (words === undefined || value === undefined) return undefined
  return notAmong(flags.split(' ')[0]!, value, words)
}

function unknownOption(name: string, command: Command, path: string): Fault {
  const options = command.options.map((o) => o.long ?? o.flags)
  const verbs = verbsOf(command)
  const mend = /^-[\d.,]/.test(name)
    ? 'Write -- before a value that begins with a minus sign.'
    : verbs.length > 0
      ? `Name a verb first: ${verbs.join(', ')}.`
      : `"${path} --help" shows its options.`
  return { code: 'not-found', what: `option of ${path}`, name, near: nearNames(name, options), mend }
}
