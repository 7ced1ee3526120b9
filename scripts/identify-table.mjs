// node scripts/identify-table.mjs: makes src/core/identify/likelihoods.gen.json anew, the curves of imagined parts from
// which the likelihoods of readings are taken. The same seed gives the same file; a test recomputes a sample of it.
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { ensureInstalled, root } from './ready.mjs'

const seed = 1
const draws = 64

ensureInstalled()
const { build } = await import('esbuild')
const bundle = join(root, 'dist/identify-table.mjs')
await build({
  stdin: { contents: "export { makeTable } from '#core/identify'", resolveDir: root },
  outfile: bundle,
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  banner: {
    js: "import { createRequire as __cr } from 'node:module'; const require = __cr(import.meta.url);",
  },
  logLevel: 'warning',
})
const { makeTable } = await import(pathToFileURL(bundle).href)
writeFileSync(
  join(root, 'src/core/identify/likelihoods.gen.json'),
  `${JSON.stringify(makeTable(seed, draws), null, 1)}\n`,
)
