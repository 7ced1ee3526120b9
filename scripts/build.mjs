// Bundles the command into dist/. Native parts stay outside and are loaded only when a book is opened.
import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { root } from './ready.mjs'

export async function build() {
  const { build: bundle } = await import('esbuild')
  rmSync(join(root, 'dist'), { recursive: true, force: true })
  await bundle({
    entryPoints: { germane: join(root, 'src/cli/main.ts') },
    outdir: join(root, 'dist'),
    bundle: true,
    splitting: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external: ['better-sqlite3'],
    banner: { js: "import { createRequire as __cr } from 'node:module'; const require = __cr(import.meta.url);" },
    chunkNames: 'part-[name]-[hash]',
    outExtension: { '.js': '.mjs' },
    logLevel: 'warning',
  })
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build()
