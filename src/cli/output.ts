import { CommanderError } from 'commander'
import { explain, type Fault, FaultError } from '#core/fault'
import { exitCodes } from './exit.ts'

/** Prints one JSON document on stdout, ending in a line feed. */
export function printJson(document: unknown): void {
  process.stdout.write(`${JSON.stringify(document, null, 2)}\n`)
}

/** Prints lines for people on stdout. */
export function printLines(lines: readonly string[]): void {
  process.stdout.write(`${lines.join('\n')}\n`)
}

/** Says on stderr what went wrong and gives the exit code for it. With `--json` stderr holds one JSON document. */
export function reportFailure(error: unknown, json: boolean): number {
  const faults = faultsOf(error)
  if (faults === undefined) {
    process.stderr.write(
      `Germane itself failed, which it should never do: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    )
    return exitCodes.internal
  }
  if (json)
    process.stderr.write(
      `${JSON.stringify({ format: 'germane/faults/1', faults: faults.map((f) => ({ sentence: explain(f), ...f })) }, null, 2)}\n`,
    )
  else process.stderr.write(`${faults.map(explain).join('\n')}\n`)
  return exitCodes.unusable
}

function faultsOf(error: unknown): readonly Fault[] | undefined {
  if (error instanceof FaultError) return error.faults
  if (error instanceof CommanderError)
    return [
      {
        code: 'usage',
        problem: error.message.replace(/^error: /, '').replace(/\.$/, ''),
        mend: 'Run the command with --help to see what it takes.',
      },
    ]
  return undefined
}
