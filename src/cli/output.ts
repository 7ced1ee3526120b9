import { explain, type Fault, FaultError } from '#core/fault'
import { exitCodes } from './exit.ts'

/** Prints one JSON document on stdout, ending in a line feed. */
export function printJson(document: unknown): void {
  process.stdout.write(`${JSON.stringify(document, null, 2)}\n`)
}

/** Prints lines for people on stdout. */
export function printLines(lines: readonly string[]): void {
  process.stdout.write(`${harmless(lines.join('\n'))}\n`)
}

/** Text from a file without signs that would make the terminal do something. */
const harmless = (text: string): string => text.replaceAll(/(?![\n\t])\p{Cc}/gu, '\ufffd')

/** Ends quietly where the reader of stdout has gone away (`germane type find | head`), and says where it is full. */
export function endOutput(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit()
    process.stderr.write(
      `standard output: cannot be written (${error.code ?? error.message}). Check the disk it goes to.\n`,
    )
    process.exit(exitCodes.unusable)
  })
}

/** Says on stderr what went wrong and gives the exit code for it. With `--json` stderr holds one JSON document. */
export function reportFailure(error: unknown, json: boolean): number {
  if (!(error instanceof FaultError)) {
    process.stderr.write(
      `Germane itself failed, which it should never do: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    )
    return exitCodes.internal
  }
  const { faults } = error
  if (json)
    process.stderr.write(
      `${JSON.stringify({ format: 'germane/faults/1', faults: faults.map((f) => ({ sentence: explain(f), ...f })) }, null, 2)}\n`,
    )
  else process.stderr.write(`${harmless(faultLines(faults).join('\n'))}\n`)
  return exitCodes.unusable
}

/** A file with one wrong column has a fault in every row: people read the first of them. */
const mostFaults = 20

function faultLines(faults: readonly Fault[]): readonly string[] {
  if (faults.length <= mostFaults + 1) return faults.map(explain)
  const left = faults.length - mostFaults
  return [...faults.slice(0, mostFaults).map(explain), `And ${left} more; --json prints them all.`]
}
