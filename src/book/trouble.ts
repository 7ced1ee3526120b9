import { existsSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import { FaultError } from '#core/fault'

/** A fault about the book file, with its sentence in two halves. */
export const bookFault = (file: string, problem: string, mend: string, cause?: unknown): FaultError =>
  new FaultError({ code: 'book', file, problem, mend }, { cause })

interface Trouble {
  readonly problem: string
  readonly mend: string
}

const full: Trouble = {
  problem: 'the disk is full',
  mend: 'Make room and do it again. Nothing of this step was kept, and all that was there before is as it was.',
}
const readOnly: Trouble = {
  problem: 'cannot be written, because the file or its folder is read-only',
  mend: 'Give yourself the right to write there, or copy the book to another folder. Nothing was changed.',
}
const locked: Trouble = {
  problem: 'another program is writing to it and did not finish in time',
  mend: 'Wait until it has finished or close it, then do it again. Nothing was changed.',
}
const damaged: Trouble = {
  problem: 'is damaged',
  mend: 'Keep this file as it is and go on with the newest backup.',
}
const disk: Trouble = {
  problem: 'the disk reported an error',
  mend: 'Check the disk, then do it again. Nothing of this step was kept.',
}
const noFolder: Trouble = { problem: 'its folder does not exist', mend: 'Make the folder first, or choose another.' }
const cannotOpen: Trouble = {
  problem: 'cannot be opened',
  mend: 'Check that you may write the file and its folder, and that no other program keeps it. Nothing was changed.',
}
const cannotLoad: Trouble = {
  problem: "the database part of Germane can't be loaded",
  mend: 'Install Germane again with the Node you run it with. The book was not touched.',
}

/** By the head of an error code of SQLite or of the file system; the first that fits counts. */
const troubles: readonly (readonly [string, Trouble])[] = [
  ['SQLITE_FULL', full],
  ['SQLITE_IOERR_SHMSIZE', full],
  ['ENOSPC', full],
  ['EDQUOT', full],
  ['EFBIG', full],
  ['SQLITE_READONLY', readOnly],
  ['EACCES', readOnly],
  ['EPERM', readOnly],
  ['EROFS', readOnly],
  ['SQLITE_BUSY', locked],
  ['SQLITE_LOCKED', locked],
  ['SQLITE_PROTOCOL', locked],
  ['SQLITE_CORRUPT', damaged],
  ['SQLITE_NOTADB', damaged],
  ['SQLITE_IOERR', disk],
  ['EIO', disk],
  ['SQLITE_CANTOPEN', cannotOpen],
  ['ENOENT', noFolder],
  ['ENOTDIR', noFolder],
  ['ERR_DLOPEN_FAILED', cannotLoad],
  ['ERR_MODULE_NOT_FOUND', cannotLoad],
]

/** The code of an error of SQLite or of the file system. */
export const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : ''

/** Turns what the database or the file system threw into a fault with a sentence; anything else is passed on. */
export function asFault(error: unknown, file: string): unknown {
  if (error instanceof FaultError) return error
  const code = codeOf(error)
  const found = troubles.find(([head]) => code.startsWith(head))
  if (found !== undefined) return bookFault(file, found[1].problem, found[1].mend, error)
  if (error instanceof Error && error.message.startsWith('Could not locate the bindings file'))
    return bookFault(file, cannotLoad.problem, cannotLoad.mend, error)
  return error
}

/** Does something to a file and says in a sentence what went wrong. */
export async function withSentence<T>(file: string, body: () => T | Promise<T>): Promise<T> {
  try {
    return await body()
  } catch (error) {
    throw asFault(error, file)
  }
}

/** The folder of a new file must be there. */
export function requireFolder(file: string, path: string): void {
  const folder = dirname(path)
  if (!existsSync(folder) || !statSync(folder).isDirectory()) throw bookFault(file, noFolder.problem, noFolder.mend)
}
