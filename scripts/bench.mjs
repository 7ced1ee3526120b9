// npm run bench: bundles and runs the benchmarks in benchmarks/ and prints their figures as a table.
import { join } from 'node:path'
import { ensureReady, root, run } from './ready.mjs'

await ensureReady()
const { build } = await import('esbuild')
await build({
  entryPoints: [join(root, 'benchmarks/all.ts')],
  outfile: join(root, 'dist/benchmarks.mjs'),
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  external: ['better-sqlite3', '@resvg/resvg-js', 'playwright-core'],
  banner: {
    js: "import { createRequire as __cr } from 'node:module'; const require = __cr(import.meta.url);",
  },
  logLevel: 'warning',
})
run(process.execPath, [join(root, 'dist/benchmarks.mjs'), root])
