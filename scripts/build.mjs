// Builds into dist/: the bundled command, and the page it serves. Native parts stay outside and are loaded only when a
// book is opened.
import { existsSync, readdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { buildPage } from './build-page.mjs'
import { root } from './ready.mjs'

const dist = join(root, 'dist')

/** Files of an older command; the page and whatever else lies in dist/ stay. */
function dropOldCommand() {
  if (!existsSync(dist)) return
  for (const name of readdirSync(dist)) if (/\.mjs$/.test(name)) rmSync(join(dist, name))
}

async function buildCommand() {
  const { build: bundle } = await import('esbuild')
  dropOldCommand()
  await bundle({
    entryPoints: {
      germane: join(root, 'src/cli/main.ts'),
      'germane-worker': join(root, 'src/server/worker.ts'),
      'germane-fit-worker': join(root, 'src/bench/fit-worker.ts'),
      'germane-match-worker': join(root, 'src/bench/match-worker.ts'),
    },
    outdir: dist,
    bundle: true,
    splitting: true,
    minifyWhitespace: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external: ['better-sqlite3', '@resvg/resvg-js', 'highs'],
    banner: { js: "import { createRequire as __cr } from 'node:module'; const require = __cr(import.meta.url);" },
    chunkNames: 'part-[name]-[hash]',
    outExtension: { '.js': '.mjs' },
    logLevel: 'warning',
  })
}

export async function build() {
  await buildCommand()
  await buildPage()
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build()
