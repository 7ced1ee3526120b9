import { readFileSync } from 'node:fs'
import { FaultError } from '#core/fault'

/** A text and the name to give it in messages. */
export interface InputText {
  readonly text: string
  readonly file: string
}

let isInputTaken = false

/** Largest input file read, bytes: far above any real lot, far below what would exhaust memory. */
const largestInput = 200_000_000

/**
 * Reads a file as text; `-` is standard input.
 *
 * @throws {FaultError} `file` where it is missing, a folder, unreadable or too large
 */
export function readInput(path: string): InputText {
  const file = path === '-' ? 'standard input' : path
  if (path === '-' && isInputTaken)
    throw new FaultError({
      code: 'usage',
      problem: 'Standard input was named twice with -',
      mend: 'Put one of the two into a file.',
    })
  isInputTaken ||= path === '-'
  try {
    const bytes = readFileSync(path === '-' ? 0 : path)
    if (bytes.length > largestInput)
      throw new FaultError({
        code: 'file',
        file,
        problem: 'is larger than 200 MB',
        mend: 'Split it into smaller files.',
      })
    return { text: bytes.toString('utf8'), file }
  } catch (error) {
    if (error instanceof FaultError) throw error
    throw new FaultError({ code: 'file', file, ...fileProblem(error) })
  }
}

function fileProblem(error: unknown): { problem: string; mend: string } {
  const code = (error as NodeJS.ErrnoException).code
  if (code === 'ENOENT') return { problem: 'is not there', mend: 'Check the name, or give - to read standard input.' }
  if (code === 'EISDIR') return { problem: 'is a folder, not a file', mend: 'Name a file inside it.' }
  if (code === 'EACCES' || code === 'EPERM')
    return { problem: 'may not be read', mend: 'Change its permissions, or copy it to where you may read.' }
  return { problem: `cannot be read (${code ?? String(error)})`, mend: 'Check the file and try again.' }
}
