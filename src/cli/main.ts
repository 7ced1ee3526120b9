import { type Command, CommanderError } from 'commander'
import { FaultError } from '#core/fault'
import { exitCodes } from './exit.ts'
import { endOutput, reportFailure } from './output.ts'
import { germane } from './program.ts'
import { unknownVerb, usageFault } from './usage.ts'

/** What was typed; `help tester show` says the same as `tester show --help`. */
const [first, ...rest] = process.argv.slice(2)
const typed = first === undefined ? ['--help'] : first === 'help' ? [...rest, '--help'] : [first, ...rest]

async function run(program: Command): Promise<void> {
  const fault = typed.includes('--help') ? unknownVerb(program, typed) : undefined
  if (fault !== undefined) throw new FaultError(fault)
  await program.parseAsync(typed, { from: 'user' })
}

endOutput()
const asked = typed.find((a) => !a.startsWith('-'))
const program = await germane((verb) => verb === asked)
try {
  await run(program)
} catch (error) {
  const told = error instanceof CommanderError ? new FaultError(usageFault(error, program, typed)) : error
  process.exitCode =
    error instanceof CommanderError && error.exitCode === 0
      ? exitCodes.done
      : reportFailure(told, typed.includes('--json'))
}
