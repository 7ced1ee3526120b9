import { mkdtempSync, realpathSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll } from 'vitest'

/** A folder of its own for one test file, gone when it ends. */
export function ownFolder(): (name: string) => string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'germane-book-')))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))
  return (name) => join(folder, name)
}
