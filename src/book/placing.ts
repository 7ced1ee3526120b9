import { closeSync, existsSync, fsyncSync, linkSync, openSync, renameSync, rmSync } from 'node:fs'
import { dirname } from 'node:path'
import { bookFault, codeOf } from './trouble.ts'

/** Name under which a file is made before it gets its own: a process never meets another's. */
export const draftOf = (path: string): string => `${path}.${process.pid}.new`

/** Throws a draft away, with what SQLite keeps beside it. */
export function dropDraft(draft: string): void {
  for (const tail of ['', '-wal', '-shm', '-journal']) rmSync(`${draft}${tail}`, { force: true })
}

/**
 * Gives a finished draft its name, never over another file, and sees it to the disk.
 *
 * @throws {FaultError} `book` where there is a file of that name already
 */
export function place(draft: string, path: string, file: string): void {
  sync(draft, 'r+')
  try {
    linkSync(draft, path)
    rmSync(draft)
  } catch (error) {
    if (codeOf(error) === 'EEXIST') throw taken(file)
    // a file system without links: look, then rename
    requireFree(path, file)
    renameSync(draft, path)
  }
  if (process.platform !== 'win32') sync(dirname(path), 'r')
}

/** @throws {FaultError} `book` where there is a file of that name already */
export function requireFree(path: string, file: string): void {
  if (existsSync(path)) throw taken(file)
}

const taken = (file: string): Error =>
  bookFault(file, 'there is already a file of this name', 'Choose another name. Nothing was changed.')

function sync(path: string, flags: 'r' | 'r+'): void {
  const handle = openSync(path, flags)
  try {
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}
