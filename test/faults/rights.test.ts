import { chmodSync, mkdirSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { closeBook, contentHash, createBook } from '#book'
import { ownFolder } from '../book/folder.ts'
import { atMinute } from '../book/invented.ts'
import { children } from './children.ts'

const inFolder = ownFolder()
const start = children()
const readOnly = 'cannot be written, because the file or its folder is read-only'

/** A folder with a book in it; children work in it as a user who has only the rights given here. */
async function folderWithBook(name: string, fileMode: number, folderMode: number): Promise<string> {
  const folder = inFolder(name)
  mkdirSync(folder)
  chmodSync(inFolder('.'), 0o755)
  const file = join(folder, 'book.germane')
  await closeBook(await createBook(file, atMinute(0)))
  chmodSync(file, fileMode)
  chmodSync(folder, folderMode)
  afterAll(() => chmodSync(folder, 0o755))
  return file
}

async function saidBy(...args: string[]): Promise<readonly string[]> {
  const child = start(...args)
  expect(await child.ended).toBe(0)
  return child.lines
}

test('a file that may not be written is refused, and nothing is left beside it', async () => {
  const file = await folderWithBook('read-only-file', 0o444, 0o777)
  const before = contentHash(readFileSync(file))
  expect(await saidBy('try', 'open', file)).toEqual([
    `fault ${file}: ${readOnly}. Give yourself the right to write there, or copy the book to another folder. Nothing was changed.`,
  ])
  expect(contentHash(readFileSync(file))).toBe(before)
  expect(readdirSync(inFolder('read-only-file'))).toEqual(['book.germane'])
})

// the modes of a folder mean nothing to Windows
const folders = process.platform === 'win32' ? [] : ['read-only-folder']

test.each(folders)('%s: no book is opened or made there, and no backup', async (name) => {
  const file = await folderWithBook(name, 0o666, 0o555)
  const elsewhere = await folderWithBook('elsewhere', 0o666, 0o777)
  const before = contentHash(readFileSync(file))
  for (const args of [
    ['open', file],
    ['create', inFolder(`${name}/new.germane`)],
    ['backup', elsewhere, inFolder(`${name}/copy.germane`)],
  ]) {
    const [said] = await saidBy('try', ...args)
    expect(said).toContain(`fault ${args.at(-1)}: `)
    expect(said).toMatch(/read-only|cannot be opened/)
  }
  expect(contentHash(readFileSync(file))).toBe(before)
  expect(readdirSync(inFolder(name))).toEqual(['book.germane'])
})
