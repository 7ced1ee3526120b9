// npm run bench: bundles and runs the benchmarks in benchmarks/ and prints their figures as a table; all of them, or the
// one that is named, as in `node scripts/bench.mjs coverage`.
import { join } from 'node:path'
import { ensureReady, root, run } from './ready.mjs'

const name = process.argv[2] ?? 'all'
const bundle = join(root, `dist/benchmark-${name}.mjs`)

await ensureReady()
const { build } = await import('esbuild')
await build({
  entryPoints: [join(root, `benchmarks/${name}.ts`)],
  outfile: bundle,
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
run(process.execPath, [bundle, root, ...process.argv.slice(3)])
