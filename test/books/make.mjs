// Saves the small book of this release, and its export beside it: node test/books/make.mjs
// Run it once when a release is made. A book that a release has saved is never made again.
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build } from 'esbuild'

const root = join(import.meta.dirname, '..', '..')
const folder = join(root, 'node_modules', '.cache', 'germane-saved-book')
const outfile = join(folder, 'make.mjs')
mkdirSync(folder, { recursive: true })
await build({
  entryPoints: [join(import.meta.dirname, 'make.ts')],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  packages: 'external',
  logLevel: 'warning',
})
const { makeSavedBook } = await import(pathToFileURL(outfile).href)
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
await makeSavedBook(import.meta.dirname, version)
rmSync(folder, { recursive: true })
console.log(`test/books/${version}.germane and its export are saved.`)
