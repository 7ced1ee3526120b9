import { accessSync, closeSync, constants, openSync, readSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import { bookFault, codeOf } from './trouble.ts'

/** `application_id` of a book: the letters "Germ". */
export const applicationId = 0x4765726d

/** What the first hundred bytes of the file say (SQLite file format, section 1.3). */
interface Header {
  readonly pageBytes: number
  /** Pages the file should have; 0 where an old writer left it out. */
  readonly pages: number
  readonly version: number
  readonly application: number
}

const headerBytes = 100
const magic = 'SQLite format 3\0'
const takeBackup = 'Keep this file as it is and go on with the newest backup.'

/**
 * Looks at a file without opening it as a database, so that a file that is not ours is not touched.
 *
 * @returns true where the file is shorter than it says, and a write-ahead file beside it may make up for that
 * @throws {FaultError} `book`: no such file, a folder, empty, no book, cut short, newer, not writable
 */
export function inspectFile(file: string, path: string, newest: number): boolean {
  const bytes = sizeOf(file, path)
  if (bytes === 0) throw bookFault(file, 'is empty, so it is not a book', 'Check the name, or go back to a backup.')
  const header = headerOf(file, path, bytes)
  if (header.application !== applicationId)
    throw bookFault(
      file,
      'is a database of another program, not a Germane book',
      'Check the name. Nothing was changed.',
    )
  requireKnown(file, header.version, newest)
  requireWritable(file, path)
  const expected = header.pages * header.pageBytes
  if (bytes >= expected) return false
  if (sizeOrZero(`${path}-wal`) > 0) return true
  throw bookFault(file, `is cut short: it has ${bytes} bytes of ${expected}`, takeBackup)
}

/** @throws {FaultError} `book` where the book was written by a newer Germane */
export function requireKnown(file: string, version: number, newest: number): void {
  if (version <= newest) return
  throw bookFault(
    file,
    `was written by a newer Germane (book version ${version}; this Germane knows up to ${newest})`,
    'Update Germane, then open it again. Nothing was changed.',
  )
}

function sizeOf(file: string, path: string): number {
  try {
    const found = statSync(path)
    if (found.isDirectory()) throw bookFault(file, 'is a folder, not a book', 'Name the book file inside it.')
    if (!found.isFile()) throw bookFault(file, 'is not a file', 'Name a book file.')
    return found.size
  } catch (error) {
    if (codeOf(error) !== 'ENOENT' && codeOf(error) !== 'ENOTDIR') throw error
    throw bookFault(
      file,
      'there is no book of this name',
      `Check the name, or make it with "germane book create ${file}".`,
      error,
    )
  }
}

function sizeOrZero(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0
}

function headerOf(file: string, path: string, bytes: number): Header {
  const head = Buffer.alloc(headerBytes)
  const handle = openSync(path, 'r')
  try {
    readSync(handle, head, 0, headerBytes, 0)
  } finally {
    closeSync(handle)
  }
  if (head.toString('latin1', 0, magic.length) !== magic)
    throw bookFault(file, 'is not a Germane book', 'Check the name. Nothing was changed.')
  if (bytes < headerBytes) throw bookFault(file, `is cut short: it has only ${bytes} bytes`, takeBackup)
  const pageBytes = head.readUInt16BE(16)
  return {
    pageBytes: pageBytes === 1 ? 65_536 : pageBytes,
    pages: head.readUInt32BE(24) === head.readUInt32BE(92) ? head.readUInt32BE(28) : 0,
    version: head.readUInt32BE(60),
    application: head.readUInt32BE(68),
  }
}

function requireWritable(file: string, path: string): void {
  try {
    accessSync(path, constants.W_OK)
    accessSync(dirname(path), constants.W_OK)
  } catch (error) {
    throw bookFault(
      file,
      'cannot be written, because the file or its folder is read-only',
      'Give yourself the right to write there, or copy the book to another folder. Nothing was changed.',
      error,
    )
  }
}
